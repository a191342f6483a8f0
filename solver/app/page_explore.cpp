#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solver/app/chart.hpp"
#include "solver/app/rows_explore.hpp"
#include "solver/app/screen.hpp"
#include "solver/app/show_explore.hpp"
#include "solver/subject.hpp"
#include "targets/feel.hpp"

namespace barwright::app {
namespace {

// Black on white, nothing from elsewhere. On paper the narrower width (A4, 210 mm) and the shorter
// height (Letter, 279 mm) of the two hold; a chart stays with its table's head, rows are not torn.
constexpr const char* kHead =
    "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
    "<title>{0}</title>\n<style>\n"
    "body{{font:16px/1.45 sans-serif;max-width:48em;margin:1.5em auto;padding:0 1em;color:#000;"
    "background:#fff}}\n"
    "h1{{font-size:1.6em;margin:0 0 .1em}}h1+p{{margin-top:0}}\n"
    "h2{{font-size:1.25em;border-bottom:2px solid #000;margin:1.8em 0 .5em}}\n"
    "h3{{font-size:1em;margin:1.4em 0 .3em}}\n"
    "table{{border-collapse:collapse;margin:.4em 0}}\n"
    "td,th{{padding:.2em 1em .2em 0;text-align:left;border-bottom:1px solid #bbb;"
    "vertical-align:top;overflow-wrap:break-word}}\n"
    "th{{font-weight:bold;border-bottom:1px solid #000}}\n"
    ".n{{text-align:right;white-space:nowrap}}td span{{white-space:nowrap}}\n"
    ".sum td{{font-weight:bold;border-bottom:none}}\n"
    ".warn{{border-left:4px solid #000;padding-left:.6em}}\n"
    "svg{{max-width:100%;height:auto;display:block;margin:.6em 0}}\n"
    ".wide{{overflow-x:auto}}\n"
    "@media (max-width:40em){{body{{font-size:14px}}td,th{{padding-right:.5em}}"
    "th.n{{white-space:normal}}}}\n"
    "@page{{margin:15mm}}\n"
    "@media print{{body{{font-size:10.5pt;margin:0;padding:0;max-width:none}}\n"
    "h2,h3{{break-after:avoid}}svg,tr{{break-inside:avoid}}thead{{display:table-header-group}}\n"
    ".wide{{overflow:visible}}.bar{{break-before:page}}svg{{width:160mm}}h2{{margin-top:.6em}}}}\n"
    "</style></head><body>\n<h1>{0}</h1>\n";

std::string paragraph(const std::string& text, const char* css = "") {
  if (text.starts_with("! ")) return "<p class=\"warn\">" + escaped(text.substr(2)) + "</p>\n";
  return fmt::format("<p{}>{}</p>\n", css, escaped(text));
}

// A blend breaks between its oils only, also not at a hyphen.
std::string kept(const std::string& text) {
  if (text.find(kNoBreak) == std::string::npos) return escaped(text);
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(", ", at), text.size());
    out += (at > 0 ? ", <span>" : "<span>") + escaped(text.substr(at, end - at)) + "</span>";
    at = end + 2;
  }
  return out;
}

std::string table(const Rows& rows, bool sum = false) {
  std::string out = "<div class=\"wide\"><table><thead>";
  for (std::size_t r = 0; r < rows.rows.size(); ++r) {
    const char* tag = r == 0 ? "th" : "td";
    out += sum && r + 1 == rows.rows.size() ? "<tr class=\"sum\">" : "<tr>";
    for (std::size_t c = 0; c < rows.rows[r].size(); ++c) {
      out += fmt::format("<{}{}>{}</{}>", tag, rows.align[c] == 'r' ? " class=\"n\"" : "",
                         kept(rows.rows[r][c]), tag);
    }
    out += r == 0 ? "</tr></thead><tbody>\n" : "</tr>\n";
  }
  return out + "</tbody></table></div>\n";
}

std::string plan_part(const solver::ExploreJob& job, const solver::Explored& seen) {
  std::string out = "<h2>What to buy</h2>\n";
  if (!seen.no_plan.empty()) return out + paragraph(seen.no_plan);
  if (seen.plan->buys.empty()) {
    out += paragraph("Nothing: the shelf holds enough for the whole range.");
  } else {
    out += table(buy_rows(job, seen), true);
  }
  for (const auto& note : plan_notes(job, seen)) out += paragraph(note);
  if (seen.order_by) out += "<p><b>" + escaped(order_words(seen)) + "</b></p>\n";
  out += "<h3>What is made of it</h3>\n" + table(range_rows(job, seen));
  const Rows left = left_rows(job, seen);
  if (!left.empty()) out += table(left);
  return out;
}

