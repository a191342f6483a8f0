#include "solver/batch/batch_dose.hpp"

#include <fmt/format.h>

#include <utility>

#include "core/units/format.hpp"
#include "core/units/weight_text.hpp"

namespace barwright::batch {
namespace {

constexpr double kTeaspoon = 5;  // mL, the metric one

double amount(const targets::Dose& dose, const core::DoseMasses& masses, int bars) {
  switch (dose.basis) {
    case targets::Basis::total:
      return dose.value;
    case targets::Basis::per_kg_oils:
      return dose.value * masses.oils / 1000;
    case targets::Basis::per_kg_batter:
      return dose.value * masses.batter / 1000;
    case targets::Basis::of_oils:
      return dose.value * masses.oils;
    case targets::Basis::of_water:
      return dose.value * masses.water;
    case targets::Basis::per_bar:
      if (bars == 0) {
        dose.written.fail("a dose per bar, but the number of bars is not known",
                          "Give the dose per kg of oils, or say how the logs are cut.");
      }
      return dose.value * bars;
  }
  return 0;
}

std::string remark(const oils::Additive* known, double grams, const core::DoseMasses& masses) {
  if (known == nullptr) {
    return "nothing is known of it here: ask its supplier whether it lives in fresh soap";
  }
  const double basis = masses.of(known->basis);
  const bool colours = known->kind == oils::AdditiveKind::colour;
  std::string out;
  if (basis > 0 && 1000 * grams / basis > known->dose.span.high * (1 + 1e-9)) {
    out = fmt::format("{} {}: more than the usual {}{}", core::rate_text(1000 * grams / basis),
                      core::word(known->basis), core::rate_text(known->dose.span.high),
                      colours ? ", it may bleed into foam and cloth" : "");
  }
  if (known->alkali == oils::InAlkali::ask) {
    out += (out.empty() ? "" : "; ") + std::string("ask whether it lives in fresh soap");
  } else if (known->alkali == oils::InAlkali::dies) {
    out += (out.empty() ? "" : "; ") + std::string("does not live in fresh soap");
  }
  return out;
}

std::string spoon_text(double g_per_ml) {
  const double grams = kTeaspoon * g_per_ml;
  return core::shown_units() == core::Units::ounces ? core::grams_text(grams)
                                                    : fmt::format("{:.2g} g", grams);
}

/// What a level teaspoon of it weighs, g, and in words where that is known from.
std::pair<double, std::string> spoonful(const targets::Addition& addition,
                                        const oils::Additive* known) {
  if (addition.spoon_grams) {
    return {*addition.spoon_grams, "your spoon of " + core::grams_text(*addition.spoon_grams)};
  }
  if (known == nullptr || !known->density) {
    addition.written.fail("what does a teaspoon of '" + addition.name + "' weigh?",
                          "Weigh ten level ones and write 'spoon-weighs: 2.4 g' beside it, or give "
                          "the dose in grams.");
  }
  const auto& span = known->density->span;
  return {kTeaspoon * span.typical,
          fmt::format("a level one is taken as {}, {} to {}, from memory: weigh it",
                      spoon_text(span.typical), spoon_text(span.low), spoon_text(span.high))};
}

}  // namespace

WeighedAddition weighed(const BatchPlan& batch, const targets::Addition& addition,
                        const core::DoseMasses& masses, int bars) {
  WeighedAddition out;
  out.name = addition.name;
  out.known = batch.additives.find(addition.name);
  double asked = amount(addition.dose, masses, bars);
  std::string spoons;
  if (addition.dose.teaspoons) {
    const auto [grams, from] = spoonful(addition, out.known);
    spoons = fmt::format("{:.3g} tsp of 5 mL ({})", asked, from);
    asked *= grams;
  }
  // Grams the maker wrote stay as written: they may want a finer scale, which the sheet says.
  out.grams = addition.dose.basis == targets::Basis::total && !addition.dose.teaspoons
                  ? asked
                  : core::rounded(asked, batch.scales.lye.step);
  if (out.grams == 0) out.grams = asked;
  out.when = !addition.when.empty() ? addition.when : out.known ? out.known->when : "at trace";
  out.remark = remark(out.known, out.grams, masses);
  if (!spoons.empty()) out.remark = spoons + (out.remark.empty() ? "" : "; " + out.remark);
  return out;
}

}  // namespace barwright::batch
