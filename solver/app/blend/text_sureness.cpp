#include "solver/app/blend/text_sureness.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace barwright::app {
namespace {

std::vector<std::string> trial_row(const std::string& words, const jobs::WishTrial& trial,
                                   int lots) {
  return {words, fmt::format("{} of {}", trial.held, lots),
          fmt::format("{:.2f} %", 100.0 * trial.held / lots),
          fmt::format("({:.2f} to {:.2f} %)", 100 * trial.low, 100 * trial.high)};
}

std::string level_words(const jobs::AtLevel& at) {
  if (at.asked) return "as asked";
  switch (at.level.kind) {
    case targets::Sureness::typical:
      return "for typical lots alone";
    case targets::Sureness::worst_case:
      return "for every lot within the published ranges";
    case targets::Sureness::likely:
      break;
  }
  return fmt::format("for {:.4g} lots in 100", 100 * at.level.share);
}

std::string figures(const jobs::AtLevel& at, const jobs::SurenessPrice& price,
                    const std::string& currency) {
  if (at.status == optimise::Status::infeasible) return "nothing fits";
  if (!at.cost_per_kg && !at.goal) return "nothing was found";
  std::string out;
  if (at.goal) out = fmt::format("{:.3g} {}", *at.goal, price.goal_unit);
  const bool costs = at.cost_per_kg && (!at.goal || price.goal != "cheapest");
  if (costs) {
    out += (out.empty() ? "" : " at ") +
           fmt::format("{} per kg of oils", money(*at.cost_per_kg, currency));
  }
  if (at.manners_gave_way) out += " (manners of the house gave way)";
  return out;
}

}  // namespace

bool inside_the_doubt(const jobs::BlendReport& report, const formulate::Verdict& verdict) {
  const auto& asked = asked_of(report, verdict.asked);
  if (!asked.compared || asked.wish < 0) return false;
  // Another bar's doubt is not on this screen; nor is one reckoned for what a swap adds of its own.
  const auto& wishes = report.job->brief.wishes;
  const auto which = static_cast<std::size_t>(asked.wish);
  if (which >= wishes.size() || !wishes[which].than.empty()) return false;
  return std::any_of(report.properties.begin(), report.properties.end(),
                     [&](const jobs::PropertyLine& line) {
                       return targets::name(line.property) == asked.subject &&
                              (line.against.low < verdict.low || line.against.high > verdict.high);
                     });
}

std::string sure_words(const jobs::BlendReport& report, const formulate::Verdict& verdict) {
  const auto& asked = asked_of(report, verdict.asked);
  const auto& brief = report.job->brief;
  std::string out;
  // The brief's own level stands in the heading.
  if (asked.wish >= 0 && brief.wishes[static_cast<std::size_t>(asked.wish)].level)
    out += ", " + targets::words(asked.level);
  if (inside_the_doubt(report, verdict)) out += ", within the doubt: a tie";
  return out;
}

void show_trial(Screen& screen, const jobs::BlendReport& report) {
  if (!report.trial) return;
  const auto& trial = *report.trial;
  screen.heading(fmt::format("{} LOTS TRIED", trial.lots),
                 report.trial_of.empty()
                     ? fmt::format("drawn within the published ranges, seed {}", trial.seed)
                     : "lots of " + report.trial_of);
  std::vector<std::vector<std::string>> rows;
  for (const auto& wish : trial.wishes)
    rows.push_back(trial_row(asked_of(report, wish.asked).words, wish, trial.lots));
  if (rows.empty()) {
    screen.sentence("None of the wishes depends on the lots.");
    return;
  }
  if (!report.trial_of.empty() && !trial.measured_used)
    screen.sentence("None of this oil is in the bar, so its lots change nothing.");
  if (rows.size() > 1) rows.push_back(trial_row("all of them at once", trial.all, trial.lots));
  screen.table("lrrl", rows);
  screen.sentence(
      "How often the recipe as weighed keeps each wish; beside it, where the share of all lots "
      "lies "
      "(95 % interval).");
}

void show_sureness(Screen& screen, const jobs::BlendReport& report) {
  if (!report.sureness) return;
  const auto& price = *report.sureness;
  const auto none = [](const jobs::AtLevel& at) {
    return at.status == optimise::Status::infeasible;
  };
  if (std::all_of(price.levels.begin(), price.levels.end(), none)) {
    screen.heading("SURENESS");
    screen.sentence("Being less sure would not help: nothing fits for typical lots either.");
    return;
  }
  std::string text = price.goal.empty() ? "What being sure costs: "
                                        : "What being sure costs: '" + price.goal + "' comes to ";
  for (std::size_t i = 0; i < price.levels.size(); ++i) {
    const auto& at = price.levels[i];
    text += (i == 0                         ? ""
             : i + 1 == price.levels.size() ? ", and "
                                            : ", ") +
            figures(at, price, report.job->candidates.currency) + " " + level_words(at);
  }
  screen.heading("SURENESS");
  screen.sentence(text + ".");
}

}  // namespace barwright::app
