#include "solver/formulate/feel_goal.hpp"

#include <algorithm>
#include <cmath>

#include "targets/model/feel.hpp"

namespace barwright::formulate {

std::vector<optimise::Form> feel_over_oils(const targets::PropertyModel& model,
                                           const targets::BarSettings& settings,
                                           std::span<const Candidate> candidates) {
  std::vector<optimise::Form> out;
  for (const auto& term : targets::feel_forms(model, settings)) {
    optimise::Form form;
    form.constant = term.constant;
    for (const auto& candidate : candidates) {
      form.linear.push_back(term.at(candidate.composition) - term.constant);
    }
    out.push_back(std::move(form));
  }
  return out;
}

std::vector<double> feel_points(const targets::PropertyModel& model, const KnownBar& bar) {
  std::vector<double> out;
  for (const auto& term : targets::feel_forms(model, bar.settings)) {
    out.push_back(term.at(bar.composition));
  }
  return out;
}

optimise::GoalScale of_squares() {
  return {[](double value) { return std::sqrt(std::max(0.0, value)); },
          [](double root) { return root * std::abs(root); }};
}

optimise::Goal feel_goal(const std::vector<optimise::Form>& terms,
                         const std::vector<double>& points, std::span<const double> emphasis) {
  optimise::Goal goal;
  goal.give = kFeelTie;
  goal.scale = of_squares();
  const auto& all = targets::feel_terms();
  for (std::size_t t = 0; t < terms.size(); ++t) {
    const double times = emphasis.empty() ? 1 : emphasis[t];
    goal.pulls.push_back({terms[t], points[t], times * all[t].weight});
    if (goal.form.linear.empty()) goal.form.linear.assign(terms[t].linear.size(), 0.0);
  }
  return goal;
}

}  // namespace barwright::formulate
