#include "core/lye/batch.hpp"

#include <algorithm>
#include <cmath>

#include "core/lye/lye_parts.hpp"
#include "core/lye/lye_portion.hpp"
#include "core/lye/superfat_levels.hpp"
#include "core/units/error.hpp"
#include "core/units/format.hpp"

namespace barwright::core {

using namespace lye_parts;

namespace {

/// The solution before it is weighed.
struct Solution {
  struct Kind {
    Alkali alkali = Alkali::sodium_hydroxide;
    Strength strength;
    double share{};  ///< of the moles
  };
  std::vector<Kind> kinds;
};

Solution solution_of(const LyeSettings& settings) {
  using Choice = LyeSettings::Choice;
  Solution out;
  const Strength soda = settings.naoh_strength.value_or(Strength{});
  if (settings.alkali != Choice::sodium_hydroxide && !settings.koh_strength) {
    throw Refusal("The strength of the potassium hydroxide is not stated.",
                  "Read the assay off the supplier's certificate and state it, such as 90 %.");
  }
  const Strength potash = settings.koh_strength.value_or(Strength{});
  double share = settings.alkali == Choice::potassium_hydroxide ? 1 : 0;
  if (settings.alkali == Choice::mixed) {
    share =
        koh_shares(settings.koh_share, settings.basis, {.naoh = soda.stated, .koh = potash.stated})
            .moles;
  }
  if (share < 1) out.kinds.push_back({Alkali::sodium_hydroxide, soda, 1 - share});
  if (share > 0) out.kinds.push_back({Alkali::potassium_hydroxide, potash, share});
  return out;
}

double wanted_moles(const LyeNeed& need, double superfat) {
  double moles = typical_moles(need.fats) * (1 - superfat);
  for (const auto& acid : need.acids) {
    if (acid.answer == AcidAnswer::correct) moles += alkali_moles(acid);
  }
  return moles;
}

void check_water(const WaterRule& rule) {
  if (!(rule.value > 0) || !std::isfinite(rule.value)) {
    throw Refusal("The water setting is not usable.", "Give a lye concentration such as 33 %.");
  }
}

double dissolved(std::span<const AlkaliLine> lines) {
  double grams = 0;
  for (const auto& line : lines) grams += line.grams;
  return grams;
}

std::vector<std::vector<double>> levels_of(std::span<const LyeNeed> parts) {
  std::vector<std::vector<double>> levels;
  for (const auto& need : parts) {
    if (!(need.superfat >= 0 && need.superfat <= 0.5) || !(need.never_below >= 0)) {
      throw Refusal("The superfat of the " + need.part + " is not one to make.",
                    "Aim for 5 %, and never below 0 %.");
    }
    if (!(typical_moles(need.fats) > 0)) {
      throw Refusal("There is no fat in the " + need.part + ".", "Give it an oil with a weight.");
    }
    levels.push_back(superfat_levels(need.superfat));
  }
  return levels;
}

/// The one lye made for `moles` of alkali: what is weighed, and no portions yet.
SharedLye pot_for(double moles, const Solution& solution, const LyeSettings& settings,
                  const Scales& scales, double oil_grams) {
  SharedLye lye;
  const double error = scales.lye.error_grams();
  double pure = 0, off = 0;
  for (const auto& kind : solution.kinds) {
    const double exact = moles * kind.share * molar_mass(kind.alkali) / kind.strength.stated;
    // Up: portions are weighed out of it, so more in the pot is not more in a part.
    const double step = scales.lye.step;
    const double grams = std::ceil(exact / step - 1e-9) * step;
    lye.alkali.push_back({kind.alkali, grams, kind.strength.stated, exact});
    pure += grams * kind.strength.stated;
    off += error / exact;
  }
  if (off > 0.01) {
    throw Refusal("The lye scale may be off by " + grams_text(error) + ", which is " +
                      percent_text(off) + " of the alkali; more than 1 % is not safe.",
                  "Weigh the alkali on a finer scale, or make a larger batch.");
  }
  const double weighed = dissolved(lye.alkali);
  check_water(settings.water);
  lye.water_grams = rounded(water_for(settings.water, pure, weighed, oil_grams), scales.lye.step);
  if (!(lye.water_grams > 0)) {
    throw Refusal("The lye pot would hold no water.", "Plan a weaker lye, such as 33 %.");
  }
  lye.making_weight = weighed + lye.water_grams;
  lye.concentration = pure / lye.making_weight;
  return lye;
}

LyePortion portion_for(const LyeNeed& need, double superfat, std::span<const PotAlkali> in_pot,
                       double making_weight, const Scales& scales) {
  LyePortion portion;
  portion.part = need.part;
  portion.raised_superfat = superfat;
  portion.exact_grams = wanted_moles(need, superfat) / moles_of(in_pot) * making_weight;
  portion.solution_grams = rounded_down(portion.exact_grams, scales.lye.step);
  portion.alkali = portion_of(in_pot, portion.solution_grams, making_weight, scales);
  portion.water_grams = portion.solution_grams;
  for (const auto& line : portion.alkali) portion.water_grams -= line.grams;
  portion.check = check_pot({need.fats, need.acids, portion.alkali}, scales);
  return portion;
}

/// Throws where the worst case of a portion lies below its part's floor and no level is left.
void check_may_rise(const LyeNeed& need, const LyePortion& portion, bool level_left) {
  const std::string at = percent_text(portion.raised_superfat) +
                         " superfat the worst case of the " + need.part + " is " +
                         percent_text(portion.check.band.low) + ", below its floor of " +
                         percent_text(need.never_below);
  if (!need.may_raise) {
    throw Refusal("At " + at + ", and 'raise: no' keeps it from rising.",
                  "Aim higher, lower 'never-below' (not below 0 %), or take 'raise: no' out.");
  }
  if (!level_left) {
    throw Refusal("Even at " + at + ".",
                  "Use a finer scale or a larger batch, or get the certificate of the oil "
                  "with the loosest figures.");
  }
}

}  // namespace

SharedLye share_lye(std::span<const LyeNeed> parts, const LyeSettings& settings,
                    const Scales& scales, double oil_grams) {
  check(scales);
  if (parts.empty()) throw Refusal("No part shares the lye.", "Give at least one part.");
  const Solution solution = solution_of(settings);
  const auto levels = levels_of(parts);
  std::vector<std::size_t> raised(parts.size(), 0);
  const auto aim = [&](std::size_t i) { return levels[i][raised[i]]; };
  // Raising one part changes what is weighed for all, hence the outer loop; it ends since levels
  // only run out.
  for (;;) {
    double moles = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) moles += wanted_moles(parts[i], aim(i));
    SharedLye lye = pot_for(moles, solution, settings, scales, oil_grams);
    // Rounding up may leave the two alkalis a hair off their ratio; portions go by all moles.
    std::vector<PotAlkali> in_pot;
    for (std::size_t i = 0; i < lye.alkali.size(); ++i) {
      const auto& line = lye.alkali[i];
      in_pot.push_back(
          {line.alkali, line.grams, solution.kinds[i].strength, scales.lye.error_grams()});
    }
    bool good = true;
    double taken = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      LyePortion portion = portion_for(parts[i], aim(i), in_pot, lye.making_weight, scales);
      if (portion.check.band.low < parts[i].never_below) {
        good = false;
        check_may_rise(parts[i], portion, raised[i] + 1 < levels[i].size());
        ++raised[i];
      }
      taken += portion.solution_grams;
      lye.portions.push_back(std::move(portion));
    }
    lye.left_grams = lye.making_weight - taken;
    if (good) return lye;
  }
}

PotCheck check_untopped(const SharedLye& lye, const LyeNeed& need, const LyePortion& portion,
                        double lost_grams, const Scales& scales) {
  Pot pot{need.fats, need.acids, portion.alkali};
  const double stronger = lye.making_weight / (lye.making_weight - lost_grams);
  for (auto& line : pot.alkali) {
    line.grams *= stronger;
    line.error *= stronger;
  }
  return check_pot(pot, scales);
}

}  // namespace barwright::core
