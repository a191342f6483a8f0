#include "core/bench/mould.hpp"

#include <cmath>

#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core {

namespace {

constexpr double kWaterDensity = 0.9982;  // g/mL at 20 C

void positive(double value, const char* what) {
  if (!(value > 0) || !std::isfinite(value)) {
    throw Refusal(std::string("The ") + what + " is not above zero.", "Measure it and state it.");
  }
}

/// The request with scales so fine that nothing is rounded, at a size where nothing is small.
RecipeRequest unrounded(const RecipeRequest& request) {
  RecipeRequest out = scaled_to_oils(request, 1000);
  out.scales.oils = {1e-6, 0.0};
  out.scales.lye = {1e-6, 0.0};
  return out;
}

}  // namespace

const BenchFigure& batter_density() {
  static const BenchFigure figure{
      {0.97, 0.985, 1.00}, "common practice, no source", Mark::practice};
  return figure;
}

const BenchFigure& cured_water() {
  static const BenchFigure figure{{0.08, 0.10, 0.14},
                                  "common practice, no source; no measured drying curve found",
                                  Mark::practice};
  return figure;
}

double cured_fraction(const Recipe& recipe) {
  const double water = recipe.products.water;
  const double dry = recipe.total_grams - water;
  const double cured = dry / (1 - cured_water().span.typical);
  return std::min(1.0, cured / recipe.total_grams);
}

double volume_ml(const Box& box) {
  positive(box.length, "mould's length");
  positive(box.width, "mould's width");
  positive(box.fill, "mould's fill height");
  return box.length * box.width * box.fill / 1000;
}

double volume_ml_from_water(double water_grams) {
  positive(water_grams, "weight of water");
  return water_grams / kWaterDensity;
}

double batter_grams(double volume_ml) {
  positive(volume_ml, "mould's volume");
  return volume_ml * batter_density().span.typical;
}

int bars_from_log(double length_mm, const Cutting& cutting) {
  positive(length_mm, "log's length");
  positive(cutting.slice, "slice");
  if (!(cutting.kerf >= 0) || !(cutting.end_trim >= 0) || !std::isfinite(cutting.kerf) ||
      !std::isfinite(cutting.end_trim)) {
    throw Refusal("The kerf or the trim is below zero.", "Give 0 mm or more.");
  }
  // n slices between two trimmed ends; a trim costs its own cut.
  const double trims = cutting.end_trim > 0 ? 2 * (cutting.end_trim + cutting.kerf) : 0;
  const double room = length_mm - trims + cutting.kerf;
  const double bars = std::floor(room / (cutting.slice + cutting.kerf) + 1e-9);
  if (!(bars >= 1) || bars > 1e6) {
    throw Refusal("A log of " + fixed(length_mm, 0) + " mm gives no whole bar of " +
                      fixed(cutting.slice, 0) + " mm.",
                  "Cut thinner, trim less, or use a longer mould.");
  }
  return static_cast<int>(bars);
}

double oils_per_batter(const RecipeRequest& request) {
  const Recipe recipe = weigh(unrounded(request));
  return recipe.oils_grams / recipe.total_grams;
}

RecipeRequest sized_to_batter(const RecipeRequest& request, double grams) {
  positive(grams, "batter wanted");
  double oils = grams * oils_per_batter(request);
  // The superfat may be raised differently on the real scales, which moves the total a little.
  for (int pass = 0; pass < 2; ++pass) {
    const Recipe recipe = weigh(scaled_to_oils(request, oils));
    oils *= grams / recipe.total_grams;
  }
  return scaled_to_oils(request, oils);
}

RecipeRequest sized_to_bars(const RecipeRequest& request, int bars, double each, Weighed weighed,
                            double left_behind) {
  positive(static_cast<double>(bars), "number of bars");
  positive(each, "weight of a bar");
  if (!(left_behind >= 0 && left_behind < 1)) {
    throw Refusal("The share left in the pot is not a percentage.", "Give it from 0 up to 100 %.");
  }
  double grams = bars * each / (1 - left_behind);
  if (weighed == Weighed::cured) grams /= cured_fraction(weigh(unrounded(request)));
  return sized_to_batter(request, grams);
}

}  // namespace barwright::core
