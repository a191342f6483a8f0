#pragma once

#include <array>
#include <cstddef>
#include <span>

#include "targets/files/notes.hpp"

namespace barwright::tune {

/// How a figure's logarithm follows a step more of its property. Judgement.
struct Link {
  double usual;   ///< figure at a usual bar
  double slope;   ///< median per step, with its sign
  double spread;  ///< of the slope's logarithm
};
Link link_of(targets::Means means);

/// Logarithm of weight that is one step of drying.
inline constexpr double kDryingStep = 0.01;

/// Unknowns that hands have, and each means.
inline constexpr std::size_t kHandUnknowns = 7, kMeansUnknowns = 2;

/// How hands judge and means measure. All figures behind it are judgement.
struct Hands {
  double blind = 0, seen = 0;    ///< noise, steps
  double first = 0, second = 0;  ///< up to where nothing, and a little, is said, steps
  double slips = 0;              ///< share
  double bias = 0;               ///< for the bar named first, steps
  double expects = 0;            ///< steps felt per step expected, where not blind
  std::array<double, targets::kMeansCount> off{};    ///< noise of a figure, steps
  std::array<double, targets::kMeansCount> slope{};  ///< of its logarithm, per step
  std::array<double, targets::kMeansCount> unit{};   ///< noise of its logarithm
  double noise(bool was_blind) const { return was_blind ? blind : seen; }
};
/// Returns them from their unknowns: kHandUnknowns, and kMeansUnknowns for each means.
Hands hands_of(std::span<const double> hands, std::span<const double> means);

/// Returns the chance of a verdict on a difference, steps, with so much noise; a slip may be any.
double chance_of(targets::Verdict verdict, double middle, double noise, const Hands& hands);
/// Returns what is said of a difference that was felt, steps.
targets::Verdict verdict_on(double felt, const Hands& hands);

}  // namespace barwright::tune
