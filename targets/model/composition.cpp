#include "targets/model/composition.hpp"

#include <algorithm>
#include <map>
#include <mutex>
#include <stdexcept>
#include <string>

namespace barwright::targets {

std::uint32_t oil_number(std::string_view name) {
  static std::mutex one_at_a_time;
  static std::map<std::string, std::uint32_t, std::less<>> numbers;
  const std::lock_guard lock(one_at_a_time);
  const auto found = numbers.find(name);
  if (found != numbers.end()) return found->second;
  const auto next = static_cast<std::uint32_t>(numbers.size());
  numbers.emplace(name, next);
  return next;
}

Composition composition(const oils::Oil& oil) {
  Composition out;
  out.parts.push_back({oil_number(oil.name), 1});
  if (oil.form == oils::Form::wax) {
    // Its acids are half of it at most and barely turn to soap on the bench, and its
    // unsaponifiables are the wax's own alcohols: all of it counts as wax.
    out.wax = 1;
    if (oil.solid_at_25c) out.hard_wax = 1;
    // What it has of free acid turns to soap at once, as stearic acid does: reckoned as cerotic
    // acid (C26:0, 396.7 g/mol, so 141.4 mg KOH/g).
    constexpr double kCeroticAcidValue = 141.4;
    if (oil.acid_value)
      out.free_acid = std::min(1.0, oil.acid_value->span.typical / kCeroticAcidValue);
    return out;
  }
  out.acids = oil.typical_profile();
  out.unsaponifiable = oil.unsaponifiable.span.typical / 100;
  if (oil.form == oils::Form::free_acid) out.free_acid = 1;
  if (oil.has_tag("pork")) out.lard = 1;
  return out;
}

Composition mix(std::span<const Composition> parts, std::span<const double> shares) {
  if (parts.size() != shares.size()) throw std::invalid_argument("mix: one share per part");
  Composition out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (std::size_t k = 0; k < core::kFattyAcidCount; ++k)
      out.acids[k] += shares[i] * parts[i].acids[k];
    out.unsaponifiable += shares[i] * parts[i].unsaponifiable;
    out.wax += shares[i] * parts[i].wax;
    out.free_acid += shares[i] * parts[i].free_acid;
    out.hard_wax += shares[i] * parts[i].hard_wax;
    out.lard += shares[i] * parts[i].lard;
    for (const Composition::Part& part : parts[i].parts) {
      const double share = shares[i] * part.share;
      if (share == 0) continue;
      const auto same = std::find_if(out.parts.begin(), out.parts.end(),
                                     [&](const auto& p) { return p.oil == part.oil; });
      if (same != out.parts.end()) {
        same->share += share;
      } else {
        out.parts.push_back({part.oil, share});
      }
    }
  }
  return out;
}

std::array<double, kComponentCount> components(const Composition& composition) {
  std::array<double, kComponentCount> out{};
  for (std::size_t k = 0; k < core::kFattyAcidCount; ++k) out[k] = composition.acids[k];
  out[kUnsaponifiable] = composition.unsaponifiable;
  out[kWax] = composition.wax;
  out[kFreeAcid] = composition.free_acid;
  out[kHardWax] = composition.hard_wax;
  out[kLard] = composition.lard;
  return out;
}

}  // namespace barwright::targets
