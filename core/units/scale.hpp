#pragma once

#include <algorithm>
#include <optional>

namespace barwright::core {

/// A weighing scale. Its error is taken as one step unless stated.
struct Scale {
  double step = 1;                ///< g, the smallest difference it shows
  std::optional<double> error{};  ///< g, how far a reading may be off
  /// Returns g; never below half a step, which is what rounding the display alone can hide.
  double error_grams() const { return std::max(error.value_or(step), step / 2); }
};

/// The two scales of a bench. The default is a kitchen scale for both: a finer one must be stated.
struct Scales {
  Scale oils;
  Scale lye;  ///< alkali, water, acids, additions
};

/// Return grams as a scale of this step (g) shows them; down never exceeds `grams` by more than
/// rounding of the arithmetic (a billionth of a step).
double rounded_down(double grams, double step);
double rounded(double grams, double step);

/// Returns the largest usual step of a scale (5, 2, 1, 0.5 g ...) not above `grams`.
double usual_step(double grams);

/// Errors: Refusal when a step or error is not a positive, sensible number of grams.
void check(const Scales& scales);

}  // namespace barwright::core
