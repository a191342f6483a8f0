#pragma once

namespace barwright::core {

/// What an additive's dose is counted on.
enum class DoseBasis { oils, batter, water };
/// Returns "oils", "batter" or "water".
const char* word(DoseBasis basis);

/// The masses of one part (or one colour of it) that doses count on, g.
struct DoseMasses {
  double oils = 0;
  double batter = 0;
  double water = 0;
  double of(DoseBasis basis) const;
};

/// Returns g for a dose in g per kg of its basis. Errors: Refusal below zero.
double dose_grams(double grams_per_kg, DoseBasis basis, const DoseMasses& masses);

/// Returns the share of scent in the finished, cured bar (fraction): none of it is taken to leave.
/// `cured_grams` is what the rest of that portion weighs once cured.
double scent_share(double scent_grams, double cured_grams);

/// Returns the most scent, g, that keeps scent_share() at or below `limit` (fraction), down to the
/// step of the scale. Errors: Refusal for a limit outside 0..1.
double most_scent_grams(double cured_grams, double limit, double step);

}  // namespace barwright::core
