#include "solver/app/explore/page_explore.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/weight_text.hpp"
#include "solver/app/blend/text_manners.hpp"
#include "solver/app/explore/rows_explore.hpp"
#include "solver/app/print/chart.hpp"
#include "solver/app/print/html.hpp"
#include "solver/app/print/page_parts.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/formulate/subject.hpp"
#include "targets/model/feel.hpp"

namespace barwright::app {
namespace {

std::string plan_part(const jobs::ExploreJob& job, const jobs::Explored& seen) {
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
std::vector<ChartMark> marks(const jobs::ExploreJob& job, const jobs::Explored& seen,
                             std::size_t b) {
  std::vector<ChartMark> out;
  const auto& bar = job.bars[b].job;
  if (!bar.yardstick) return out;
  if (bar.yardstick->priced) {
    out.push_back({ChartMark::Shape::square, bar.yardstick->name, bar.yardstick->price_per_kg, 0});
  }
  if (seen.plan && seen.plan->found) {
    const auto& found = seen.bars[b].found;
    std::vector<double> shares;
    for (const int w : seen.plan->steps[b])
      shares.push_back(static_cast<double>(w) / seen.plan_steps);
    const auto gap = targets::feel_gap(bar.model, formulate::mixed(job.candidates().oils, shares),
                                       found.assumed.settings, bar.yardstick->composition,
                                       bar.yardstick->settings);
    out.push_back({ChartMark::Shape::triangle, "as planned for the whole range",
                   cost_per_kg(job, seen.plan->steps[b], seen.plan_steps), gap.total});
  }
  return out;
}

std::string traced_part(const jobs::ExploreJob& job, const jobs::ExploredBar& one,
                        const jobs::TracedTrade& traced) {
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

std::string bar_part(const jobs::ExploreJob& job, const jobs::Explored& seen, std::size_t b) {
  const auto& bar = job.bars[b];
  const auto& one = seen.bars[b];
  std::string out = fmt::format("<div class=\"bar\"><h2>By itself: {}</h2>\n<p>{}.</p>\n",
                                escaped(bar.what_for), batches_words(bar));
  if (!one.found.has_blend()) {
    return out + paragraph("No blend keeps the wishes for this bar.") + "</div>\n";
  }
  for (const auto& words : {cut_words(one.manners), given_way_words(one.manners),
                            stand_in_words(one.manners), kept_words(one.manners)})
    if (!words.empty()) out += paragraph(words);
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

// One chart per kind of goal: nearly always the cost alone.
std::string sureness_part(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  const Rows rows = sureness_rows(job, seen);
  if (rows.empty()) return {};
  std::string out = "<div class=\"bar\"><h2>What sureness costs</h2>\n" +
                    paragraph("The best of each bar when its wishes are kept for more lots. " +
                              sureness_words(seen));
  std::vector<std::string> names;
  const auto place_of = [&](const jobs::AtLevel& at) {
    const std::string name = lots_words(at.level);
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) return names.size();
    return static_cast<std::size_t>(found - names.begin());
  };
  std::vector<jobs::AtLevel> levels;
  for (const auto& one : seen.bars) {
    if (!one.sureness) continue;
    levels.insert(levels.end(), one.sureness->levels.begin(), one.sureness->levels.end());
  }
  std::stable_sort(levels.begin(), levels.end(), [](const auto& a, const auto& b) {
    return a.level.kind != b.level.kind
               ? a.level.kind < b.level.kind
               : a.level.kind == targets::Sureness::likely && a.level.share < b.level.share;
  });
  for (const auto& at : levels)
    if (place_of(at) == names.size()) names.push_back(lots_words(at.level));
  std::vector<Chart> charts;
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    const auto& price = seen.bars[b].sureness;
    if (!price) continue;
    const bool cost = !has_other_goal(*price);
    const std::string up = cost ? "oil cost, " + job.candidates().currency + " per kg"
                                : price->goal + ", " + price->goal_unit + ", typical lots";
    ChartLine line{job.bars[b].what_for, {}};
    for (const auto& at : price->levels) {
      const auto& figure = cost ? at.cost_per_kg : at.goal;
      // A brief of several levels has no one place among them.
      if (figure && !(at.asked && mixed_levels(job.bars[b].job.brief)))
        line.points.emplace_back(static_cast<double>(place_of(at)), *figure);
    }
    auto chart = std::find_if(charts.begin(), charts.end(),
                              [&](const Chart& other) { return other.y_words == up; });
    if (chart == charts.end()) {
      charts.push_back(
          {"What sureness costs", "lots for which the wishes are kept", up, {}, {}, {}, names});
      chart = charts.end() - 1;
    }
    chart->lines.push_back(std::move(line));
  }
  for (const auto& chart : charts) out += svg(chart);
  const bool ends = std::any_of(levels.begin(), levels.end(), [](const jobs::AtLevel& at) {
    return at.status == optimise::Status::infeasible;
  });
  if (ends) out += paragraph("Where a line ends, nothing fits any more.");
  return out + table(rows) + "</div>\n";
}

}  // namespace

std::string page_explore(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  std::string out = page_head(job.brief.name);
  if (job.brief.plan) {
    out += fmt::format(
        "<p>{} bars{}.</p>\n", job.brief.plan->bars,
        job.brief.plan->ready_for ? ", ready for " + job.brief.plan->ready_for->text() : "");
  }
  if (const std::string lots = level_words(job); !lots.empty()) out += paragraph(lots);
  out += plan_part(job, seen);
  for (std::size_t b = 0; b < job.bars.size(); ++b) out += bar_part(job, seen, b);
  out += sureness_part(job, seen);
  if (job.bar_grams > 0) {
    out +=
        paragraph(fmt::format("Bars of {} as cut are assumed; 'make:' in the brief says otherwise.",
                              core::round_grams(job.bar_grams)));
  }
  return out + "</body></html>\n";
}

}  // namespace barwright::app
