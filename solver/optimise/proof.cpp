#include "solver/optimise/proof.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::optimise {

double slip(double value) { return kGap * std::max(1.0, std::abs(value)); }

double tie_of(const Goal& goal) { return std::max(goal.give, goal.tie); }

// Written so that what is not a number is not proved. The slip counts on the goal's own scale, too:
// at the foot of a root it is far more on the maker's.
bool is_proved(const Goal& goal, const GoalValue& of) {
  const double tie = tie_of(goal);
  return goal.placed(of.value) - goal.placed(of.bound) <= tie + slip(goal.placed(of.value)) ||
         of.value <= goal.moved(of.bound, tie) + slip(of.value);
}

}  // namespace barwright::optimise
