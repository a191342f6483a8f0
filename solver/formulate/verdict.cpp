#include "solver/formulate/verdict.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::formulate {
namespace {

// Of a noticeable step, on the maker's scale: what rounding to the scale may take from a wish that
// the blend as it is written keeps. Nobody can tell, and no scale of hers shows it.
constexpr double kHair = 0.01;

double by(double value, double low, double high) {
  const double slack = optimise::kTolerance * std::max(1.0, std::abs(value));
  // Written so that a value that is not a number fails.
  if (!(value >= low - slack)) return low - value;
  if (!(value <= high + slack)) return value - high;
  return 0;
}

}  // namespace

std::vector<Verdict> judge(const Formulation& formulation, std::span<const double> shares,
                           std::span<const double> in_steps) {
  std::vector<Verdict> out;
  for (const auto& measure : formulation.wishes.measures) {
    const auto& asked = formulation.asked[static_cast<std::size_t>(measure.wish)];
    const bool of_grams = asked.wish >= 0;
    const double value = measure.at(of_grams ? shares : in_steps);
    Verdict verdict{measure.wish, value - asked.offset, measure.low - asked.offset,
                    measure.high - asked.offset, by(value, measure.low, measure.high)};
    if (of_grams && verdict.missed != 0 && verdict.missed <= kHair * measure.noticeable &&
        by(measure.at(in_steps), measure.low, measure.high) == 0)
      verdict.missed = 0;
    out.push_back(verdict);
  }
  return out;
}

}  // namespace barwright::formulate