// The bar in the hand and the bar as planned, where they stand beside the curve.
std::vector<ChartMark> marks(const solver::ExploreJob& job, const solver::Explored& seen,
                             std::size_t b) {
  std::vector<ChartMark> out;
  const auto& bar = job.bars[b].job;
  if (!bar.yardstick) return out;
  if (bar.yardstick->priced) {
    out.push_back({ChartMark::Shape::square, bar.yardstick->name, bar.yardstick->price_per_kg, 0});
  }
  if (seen.plan && seen.plan->found) {
    const auto& found = seen.bars[b].found;
    const int all = found.formulation.problem.steps;
    const auto shares = found.formulation.problem.shares(seen.plan->steps[b]);
    const auto gap = targets::feel_gap(bar.model, solver::mixed(job.candidates().oils, shares),
                                       found.assumed.settings, bar.yardstick->composition,
                                       bar.yardstick->settings);
    out.push_back({ChartMark::Shape::triangle, "as planned for the whole range",
                   cost_per_kg(job, seen.plan->steps[b], all), gap.total});
  }
  return out;
}

std::string traced_part(const solver::ExploreJob& job, const solver::ExploredBar& one,
                        const solver::TracedTrade& traced) {
  const auto& [up, across] = traced.trade;
  const std::string title = up.name + " against " + across.name;
  std::string out = "<h3>" + escaped(title) + "</h3>\n";
  if (!traced.no_curve.empty()) return out + paragraph(traced.no_curve);
  Chart chart{title, side_words(job, across), side_words(job, up), {}, {}};
  for (std::size_t k = 0; k < traced.seen.size(); ++k) {
    if (traced.curve.points[k].new_blend) chart.points.push_back(traced.seen[k]);
  }
  return out + svg(chart) + table(traced_rows(job, one, traced)) +
         paragraph(curve_proof(traced.curve));
}

std::string bar_part(const solver::ExploreJob& job, const solver::Explored& seen, std::size_t b) {
  const auto& bar = job.bars[b];
  const auto& one = seen.bars[b];
  std::string out = fmt::format("<div class=\"bar\"><h2>By itself: {}</h2>\n<p>{}.</p>\n",
                                escaped(bar.what_for), batches_words(bar));
  if (!one.found.has_blend()) {
    return out + paragraph("No blend keeps the wishes for this bar.") + "</div>\n";
  }
  out += "<h3>Truly different blends</h3>\n" + table(blend_rows(job, bar, one)) +
         paragraph(blends_proof(one));
  if (!one.curve.points.empty()) {
    Chart chart{"What feel costs",
                "oil cost, " + job.candidates().currency + " per kg",
                "feel, steps from " + bar.job.yardstick->name,
                {},
                marks(job, seen, b)};
    for (const auto& point : one.curve.points) {
      if (!point.new_blend) continue;
      chart.points.emplace_back(point.second, std::sqrt(std::max(0.0, point.first)));
    }
    out += "<h3>What feel costs</h3>\n" +
           paragraph(
               "One step is what is just noticed. Every numbered point is the blend nearest "
               "in feel at its price.") +
           svg(chart) + table(curve_rows(job, bar, one)) + paragraph(curve_proof(one.curve));
  }
  for (const auto& traced : one.traced) out += traced_part(job, one, traced);
  const Rows room = room_rows(job, one), worth = worth_rows(job, one);
  if (!room.empty()) {
    out += "<h3>How far each price may rise before the cheapest blend changes</h3>\n" + table(room);
  }
  if (!worth.empty()) {
    out += "<h3>Oils you do not have, and the price below which each would come in</h3>\n" +
           table(worth);
  }
  return out + "</div>\n";
}

}  // namespace

std::string page_explore(const solver::ExploreJob& job, const solver::Explored& seen) {
  std::string out = fmt::format(fmt::runtime(kHead), escaped(job.brief.name));
  if (job.brief.plan) {
    out += fmt::format(
        "<p>{} bars{}.</p>\n", job.brief.plan->bars,
        job.brief.plan->ready_for ? ", ready for " + job.brief.plan->ready_for->text() : "");
  }
  out += plan_part(job, seen);
  for (std::size_t b = 0; b < job.bars.size(); ++b) out += bar_part(job, seen, b);
  if (job.bar_grams > 0) {
    out += paragraph(
        fmt::format("Bars of {:.0f} g as cut are assumed; 'make:' in the brief says otherwise.",
                    job.bar_grams));
  }
  return out + "</body></html>\n";
}

}  // namespace barwright::app
