#include "solver/recipe/sizing.hpp"

#include <cmath>

#include "core/bench/mould.hpp"
#include "core/units/error.hpp"

namespace barwright::recipe {
namespace {

constexpr int kMostPasses = 200;  // each brings it nearer by the share of what is dosed in all
constexpr double kSettled = 1e-9;
constexpr double kLeastLeft = 0.05;  // of the oils a first guess gives: less is no soap

double volume_ml(const targets::Mould& mould) {
  if (mould.millilitres) return *mould.millilitres;
  if (mould.water_grams) return core::volume_ml_from_water(*mould.water_grams);
  if (!mould.inside_mm) return 0;
  const auto& inside = *mould.inside_mm;
  return core::volume_ml({inside[0], inside[1], mould.fill_to_mm.value_or(inside[2])});
}

core::RecipeRequest fitted(const core::RecipeRequest& request, const targets::MakeSize& make) {
  if (make.bars) {
    return core::sized_to_bars(request, make.bars->count, make.bars->each_grams,
                               make.bars->weighed == targets::Bars::Weighed::cured
                                   ? core::Weighed::cured
                                   : core::Weighed::cut);
  }
  double volume = 0;
  for (const auto& mould : make.moulds) volume += mould.count * volume_ml(mould);
  return core::sized_to_batter(request, core::batter_grams(volume));
}

double oils_of(const core::RecipeRequest& request) {
  double grams = 0;
  for (const auto& oil : request.oils) grams += oil.grams;
  return grams;
}

}  // namespace

core::RecipeRequest sized(const RequestAt& at, const std::optional<targets::MakeSize>& make) {
  if (!make) return at(kDefaultOilGrams);
  if (make->oils_grams) return at(*make->oils_grams);
  double oils = kDefaultOilGrams, first = 0;
  for (int pass = 0; pass < kMostPasses; ++pass) {
    core::RecipeRequest request = fitted(at(oils), *make);
    const double next = oils_of(request);
    if (std::abs(next - oils) <= kSettled * next) return request;
    if (pass == 0) first = next;
    if (next < kLeastLeft * first) break;
    oils = next;
  }
  throw core::Refusal("What is added 'in all' or 'per bar' leaves no room for oils in this size.",
                      "Add less of it, dose it per kg of oils, or make more.");
}

int bars(const std::optional<targets::MakeSize>& make) {
  if (!make) return 0;
  if (make->bars) return make->bars->count;
  return make->bars_per_batch.value_or(0);
}

}  // namespace barwright::recipe
