#include <fmt/format.h>

#include <cmath>

#include "solver/app/chart.hpp"
#include "solver/app/show_explore.hpp"

namespace barwright::app {
namespace {

// Prints on A4 and Letter: the narrower width and the shorter height of the two hold.
constexpr const char* kHead =
    "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width\">\n<title>{0}</title>\n<style>\n"
    "body{{font:15px/1.45 sans-serif;max-width:46em;margin:1.5em auto;padding:0 1em;color:#000;"
    "background:#fff}}\nh1{{font-size:1.5em}}h2{{font-size:1.15em;border-bottom:1px solid #000;"
    "margin-top:1.6em}}\ntable{{border-collapse:collapse;margin:.6em 0}}"
    "td,th{{padding:.2em .8em .2em 0;text-align:left;border-bottom:1px solid #bbb;"
    "vertical-align:top}}\ntd.n{{text-align:right;white-space:nowrap}}\n"
    "svg{{max-width:100%;height:auto}}\n"
    "@page{{margin:16mm}}@media print{{body{{font-size:11pt;margin:0;padding:0;max-width:none}}"
    "table,svg{{break-inside:avoid}}h2{{break-after:avoid}}}}\n</style></head><body>\n"
    "<h1>{0}</h1>\n";

std::string money(double value, const std::string& currency) {
  return fmt::format("{:.2f} {}", value, escaped(currency));
}

std::string plan_part(const solver::ExploreJob& job, const solver::Explored& seen) {
  std::string out = "<h2>What to buy</h2>\n";
  if (!seen.no_plan.empty()) return out + "<p>" + escaped(seen.no_plan) + "</p>\n";
  const auto& plan = *seen.plan;
  const std::string& currency = job.candidates().currency;
  out += "<table><tr><th>packs</th><th>what</th><th>pack</th><th>money</th></tr>\n";
  for (const auto& buy : plan.buys) {
    const auto& pack =
        job.packs[static_cast<std::size_t>(buy.oil)][static_cast<std::size_t>(buy.pack)];
    out += fmt::format(
        "<tr><td class=n>{}</td><td>{}</td><td class=n>{:.4g} kg</td><td class=n>{}</td></tr>\n",
        buy.count, escaped(pack.product), pack.grams / 1000,
        money(buy.count * pack.price, currency));
  }
  out += fmt::format(
      "<tr><td></td><td>delivery</td><td></td><td class=n>{}</td></tr>\n"
      "<tr><td></td><th>cash out</th><td></td><td class=n><b>{}</b></td></tr></table>\n<p>{}</p>\n",
      money(plan.delivery, currency), money(plan.cash(), currency),
      plan.proved ? "Proved: no other purchase of these packs costs less and makes the range."
                  : "Not proved the least: the search was cut short.");
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    out += fmt::format(
        "<p><b>{}:</b> {}</p>\n", escaped(job.bars[b].what_for),
        escaped(blend_words(job, plan.steps[b], seen.bars[b].found.formulation.problem.steps)));
  }
  if (seen.order_by) {
    out += fmt::format(
        "<p>Order by <b>{}</b>: {} days to the door (assumed), {} days of making, "
        "{} days of cure.</p>\n",
        core::text(*seen.order_by), seen.delivery_days, seen.making_days, seen.cure_days);
  }
  return out;
}

std::string traced_part(const solver::ExploreJob& job, const solver::TracedTrade& traced, int all) {
  const auto& [up, across] = traced.trade;
  const std::string title = up.name + " against " + across.name;
  if (!traced.no_curve.empty()) {
    return "<p>" + escaped(title + ": " + traced.no_curve) + "</p>\n";
  }
  Chart chart{title, side_words(job, across), side_words(job, up), {}};
  std::string rows;
  for (std::size_t k = 0; k < traced.seen.size(); ++k) {
    const auto& point = traced.curve.points[k];
    if (!point.new_blend) continue;
    chart.points.push_back(traced.seen[k]);
    rows += fmt::format("<tr><td class=n>{:.2f}</td><td class=n>{:.2f}</td><td>{}</td></tr>\n",
                        traced.seen[k].second, traced.seen[k].first,
                        escaped(blend_words(job, point.answer.steps, all)));
  }
  return svg(chart) +
         fmt::format(
             "<table><tr><th>{}</th><th>{}</th><th>blend</th></tr>\n{}</table>\n<p>{}</p>\n",
             escaped(side_words(job, up)), escaped(side_words(job, across)), rows,
             traced.curve.proved ? "Every point is proved."
                                 : "Not every point was proved in the time given.");
}

std::string bar_part(const solver::ExploreJob& job, const solver::ExploreBar& bar,
                     const solver::ExploredBar& one) {
  std::string out = fmt::format("<h2>{}</h2>\n<p>{} bars, {} batches.</p>\n", escaped(bar.what_for),
                                bar.bars, bar.batches);
  if (!one.found.has_blend()) return out + "<p>No blend keeps the wishes for this bar.</p>\n";
  const int all = one.found.formulation.problem.steps;
  const std::string& currency = job.candidates().currency;
  out += "<p>Best alone: " + escaped(blend_words(job, one.found.answer.steps, all)) + "</p>\n";
  for (std::size_t k = 1; k < one.others.found.size(); ++k) {
    out += fmt::format("<p>Another, {:.0f} % moved: {}</p>\n", 100 * one.others.found[k].distance,
                       escaped(blend_words(job, one.others.found[k].answer.steps, all)));
  }
  Chart chart{"Feel against oil cost",
              "oil cost, " + currency + " per kg",
              "feel, steps from the bar compared with",
              {}};
  std::string rows;
  for (const auto& point : one.curve.points) {
    if (!point.new_blend) continue;
    const double feel = std::sqrt(std::max(0.0, point.first));
    chart.points.emplace_back(point.second, feel);
    rows += fmt::format("<tr><td class=n>{}</td><td class=n>{:.1f}</td><td>{}</td></tr>\n",
                        money(point.second, currency), feel,
                        escaped(blend_words(job, point.answer.steps, all)));
  }
  if (!chart.points.empty()) {
    out += svg(chart);
    out += "<table><tr><th>per kg</th><th>steps</th><th>blend</th></tr>\n" + rows + "</table>\n";
    out += one.curve.proved ? "<p>Every point is proved. One step is about what a user would just "
                              "notice (our judgement).</p>\n"
                            : "<p>Not every point was proved in the time given.</p>\n";
  }
  for (const auto& traced : one.traced) out += traced_part(job, traced, all);
  out += "<table><tr><th>oil</th><th>now, per kg</th><th>may rise to</th></tr>\n";
  for (const auto& room : one.room) {
    out += fmt::format("<tr><td>{}</td><td class=n>{}</td><td class=n>{}</td></tr>\n",
                       escaped(job.candidates().oils[static_cast<std::size_t>(room.oil)].oil.name),
                       money(room.now, currency),
                       !room.turns.proved  ? "not settled"
                       : room.turns.per_kg ? money(*room.turns.per_kg, currency)
                                           : "any price");
  }
  return out + "</table>\n";
}

}  // namespace

std::string page_explore(const solver::ExploreJob& job, const solver::Explored& seen) {
  std::string out = fmt::format(fmt::runtime(kHead), escaped(job.brief.name));
  out += plan_part(job, seen);
  for (std::size_t b = 0; b < job.bars.size(); ++b) out += bar_part(job, job.bars[b], seen.bars[b]);
  return out + "</body></html>\n";
}

}  // namespace barwright::app
