#include "solver/formulate/blend_forms.hpp"

namespace barwright::formulate {

optimise::Form over_oils(const targets::PropertyForm& property,
                         std::span<const targets::Composition> candidates) {
  optimise::Form form;
  form.constant = property.constant;
  for (const auto& oil : candidates) form.linear.push_back(targets::weigh(property.linear, oil));
  for (const auto& bend : property.bends) {
    optimise::Kink kink{bend.weight, {}, bend.cap};
    for (const auto& oil : candidates) kink.slope.push_back(targets::weigh(bend.slope, oil));
    form.kinks.push_back(std::move(kink));
  }
  return form;
}

optimise::Form soluble_floor(const core::AcidProfile& limits, double share,
                             std::span<const targets::Composition> candidates) {
  optimise::Form form;
  form.constant = -share;
  form.linear.assign(candidates.size(), 0.0);
  for (std::size_t acid = 0; acid < core::kFattyAcidCount; ++acid) {
    // An acid that dissolves freely is never capped (x_k <= 1 = a_k only when share is 1), but the
    // cap stays exact for it too: min(x_k, share).
    optimise::Kink kink{1.0, {}, share * limits[acid]};
    bool present = false;
    for (const auto& oil : candidates) {
      kink.slope.push_back(oil.acids[acid]);
      present = present || oil.acids[acid] > 0;
    }
    if (present) form.kinks.push_back(std::move(kink));
  }
  return form;
}

}  // namespace barwright::formulate
