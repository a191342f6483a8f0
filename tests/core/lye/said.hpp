#pragma once

#include <string>

#include "core/units/error.hpp"

namespace barwright::tests {

/// Returns "reason | remedy" of the Refusal that `act` throws, or "not refused".
template <typename Act>
std::string refusal_of(const Act& act) {
  try {
    act();
  } catch (const core::Refusal& refusal) {
    return refusal.reason() + " | " + refusal.remedy();
  }
  return "not refused";
}

/// Returns what the Refusal says that `act` throws, or "taken".
template <typename Act>
std::string refusal(const Act& act) {
  try {
    act();
  } catch (const core::Refusal& refusal) {
    return refusal.what();
  }
  return "taken";
}

}  // namespace barwright::tests
