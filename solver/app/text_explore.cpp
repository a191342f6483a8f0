#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solver/app/screen.hpp"
#include "solver/app/show_explore.hpp"

namespace barwright::app {
namespace {

// Most of these are of no interest: the nearest to their worth are shown.
constexpr std::size_t kMostShown = 6;

const std::string& oil_name(const solver::ExploreJob& job, int oil) {
  return job.candidates().oils[static_cast<std::size_t>(oil)].oil.name;
}

void show_traced(Screen& screen, const solver::ExploreJob& job, const solver::TracedTrade& traced,
                 int all) {
  screen.sentence(fmt::format("{} against {}:", traced.trade.up.name, traced.trade.across.name));
  if (!traced.no_curve.empty()) {
    screen.sentence(traced.no_curve);
    return;
  }
  std::vector<std::vector<std::string>> rows = {
      {side_words(job, traced.trade.up), side_words(job, traced.trade.across), ""}};
  for (std::size_t k = 0; k < traced.seen.size(); ++k) {
    const auto& point = traced.curve.points[k];
    if (!point.new_blend) continue;
    rows.push_back({fmt::format("{:.2f}", traced.seen[k].second),
                    fmt::format("{:.2f}", traced.seen[k].first),
                    blend_words(job, point.answer.steps, all)});
  }
  screen.table("rrl", rows);
  screen.sentence(traced.curve.proved ? "Every point is proved."
                                      : "Not every point was proved in the time given.");
}

void show_bar(Screen& screen, const solver::ExploreJob& job, const solver::ExploreBar& bar,
              const solver::ExploredBar& seen) {
  const std::string& currency = job.candidates().currency;
  screen.heading(bar.what_for, fmt::format("{} bars, {} batches", bar.bars, bar.batches));
  if (!seen.found.has_blend()) {
    screen.sentence("No blend: " + seen.found.answer.reason +
                    " Put this bar into a brief of its own and ask 'barwright blend' which wishes "
                    "collide.");
    return;
  }
  const int all = seen.found.formulation.problem.steps;
  screen.sentence("Best alone: " + blend_words(job, seen.found.answer.steps, all) + ".");
  screen.sentence(seen.found.answer.status == solver::Status::optimal
                      ? "Proved: no blend of these oils keeps the wishes and is better."
                      : "Not proved the best: " + seen.found.answer.reason);
  for (std::size_t k = 1; k < seen.others.found.size(); ++k) {
    const auto& other = seen.others.found[k];
    screen.sentence(fmt::format("Another, {:.0f} % moved: {}.", 100 * other.distance,
                                blend_words(job, other.answer.steps, all)),
                    "-");
  }
  if (!seen.curve.points.empty()) {
    screen.sentence("Cost against feel (steps from the bar compared with, 1 is just noticed):");
    std::vector<std::vector<std::string>> rows;
    for (const auto& point : seen.curve.points) {
      if (!point.new_blend) continue;
      rows.push_back({money(point.second, currency) + "/kg",
                      fmt::format("{:.1f}", std::sqrt(std::max(0.0, point.first))),
                      blend_words(job, point.answer.steps, all)});
    }
    screen.table("rrl", rows);
    screen.sentence(seen.curve.proved ? "Every point is proved."
                                      : "Not every point was proved in the time given.");
  }
  for (const auto& traced : seen.traced) show_traced(screen, job, traced, all);
  std::vector<std::vector<std::string>> rows;
  for (const auto& room : seen.room) {
    rows.push_back({oil_name(job, room.oil), money(room.now, currency) + "/kg",
                    !room.turns.proved  ? "not settled"
                    : room.turns.per_kg ? "may rise to " + money(*room.turns.per_kg, currency)
                                        : "stays at any price"});
  }
  screen.sentence("How far each price may rise before the cheapest blend changes:");
  screen.table("lrl", rows);
  rows.clear();
  for (const auto& worth : seen.worth) {
    if (!worth.turns.per_kg || rows.size() >= kMostShown) continue;
    rows.push_back({oil_name(job, worth.oil), "worth " + money(*worth.turns.per_kg, currency),
                    "costs " + money(worth.now, currency) + "/kg"});
  }
  if (!rows.empty()) {
    screen.sentence("What a kilo of oils you do not have is worth in it:");
    screen.table("lll", rows);
  }
}

void show_plan(Screen& screen, const solver::ExploreJob& job, const solver::Explored& seen) {
  const std::string& currency = job.candidates().currency;
  screen.heading("WHAT TO BUY", "for the whole range together");
  if (!seen.no_plan.empty()) {
    screen.sentence(seen.no_plan);
    return;
  }
  const auto& plan = *seen.plan;
  std::vector<std::vector<std::string>> rows;
  for (const auto& buy : plan.buys) {
    const auto& pack =
        job.packs[static_cast<std::size_t>(buy.oil)][static_cast<std::size_t>(buy.pack)];
    rows.push_back({fmt::format("{} x", buy.count), pack.product,
                    fmt::format("{:.4g} kg", pack.grams / 1000),
                    money(buy.count * pack.price, currency)});
  }
  rows.push_back({"", "delivery", "", money(plan.delivery, currency)});
  rows.push_back({"", "cash out", "", money(plan.cash(), currency)});
  screen.table("rlrr", rows);
  screen.sentence(plan.proved
                      ? "Proved: no other purchase of these packs costs less and makes the range."
                      : "Not proved the least: the search was cut short.");
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    screen.sentence(
        job.bars[b].what_for + ": " +
            blend_words(job, plan.steps[b], seen.bars[b].found.formulation.problem.steps),
        "-");
  }
  rows.clear();
  double worth = 0;
  for (std::size_t i = 0; i < plan.left_grams.size(); ++i) {
    const bool bought = std::any_of(plan.buys.begin(), plan.buys.end(), [&](const auto& buy) {
      return buy.oil == static_cast<int>(i);
    });
    if (!bought || plan.left_grams[i] < 1) continue;
    const double value = plan.left_grams[i] / 1000 * job.price_per_kg[i];
    worth += value;
    rows.push_back({oil_name(job, static_cast<int>(i)), fmt::format("{:.0f} g", plan.left_grams[i]),
                    money(value, currency)});
  }
  if (!rows.empty()) {
    screen.sentence(
        fmt::format("Left over of what is bought, worth {} in all:", money(worth, currency)));
    screen.table("lrr", rows);
  }
  if (seen.order_by) {
    screen.sentence(fmt::format(
        "Order by {}: {} days to the door (assumed), {} days of making, {} days of cure.",
        core::text(*seen.order_by), seen.delivery_days, seen.making_days, seen.cure_days));
  }
}

}  // namespace

