#include "solver/batch/batch_times.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/bench/mould.hpp"
#include "core/bench/temperature.hpp"
#include "core/lye/lye_order.hpp"
#include "core/lye/lye_strength.hpp"
#include "solver/batch/batch_checks.hpp"
#include "solver/recipe/cure_time.hpp"
#include "targets/model/manners.hpp"
#include "targets/model/model.hpp"

namespace barwright::batch {
namespace {

// Ours where the maker plans nothing (judgement).
constexpr double kOilsCelsius = 38, kLyeCelsius = 35, kRoomCelsius = 20;
constexpr double kCreamedCelsius = 21, kCreamedLye = 20;
constexpr double kIceLye = 20;        // out of the ice water by then
constexpr double kClearMargin = 5;    // C above the last crystal when melting
constexpr double kLeastMelt = 50;     // C
constexpr double kBodyCool = 35;      // C: a piped topping melts on anything warmer
constexpr double kOilDensity = 0.91;  // g/mL
constexpr double kLyeDensity = 1.33;  // g/mL
// Working time: 15 min at a score of 50 and 40 C, doubling every 25 points and every 10 C less;
// judged, and no better than a factor of two.
constexpr double kMinutes = 15, kMinutePoints = 25, kMinuteDoubling = 10, kMinuteDoubt = 2;
constexpr double kWorkingReference = 40;
constexpr double kMarkAfter = 3;  // times the working time until it holds a fingertip mark
constexpr double kCutHours = 24;  // cut-firmness is scored then

using targets::BarSettings;
using targets::Property;

BarSettings settings_of_part(const PartPlan& part, bool gelled) {
  BarSettings out;
  out.superfat = std::clamp(part.check.superfat, 0.0, 0.5);
  out.koh_share = 0;
  double moles = 0, potassium = 0;
  for (const auto& line : part.pot.alkali) {
    const double one = line.grams * line.strength.stated / core::molar_mass(line.alkali);
    moles += one;
    if (line.alkali == core::Alkali::potassium_hydroxide) potassium += one;
  }
  if (moles > 0) out.koh_share = potassium / moles;
  out.lye_concentration = part.recipe.lye_concentration;
  for (std::size_t i = 0; i < part.into_lye.size(); ++i) {
    if (part.into_lye[i].name.find("lactate") == std::string::npos) continue;
    double dry = part.into_lye[i].grams;
    for (const auto& addition : part.request.additives) {
      if (addition.name == part.into_lye[i].name) dry *= 1 - addition.water;
    }
    out.sodium_lactate += dry / part.recipe.oils_grams;
  }
  out.gelled = gelled;
  return out;
}

/// What else is in a pot's water, and how much of it is plain.
struct PotWater {
  double grams = 0, plain = 0, acid_moles = 0, sugar_grams = 0;
};

PotTimes pot_times(const std::string& name, std::span<const core::AlkaliLine> alkali,
                   const PotWater& water, double room) {
  PotTimes pot;
  pot.name = name;
  double grams = 0, pure = 0;
  for (const auto& line : alkali) {
    grams += line.grams;
    pure += line.pure_grams();
  }
  // Mixed alkali: the one there is more of decides the heat; both warm much alike.
  const auto kind = alkali.empty() ? core::Alkali::sodium_hydroxide : alkali.front().alkali;
  pot.grams = grams + water.grams;
  pot.ice = core::ice_plan({.alkali = kind,
                            .alkali_grams = grams,
                            .purity = grams > 0 ? pure / grams : 1,
                            .water_grams = water.grams,
                            .water_celsius = core::kTapCelsius,
                            .room_celsius = room,
                            .acid_moles = water.acid_moles,
                            .sugar_grams = water.sugar_grams},
                           water.plain);
  pot.fresh_celsius = pot.ice.without_celsius;
  return pot;
}

struct Waits {
  std::optional<double> air, bath;  // h on the bench, h in the cold bath
};
Waits waits(const core::Vessel& vessel, double from, double to, const BatchTimes& batch) {
  const auto hours = [&](double around, core::Stand stand) {
    return core::hours_to_reach({.from_celsius = from,
                                 .around_celsius = around,
                                 .constant_hours = core::cooling_hours(vessel, stand)},
                                to);
  };
  return {hours(batch.room_celsius, core::Stand::air),
          hours(batch.bath_celsius, core::Stand::cold_bath)};
}
core::WarmPot lye_pot(const core::Recipe& recipe, double celsius) {
  core::WarmPot pot{recipe.water_grams, celsius};
  for (const auto& line : recipe.alkali) pot.grams += line.grams;
  return pot;
}

double cut_hours(const targets::PropertyModel& model, const PartPlan& part, BarSettings settings) {
  settings.cut_hours = kCutHours;
  const double score = model.value(Property::cut_firmness, part.composition, settings);
  return targets::hours_to_cut(score);
}

/// As the maker plans it, or ours; never warmer than it can be, nor than what joins it bears.
void plan_lye(PartTimes& times, const PartPlan& part, const PotTimes& pot, bool creamed) {
  const double ours = creamed ? kCreamedLye : pot.in_ice ? kIceLye : kLyeCelsius;
  times.lye_celsius = part.lye.lye_celsius.value_or(ours);
  const auto lower = [&](double most) {
    if (times.lye_celsius <= most) return;
    times.lye_celsius = most;
    times.lye_lowered = times.lye_said;
    times.lye_said = false;
  };
  if (pot.in_ice) lower(std::max(kIceLye, core::kIceLyeCelsius));
  for (const auto& step : core::lye_order(part.recipe)) {
    if (step.scorches) lower(core::kMilkLyeCelsius - 2);
  }
  lower(std::max(0.0, std::floor(pot.fresh_celsius)));
}

PartTimes part_times(const BatchPlan& plan, const PartPlan& part, const PotTimes& pot,
                     const BatchTimes& batch, const targets::PropertyModel& model) {
  using Method = targets::Part::Method;
  PartTimes times;
  const bool creamed = part.part->method == Method::creamed_fats;
  times.oils_said = part.lye.oils_celsius.has_value();
  times.lye_said = part.lye.lye_celsius.has_value();
  times.clear_celsius = core::celsius_of_solid_share(part.melting, core::kFalseTraceSolids);
  times.melt_celsius =
      std::max(kLeastMelt, core::celsius_of_solid_share(part.melting, 0.001) + kClearMargin);
  times.oils_celsius = part.lye.oils_celsius.value_or(
      creamed ? kCreamedCelsius : std::max(kOilsCelsius, std::ceil(times.clear_celsius) + 2));
  plan_lye(times, part, pot, creamed);
  const core::WarmPot solution = lye_pot(part.recipe, times.lye_celsius);
  times.batter_celsius =
      core::batter_celsius({part.recipe.oils_grams + part.wet_grams, times.oils_celsius}, solution);
  times.firm_celsius = core::celsius_of_solid_share(part.melting, core::kCreamedMost);
  times.soft_celsius = core::celsius_of_solid_share(part.melting, core::kCreamedLeast);
  times.solid_share =
      core::solid_share(part.melting, creamed ? times.oils_celsius : times.batter_celsius);
  if (creamed) {
    times.solids_fit = times.solid_share >= core::kCreamedLeast - core::kSolidDoubt &&
                       times.solid_share <= core::kCreamedMost + core::kSolidDoubt;
    times.solids_near = times.solids_fit && (times.solid_share < core::kCreamedLeast ||
                                             times.solid_share > core::kCreamedMost);
  } else {
    times.solids_fit = times.solid_share < core::kFalseTraceSolids;
  }
  // Another part's lye stays in the pot until its own time; the portion cools alone from there.
  const bool alone = plan.shared && part.part->size;
  const Waits lye = waits({.grams = alone ? solution.grams : pot.grams,
                           .specific_heat = core::lye_specific_heat().span.typical,
                           .density = kLyeDensity},
                          pot.fresh_celsius, times.lye_celsius, batch);
  times.lye_air_hours = lye.air;
  times.lye_bath_hours = lye.bath;
  const Waits oils = waits({.grams = part.recipe.oils_grams,
                            .specific_heat = core::oil_specific_heat().span.typical,
                            .density = kOilDensity},
                           times.melt_celsius, times.oils_celsius, batch);
  times.oils_air_hours = oils.air;
  times.oils_bath_hours = oils.bath;

  const bool gels = !part.part->size && batch.gel.gel == core::Gel::yes;
  const BarSettings settings = settings_of_part(part, gels);
  double minutes =
      kMinutes *
      std::exp2((model.value(Property::working_time, part.composition, settings) - 50) /
                kMinutePoints) *
      std::exp2((kWorkingReference - times.batter_celsius) / kMinuteDoubling);
  for (const auto& scent : part.scents) {
    const auto found = scent.behaves.find("thickens");
    if (found == scent.behaves.end() || found->second == "no") continue;
    minutes *= found->second.find("little") != std::string::npos ? 0.75 : 0.4;  // judgement
  }
  times.working_minutes = minutes;
  times.working_least = minutes / kMinuteDoubt;
  times.working_most = minutes * kMinuteDoubt;
  times.cut_hours = cut_hours(model, part, settings);
  times.salt_bar = part.salt_of_oils >= kSaltBar;
  if (times.salt_bar) times.cut_hours = std::min(times.cut_hours, kSaltBarCut);
  times.water_at_cut = part.recipe.products.water / part.recipe.total_grams;
  const double thickness = plan.file.cut ? plan.file.cut->slice : 25;
  times.cure_weeks =
      recipe::cure_weeks(model, part.composition, settings, times.water_at_cut, thickness);
  return times;
}

core::Poured poured_body(const BatchPlan& plan, double batter_celsius, const BatchTimes& batch) {
  const PartPlan& body = plan.body();
  core::Poured poured;
  double grams = body.recipe.total_grams;
  for (const auto& log : plan.logs) {
    if (log.volume_ml * body.batter_density > poured.batter_grams) {
      poured.batter_grams = log.volume_ml * body.batter_density;
      poured.volume_ml = log.volume_ml;
      poured.surface_cm2 = log.surface_cm2;
    }
  }
  if (plan.logs.empty()) {  // bars of a weight, moulds not known: one block
    poured.batter_grams = grams;
    poured.volume_ml = grams / core::batter_density().span.typical;
  }
  poured.fat_grams = poured.batter_grams * (body.recipe.oils_grams + body.wet_grams) / grams;
  poured.batter_celsius = batter_celsius;
  poured.room_celsius = batch.room_celsius;
  poured.lye_concentration = body.recipe.lye_concentration;
  poured.covered = batch.covered;
  return poured;
}

double body_batter_celsius(const PartPlan& body, const PartTimes& times) {
  return core::batter_celsius({body.recipe.oils_grams + body.wet_grams, times.oils_celsius},
                              lye_pot(body.recipe, times.lye_celsius));
}

}  // namespace

double cure_hours(const BatchPlan& plan, const BatchTimes& times) {
  double hours = plan.file.after.cure_hours.value_or(0);
  for (const auto& part : times.parts) hours = std::max(hours, 7.0 * 24 * part.cure_weeks);
  return hours;
}

BatchTimes times_of(const BatchPlan& plan) {
  const auto model = targets::PropertyModel::embedded();
  BatchTimes out;
  out.room_celsius = plan.file.room_celsius.value_or(kRoomCelsius);
  out.covered = plan.file.after.cover.value_or(false);
  if (plan.shared) {
    out.pots.push_back(pot_times(
        "lye pot", plan.shared->alkali,
        {.grams = plan.shared->water_grams, .plain = plan.shared->water_grams}, out.room_celsius));
  } else {
    for (const auto& part : plan.parts) {
      PotTimes pot = pot_times(part.part->name, part.recipe.alkali,
                               {.grams = part.recipe.pot_water_grams,
                                .plain = part.recipe.water_grams,
                                .acid_moles = part.recipe.acid_moles_in_lye,
                                .sugar_grams = part.recipe.sugar_in_lye},
                               out.room_celsius);
      pot.fresh_celsius = core::made_celsius(part.recipe, out.room_celsius);
      pot.in_ice = core::made_in_ice(core::lye_order(part.recipe));
      if (pot.in_ice) pot.ice.ice_grams = 0;  // it is cold as it is
      out.pots.push_back(pot);
    }
  }
  const auto pot_of = [&](std::size_t i) -> const PotTimes& {
    return out.pots[plan.shared ? 0 : i];
  };
  // The body's gel decides on its cut, and needs its batter's warmth first.
  std::size_t body = 0;
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    if (&plan.parts[i] == &plan.body()) body = i;
  }
  const PartTimes first = part_times(plan, plan.parts[body], pot_of(body), out, model);
  const core::Poured poured = poured_body(plan, body_batter_celsius(plan.parts[body], first), out);
  out.gel = core::gel_outlook(poured);
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    out.parts.push_back(part_times(plan, plan.parts[i], pot_of(i), out, model));
  }
  out.topping_hours = kMarkAfter * out.parts[body].working_minutes / 60;
  while (out.topping_hours < 24 && core::poured_celsius(poured, out.topping_hours) > kBodyCool) {
    out.topping_hours += 0.25;
  }
  add_time_notes(plan, out);
  add_trade_checks(plan, out);
  return out;
}

}  // namespace barwright::batch
