#pragma once

#include <string_view>

#include "core/lye/recipe.hpp"
#include "core/units/figure.hpp"

namespace barwright::core {

/// A figure of the trade used for sizes.
struct BenchFigure {
  Span span;
  std::string_view source;
  Mark mark;
};

/// Returns the density of fresh batter, g/mL, and the water left in a cured bar, mass fraction.
const BenchFigure& batter_density();
const BenchFigure& cured_water();

/// Returns what a cured bar weighs of what it weighed when poured (fraction): all but the
/// cured-water share of the water leaves. Computed from the recipe's water; other volatiles are not
/// counted.
double cured_fraction(const Recipe& recipe);

/// A rectangular mould by its inside, mm, filled to `fill`.
struct Box {
  double length = 0, width = 0, fill = 0;
};
/// Returns mL. Errors: Refusal for a side that is not positive.
double volume_ml(const Box& box);
/// Returns mL from the grams of water that fill it to the mark (0.9982 g/mL at 20 C).
double volume_ml_from_water(double water_grams);
/// Returns the grams of batter that fill this volume, at the typical density.
double batter_grams(double volume_ml);

/// How a log is cut.
struct Cutting {
  double slice = 0;     ///< mm
  double kerf = 0;      ///< mm lost per cut (wire 0 to 1)
  double end_trim = 0;  ///< mm off each end
};
/// Returns the whole bars one log of this length (mm) gives. Errors: Refusal when none.
int bars_from_log(double length_mm, const Cutting& cutting);

/// Whether a wanted bar weight is meant fresh from the knife or after the cure.
enum class Weighed { cut, cured };

/// Returns the request scaled so that its weighed batter reaches `grams` (never short by more than
/// the scales' steps), lye and additions in proportion. Errors: Refusal as weigh().
RecipeRequest sized_to_batter(const RecipeRequest& request, double grams);
/// Returns the request for `bars` bars of `each` grams; `left_behind` is the fraction of batter
/// that stays in pot and trimmings.
RecipeRequest sized_to_bars(const RecipeRequest& request, int bars, double each, Weighed weighed,
                            double left_behind = 0);
/// Returns g of oils per g of batter for this recipe, before rounding.
double oils_per_batter(const RecipeRequest& request);

}  // namespace barwright::core
