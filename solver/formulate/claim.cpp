#include "solver/formulate/claim.hpp"

#include <fmt/format.h>

#include <cmath>

#include "solver/optimise/proof.hpp"

namespace barwright::formulate {
namespace {

// Whether later goals made the first one worse, and what the next of them got for it.
std::optional<Claim::Bought> bought(const Formulation& formulation,
                                    const optimise::Answer& answer) {
  const auto& goals = formulation.problem.goals;
  if (answer.best_at_first.empty() || answer.goals.size() < 2 || goals.size() < 2) return {};
  if (formulation.fewest_oils_at >= 0 && formulation.fewest_oils_at < 2) return {};
  const auto then = formulation.problem.shares(answer.best_at_first);
  const auto now = formulation.problem.shares(answer.steps);
  const double gave = goals[0].placed(goals[0].at(now)) - goals[0].placed(goals[0].at(then));
  if (!(gave > optimise::slip(goals[0].placed(goals[0].at(now))))) return {};
  for (std::size_t g = 1; g < answer.goals.size(); ++g) {
    const double instead = goals[g].at(then), value = goals[g].at(now);
    const auto& asked = formulation.goals[g];
    if (value < instead - optimise::slip(value))
      return Claim::Bought{asked.words, asked.unit, asked.shown(value), asked.shown(instead), gave};
    if (value > instead + optimise::slip(value)) return {};
  }
  return {};
}

}  // namespace

Claim claim_of(const Formulation& formulation, const optimise::Answer& answer) {
  Claim out;
  out.proved = answer.status == optimise::Status::optimal;
  if (formulation.goals.empty() || formulation.goals.front().tie_breaker || answer.goals.empty())
    return out;
  const AskedGoal& asked = formulation.goals.front();
  const optimise::Goal& goal = formulation.problem.goals.front();
  const optimise::GoalValue& of = answer.goals.front();
  out.goal = asked.words;
  out.unit = asked.unit;
  out.value = asked.shown(of.value);
  out.bound = asked.shown(of.bound);
  out.tie = optimise::tie_of(goal);
  out.proved = out.proved && optimise::is_proved(goal, of);
  if (!answer.steps.empty()) out.bought = bought(formulation, answer);
  return out;
}

void keep_to_the_numbers(const Formulation& formulation, optimise::Answer& answer) {
  if (answer.status != optimise::Status::optimal) return;
  const auto& goals = formulation.problem.goals;
  for (std::size_t g = 0; g < answer.goals.size() && g < goals.size(); ++g) {
    if (optimise::is_proved(goals[g], answer.goals[g])) continue;
    answer.status = optimise::Status::feasible;
    answer.reason = "what was proved leaves room for a better blend";
    return;
  }
}

std::string better_words(const Claim& claim) {
  if (claim.goal.empty()) return "";
  std::string words = "better at '" + claim.goal + "'";
  if (claim.tie > 0 && std::abs(claim.value - claim.bound) > optimise::slip(claim.value))
    words += fmt::format(" by more than {:.2g} {}, which is a tie", claim.tie, claim.unit);
  return words;
}

std::string bought_words(const Claim& claim) {
  if (!claim.bought) return "";
  const auto& bought = *claim.bought;
  return fmt::format("Of that tie {:.2g} {} went into '{}': {:.4g} {} instead of {:.4g}.",
                     bought.gave_way, claim.unit, bought.goal, bought.value, bought.unit,
                     bought.instead);
}

}  // namespace barwright::formulate
