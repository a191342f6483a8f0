#include "solver/app/explore/text_explore.hpp"

#include <fmt/format.h>

#include "core/units/weight_text.hpp"
#include "solver/app/blend/text_manners.hpp"
#include "solver/app/explore/rows_explore.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {
namespace {

void show(Screen& screen, const Rows& rows) { screen.table(rows.align, rows.rows); }

void show_plan(Screen& screen, const jobs::ExploreJob& job, const jobs::Explored& seen) {
  screen.heading("WHAT TO BUY", "for the whole range together");
  if (!seen.no_plan.empty()) {
    screen.sentence(seen.no_plan);
    return;
  }
  const auto& plan = *seen.plan;
  if (plan.buys.empty()) {
    screen.sentence("Nothing: the shelf holds enough for the whole range.");
  } else {
    show(screen, buy_rows(job, seen));
  }
  for (const auto& note : plan_notes(job, seen)) {
    const bool mind = note.starts_with("! ");
    screen.sentence(mind ? note.substr(2) : note, mind ? "!" : "");
  }
  if (seen.order_by) screen.sentence(order_words(seen));
  screen.heading("WHAT IS MADE OF IT", "oils at what they cost at your door, delivery in it");
  show(screen, range_rows(job, seen));
  const Rows left = left_rows(job, seen);
  if (!left.empty()) {
    screen.blank();
    show(screen, left);
  }
}

void show_bar(Screen& screen, const jobs::ExploreJob& job, const jobs::ExploreBar& bar,
              const jobs::ExploredBar& seen) {
  screen.heading("BY ITSELF: " + bar.what_for, batches_words(bar));
  if (!seen.found.has_blend()) {
    screen.sentence(seen.found.answer.status == optimise::Status::infeasible
                        ? "No blend: proved that every one breaks a wish or a limit. Put this bar "
                          "into a brief of its own and ask 'barwright blend' which of them collide."
                        : "No blend: " + seen.found.answer.reason +
                              (seen.found.answer.reason.ends_with('.') ? "" : "."));
    return;
  }
  show_words(screen, cut_words(seen.manners));
  show_words(screen, given_way_words(seen.manners));
  show_words(screen, stand_in_words(seen.manners));
  const std::string best = seen.found.formulation.goals.empty()
                               ? std::string("best")
                               : seen.found.formulation.goals.front().words;
  screen.sentence(fmt::format("Truly different blends, first is '{}':", best));
  show(screen, blend_rows(job, bar, seen));
  screen.sentence(blends_proof(seen));
  if (!seen.curve.points.empty()) {
    screen.blank();
    screen.sentence(
        fmt::format("What feel costs; steps away from {}, 1 step is what is just noticed:",
                    bar.job.yardstick->name));
    show(screen, curve_rows(job, bar, seen));
    screen.sentence(curve_proof(seen.curve));
  }
  for (const auto& traced : seen.traced) {
    screen.blank();
    screen.sentence(fmt::format("{} against {}:", traced.trade.up.name, traced.trade.across.name));
    if (!traced.no_curve.empty()) {
      screen.sentence(traced.no_curve);
      continue;
    }
    show(screen, traced_rows(job, seen, traced));
    screen.sentence(curve_proof(traced.curve));
  }
  const Rows room = room_rows(job, seen), worth = worth_rows(job, seen);
  if (!room.empty()) {
    screen.blank();
    screen.sentence("How far each price may rise before the cheapest blend changes:");
    show(screen, room);
  }
  if (!worth.empty()) {
    screen.blank();
    screen.sentence("Oils you do not have, and the price below which each would come in:");
    show(screen, worth);
  }
  if (!seen.manners.manners.empty()) {
    screen.blank();
    screen.sentence(
        "Manners kept unasked, here and in the plan; 'manners: none' gives the free search:");
    show_manner_rows(screen, seen.manners);
  }
}

std::string plan_words(const jobs::ExploreJob& job) {
  const auto& plan = job.brief.plan;
  if (!plan) return {};
  std::string out = fmt::format("{} bars", plan->bars);
  if (plan->ready_for) out += ", ready for " + plan->ready_for->text();
  return out;
}

}  // namespace

std::string text_explore(const jobs::ExploreJob& job, const jobs::Explored& seen, bool colour) {
  Screen screen(colour);
  screen.title(job.brief.name, plan_words(job));
  if (const std::string lots = level_words(job); !lots.empty()) {
    screen.blank();
    screen.sentence(lots);
  }
  show_plan(screen, job, seen);
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    show_bar(screen, job, job.bars[b], seen.bars[b]);
  }
  const Rows sure = sureness_rows(job, seen);
  if (!sure.empty()) {
    screen.heading("WHAT SURENESS COSTS", "the best of each bar, its wishes kept for more lots");
    show(screen, sure);
    screen.sentence(sureness_words(seen));
  }
  if (job.bar_grams > 0) {
    screen.heading("MIND");
    screen.sentence(fmt::format("Bars of {} as cut are assumed; 'make:' in the brief says "
                                "otherwise.",
                                core::round_grams(job.bar_grams)),
                    "-");
  }
  screen.heading("NEXT");
  screen.sentence(
      seen.no_plan.empty()
          ? "Ask the supplier for certificates of what is new, order, then weigh each bar out from "
            "a brief of its own. The same as a page to print: --page look.html."
          : "Loosen a line of the brief as above and look again.");
  return screen.text();
}

}  // namespace barwright::app
