#pragma once

#include <compare>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "solver/formulate/sure_comparison.hpp"

namespace barwright::formulate {

/// The readings worked out for one set of candidates and one known bar: a question is put many
/// times, at a few superfats, and its rules are no part of what lots do.
class SureMemo {
 public:
  /// Returns what `worked_out` returns, kept from an earlier call where that was about the same.
  /// Asked about other candidates, another bar or another model it begins anew.
  std::vector<optimise::Reading> ways(
      targets::Property property, double sign, Drawn drawn, const SureGround& ground,
      const KnownBar& yardstick, const std::function<std::vector<optimise::Reading>()>& worked_out);

 private:
  struct Key {
    targets::Property property;
    double sign;
    Drawn drawn;
    bool worst;
    double share;
    targets::BarSettings settings;
    auto operator<=>(const Key&) const = default;
  };
  struct Lots {
    std::string oil;
    targets::LotRange range;
    double share = 0;  ///< of the known bar
  };
  // All that readings rest on beside their key.
  struct Bars {
    targets::PropertyModel model;
    std::vector<Lots> candidates, yardstick;
    targets::BarSettings yardstick_settings;
    bool are(const SureGround& ground, const KnownBar& yardstick) const;
  };
  static Bars bars_of(const SureGround& ground, const KnownBar& yardstick);

  std::optional<Bars> bars_;
  std::map<Key, std::vector<optimise::Reading>> kept_;
};

}  // namespace barwright::formulate
