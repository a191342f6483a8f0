#include "solver/sizing.hpp"

#include "core/mould.hpp"

namespace barwright::solver {
namespace {

double volume_ml(const targets::Mould& mould) {
  if (mould.millilitres) return *mould.millilitres;
  if (mould.water_grams) return core::volume_ml_from_water(*mould.water_grams);
  if (!mould.inside_mm) return 0;
  const auto& inside = *mould.inside_mm;
  return core::volume_ml({inside[0], inside[1], mould.fill_to_mm.value_or(inside[2])});
}

}  // namespace

core::RecipeRequest sized(const core::RecipeRequest& request,
                          const std::optional<targets::MakeSize>& make) {
  if (!make) return core::scaled_to_oils(request, kDefaultOilGrams);
  if (make->oils_grams) return core::scaled_to_oils(request, *make->oils_grams);
  if (make->bars) {
    return core::sized_to_bars(request, make->bars->count, make->bars->each_grams,
                               make->bars->weighed == targets::Bars::Weighed::cured
                                   ? core::Weighed::cured
                                   : core::Weighed::cut);
  }
  double volume = 0;
  for (const auto& mould : make->moulds) volume += mould.count * volume_ml(mould);
  return core::sized_to_batter(request, core::batter_grams(volume));
}

int bars(const std::optional<targets::MakeSize>& make) {
  if (!make) return 0;
  if (make->bars) return make->bars->count;
  return make->bars_per_batch.value_or(0);
}

}  // namespace barwright::solver
