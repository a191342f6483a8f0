#include "solver/formulate/verdict.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::solver {

std::vector<Verdict> judge(const Formulation& formulation, std::span<const double> shares,
                           std::span<const double> in_steps) {
  std::vector<Verdict> out;
  for (const auto& measure : formulation.wishes.measures) {
    const auto& asked = formulation.asked[static_cast<std::size_t>(measure.wish)];
    const double value = measure.at(asked.wish < 0 ? in_steps : shares);
    const double slack = kTolerance * std::max(1.0, std::abs(value));
    Verdict verdict{measure.wish, value - asked.offset, measure.low - asked.offset,
                    measure.high - asked.offset, 0};
    // Written so that a value that is not a number fails.
    if (!(value >= measure.low - slack)) verdict.missed = measure.low - value;
    if (!(value <= measure.high + slack)) verdict.missed = value - measure.high;
    out.push_back(verdict);
  }
  return out;
}

}  // namespace barwright::solver
