#include "solver/recipe/known_additions.hpp"

#include <fmt/format.h>

#include <string>

#include "solver/recipe/known_names.hpp"

namespace barwright::recipe {
namespace {

constexpr const char* kKnownAcids =
    "known are citric acid anhydrous or monohydrate, lactic acid and vinegar (acetic acid) with "
    "their strength";
constexpr const char* kLiquidNames =
    "water, tea, coffee, milks (whole, goat, coconut, oat, almond, buttermilk, yogurt, cream), "
    "beer, "
    "wine, cider, aloe, coconut water, sea water, brine with its strength and purees (pumpkin, "
    "carrot, cucumber, banana, avocado, strawberry)";

double need_strength(const targets::Addition& addition, const char* example) {
  if (addition.strength) return *addition.strength;
  addition.written.fail("'" + addition.name + "' has no strength",
                        std::string("write it behind the name, as on the bottle: ") + example);
}

std::string with_strength(const targets::Addition& addition) {
  if (!addition.strength || *addition.strength == 1) return addition.name;
  return fmt::format("{} {:g} %", addition.name, 100 * *addition.strength);
}

/// A strength that nothing would be made of is never dropped in silence.
void no_strength(const targets::Addition& addition) {
  if (!addition.strength || *addition.strength == 1) return;
  addition.written.fail(
      fmt::format("what is the other {:g} % of '{}'? Its strength is not reckoned with",
                  100 * (1 - *addition.strength), addition.name),
      "name what is in it line by line, or take the strength out if it is none");
}

core::Addition holding(const oils::AdditiveHolds& holds) {
  core::Addition out;
  out.water = holds.water;
  out.fat = holds.fat;
  out.sugar = holds.sugar;
  out.salt = holds.salt;
  out.fat_saponification_value = holds.fat_saponification_value;
  out.alcohol = holds.alcohol;
  out.acid = holds.acid;
  return out;
}

const oils::Additives& records() {
  static const oils::Additives all = oils::Additives::embedded();
  return all;
}

core::Addition lactate(const targets::Addition& addition, NameOf meaning, double grams) {
  if (meaning == NameOf::lactate_powder) {
    no_strength(addition);
    return core::sodium_lactate_powder(grams);
  }
  return core::sodium_lactate_syrup(grams, need_strength(addition, "'sodium lactate syrup 60 %'"));
}

void make_brine(core::Addition& out, const targets::Addition& addition) {
  out.salt = need_strength(addition, "'brine 10 %', the salt in all of it");
  out.water = 1 - out.salt;
}

/// When a liquid meets the batch, by the maker's words: before the alkali unless said otherwise.
core::Into liquid_into(const targets::Addition& addition) {
  const std::string when = " " + oils::folded_name(addition.when) + " ";
  const auto says = [&](const char* word) {
    return when.find(std::string(" ") + word + " ") != std::string::npos;
  };
  core::Into into = core::Into::lye;
  if (says("trace"))
    into = core::Into::trace;
  else if (says("oils"))
    into = core::Into::oils;
  else if (says("lye") && (says("cold") || says("cooled") || says("cool") || says("below")))
    into = core::Into::cooled_lye;
  else if (!addition.when.empty() && !says("before") && !says("water") && !says("lye"))
    addition.written.fail(
        fmt::format("when does '{}' go in? '{}' is not understood", addition.name, addition.when),
        "write 'before the alkali' (or leave 'when' out), 'when lye is cold', 'into the oils' or "
        "'at trace'");
  if (addition.frozen && into != core::Into::lye)
    addition.written.fail(
        fmt::format("'{}' is frozen for the alkali to go into, and told to go in later ('{}')",
                    addition.name, addition.when),
        "take out 'frozen: yes', or the 'when'");
  return into;
}

[[noreturn]] void fail_as_fat(const targets::Addition& addition, const std::string& what) {
  addition.written.fail(
      fmt::format("'{}' is {}, and the lye must be reckoned for it", addition.name, what),
      "put it into the part's blend, whenever it goes in: every fat in the pot meets the lye");
}

}  // namespace

void refuse_alkali(const targets::Addition& addition) {
  if (meaning_of(addition.name) != NameOf::alkali) return;
  addition.written.fail(
      fmt::format("'{}' is an alkali or gives one: it would be lye nobody reckoned with",
                  addition.name),
      "the alkali is weighed by barwright: name its kind and strength under 'lye:', and leave this "
      "line out");
}

bool is_acid(const targets::Addition& addition) {
  switch (meaning_of(addition.name)) {
    case NameOf::citric_anhydrous:
    case NameOf::citric_monohydrate:
    case NameOf::citric_unclear:
    case NameOf::lactic:
    case NameOf::acetic:
    case NameOf::other_acid:
      return true;
    default:
      return false;
  }
}

core::Acid known_acid(const targets::Addition& addition, double grams) {
  core::Acid acid;
  acid.name = addition.name;
  acid.grams = grams;
  acid.answer = addition.lye_corrected.value_or(true) ? core::AcidAnswer::correct
                                                      : core::AcidAnswer::let_superfat_rise;
  switch (meaning_of(addition.name)) {
    case NameOf::citric_anhydrous:
    case NameOf::citric_monohydrate:
      acid.form = meaning_of(addition.name) == NameOf::citric_anhydrous
                      ? core::AcidForm::citric_anhydrous
                      : core::AcidForm::citric_monohydrate;
      acid.strength = addition.strength.value_or(1);
      // A solution is not the crystals: the bench must tell them apart.
      acid.name = with_strength(addition);
      return acid;
    case NameOf::citric_unclear:
      addition.written.fail(
          "citric acid is sold in two forms that differ by 9 % in the lye they use up",
          "write 'citric acid anhydrous' or 'citric acid monohydrate', as on the bag; a solution "
          "with its strength, such as 'citric acid anhydrous 50 %'");
    case NameOf::lactic:
      acid.form = core::AcidForm::lactic;
      acid.strength = need_strength(addition, "'lactic acid 80 %'");
      return acid;
    case NameOf::acetic:
      acid.form = core::AcidForm::acetic;
      acid.strength = need_strength(addition, "'vinegar 5 %'");
      return acid;
    default:
      break;
  }
  const oils::Oil* fat = oils::Library::embedded().find(addition.name);
  if (fat != nullptr) {
    addition.written.fail(addition.name + " is a fat, and its alkali must be counted as one",
                          "put it into the blend as '" + fat->name + "'");
  }
  refuse_alkali(addition);
  addition.written.fail("'" + addition.name + "' is not an acid whose use of lye is known",
                        kKnownAcids);
}

core::Addition known_liquid(const targets::Addition& addition, double grams) {
  if (is_acid(addition)) {
    addition.written.fail("'" + addition.name + "' uses up lye, and stands among the liquids",
                          "write it under 'acids:'; its water counts there too");
  }
  core::Addition liquid;
  const core::Into late = liquid_into(addition);
  bool strength_is_taken = false;
  const oils::Additive* record = records().find(addition.name);
  if (meaning_of(addition.name) == NameOf::water) {
    liquid.water = 1;
  } else if (meaning_of(addition.name) == NameOf::brine) {
    make_brine(liquid, addition);
    strength_is_taken = true;
  } else if (record != nullptr && record->holds && record->holds->water > 0.5) {
    liquid = holding(*record->holds);
    // Boiled first, as it must be: the alcohol is gone, and what is weighed is the rest.
    const double left = 1 - liquid.alcohol;
    if (!record->before_lye.empty() && late != core::Into::trace && late != core::Into::oils) {
      liquid.caution = record->before_lye;
      liquid.water /= left;
      liquid.sugar /= left;
      if (liquid.acid) liquid.acid->grams /= left;
      liquid.alcohol = 0;
    }
  } else {
    refuse_alkali(addition);
    addition.written.fail(
        "what '" + addition.name + "' brings of water, fat and sugar is not known",
        fmt::format("known are {}; a drink not named here may be written as water and what is in "
                    "it, line by line",
                    kLiquidNames));
  }
  if (!strength_is_taken) no_strength(addition);
  liquid.name = strength_is_taken ? with_strength(addition) : addition.name;
  liquid.grams = grams;
  liquid.frozen = addition.frozen;
  liquid.into = late;
  return liquid;
}

core::Addition known_addition(const targets::Addition& addition, double grams) {
  core::Addition out;
  out.into = core::Into::lye;  // a lactate brings its own: the cooled lye
  const double strength = addition.strength.value_or(1);
  switch (const NameOf meaning = meaning_of(addition.name)) {
    case NameOf::lactate_syrup:
    case NameOf::lactate_powder:
      out = lactate(addition, meaning, grams);
      break;
    case NameOf::salt:
      out.salt = strength;
      out.water = 1 - strength;
      break;
    case NameOf::sugar:
      out.sugar = strength;
      out.water = 1 - strength;
      break;
    default:
      refuse_alkali(addition);
      addition.written.fail("nothing is known of '" + addition.name + "' in lye",
                            "known are sodium lactate (syrup with its strength, or powder), salt, "
                            "sugar and the acids");
  }
  out.name = addition.name;
  out.grams = grams;
  out.frozen = addition.frozen;
  return out;
}

core::Addition known_in_part(const targets::Addition& addition, const oils::Additive* record,
                             const oils::Library& library, double grams, core::Into into) {
  core::Addition out;
  const NameOf meaning = meaning_of(addition.name);
  const oils::Oil* fat = library.find(addition.name);
  refuse_alkali(addition);
  if (is_acid(addition)) {
    addition.written.fail("the acid '" + addition.name + "' uses up lye of the whole part",
                          "write it under the part's 'acids:' or 'additives:'");
  }
  if (meaning == NameOf::lactate_syrup || meaning == NameOf::lactate_powder) {
    out = lactate(addition, meaning, grams);
  } else if (record != nullptr) {
    no_strength(addition);
    if (record->holds) out = holding(*record->holds);
  } else if (fat != nullptr && meaning == NameOf::water) {
    addition.written.fail(
        fmt::format("'{}' may be the drink or the oil", addition.name),
        fmt::format("write 'brewed {}', or put the oil into the part's blend", addition.name));
  } else if (meaning == NameOf::water) {
    no_strength(addition);
    out.water = 1;
  } else if (meaning == NameOf::brine) {
    make_brine(out, addition);
  } else if (meaning == NameOf::salt || meaning == NameOf::sugar) {
    const double strength = addition.strength.value_or(1);
    (meaning == NameOf::salt ? out.salt : out.sugar) = strength;
    out.water = 1 - strength;
  } else if (fat != nullptr) {
    fail_as_fat(addition, "a fat of the library (" + fat->name + ")");
  } else if (!library.meant_by(addition.name).empty()) {
    fail_as_fat(addition, "a fat, if not clear which");
  } else {
    const std::string sounds = sounds_like(addition.name);
    if (sounds == "a fat") fail_as_fat(addition, "a fat by its name");
    if (!sounds.empty()) {
      addition.written.fail(
          fmt::format("'{}' is {} by its name, and nothing is known of what it brings",
                      addition.name, sounds),
          fmt::format("of liquids, {}, and honey; of acids, {}; a scent is an 'essential oil' or a "
                      "'fragrance'",
                      kLiquidNames, std::string(kKnownAcids).substr(10)));
    }
    // A colour or powder of one's own: a strength of it moves no lye.
  }
  out.name = addition.name;
  out.grams = grams;
  out.into = into;
  return out;
}

}  // namespace barwright::recipe