std::string side_words(const solver::ExploreJob& job, const solver::TradeSide& side) {
  const std::string& currency = job.candidates().currency;
  switch (side.kind) {
    case solver::TradeSide::Kind::cost:
      return "cost, " + currency + (currency.empty() ? "per kg" : " per kg");
    case solver::TradeSide::Kind::feel:
      return "feel, steps";
    case solver::TradeSide::Kind::property:
      break;
  }
  return side.name + ", points";
}

std::string blend_words(const solver::ExploreJob& job, std::span<const int> steps, int all) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i] > 0) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return steps[a] > steps[b]; });
  std::string out;
  for (const std::size_t i : order) {
    out += fmt::format("{}{} {:.4g} %", out.empty() ? "" : ", ", oil_name(job, static_cast<int>(i)),
                       100.0 * steps[i] / all);
  }
  return out;
}

std::string text_explore(const solver::ExploreJob& job, const solver::Explored& seen, bool colour) {
  Screen screen(colour);
  screen.title(job.brief.name);
  show_plan(screen, job, seen);
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    show_bar(screen, job, job.bars[b], seen.bars[b]);
  }
  if (job.bar_grams > 0) {
    screen.heading("MIND");
    screen.sentence(fmt::format("Bars of {:.0f} g as cut are assumed; 'make:' in the brief says "
                                "otherwise.",
                                job.bar_grams),
                    "-");
  }
  screen.heading("NEXT");
  screen.sentence(
      "Ask the supplier for certificates of what is new, order, then weigh each bar out from a "
      "brief of its own. The same as a page to print: --page look.html.");
  return screen.text();
}

}  // namespace barwright::app
