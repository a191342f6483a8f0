#include "targets/model/property_form.hpp"

#include <algorithm>
#include <numeric>

namespace barwright::targets {
namespace {

double own_of(const Weights& weights, const Composition& composition) {
  double sum = 0;
  for (const Composition::Part& part : composition.parts)
    if (part.oil < weights.own.size()) sum += part.share * weights.own[part.oil];
  return sum;
}

}  // namespace

double weigh(const Weights& weights, const Composition& composition) {
  const auto parts = components(composition);
  const double sum = std::inner_product(parts.begin(), parts.end(), weights.begin(), 0.0);
  return weights.own.empty() ? sum : sum + own_of(weights, composition);
}

double PropertyForm::inner(const Composition& composition) const {
  const auto c = components(composition);
  double u = constant;
  for (std::size_t k = 0; k < c.size(); ++k) u += linear[k] * c[k];
  for (const Bend& bend : bends) {
    double along = 0;
    for (std::size_t k = 0; k < c.size(); ++k) along += bend.slope[k] * c[k];
    u += bend.weight * std::min(along, bend.cap);
  }
  if (!linear.own.empty()) u += own_of(linear, composition);
  return u;
}

double PropertyForm::outer(double u) const {
  return scale == Scale::identity ? u : 100 / (1 + u / scale_parameter);
}

double PropertyForm::inverse(double value) const {
  if (scale == Scale::identity) return value;
  // No blend comes near 0.01: below it the form need only be far beyond any blend, and finite.
  constexpr double kLeast = 0.01;
  return scale_parameter * (100 / std::max(value, kLeast) - 1);
}

bool PropertyForm::rising() const { return scale == Scale::identity; }

}  // namespace barwright::targets
