#include "solver/known_additions.hpp"

#include <algorithm>
#include <cctype>
#include <string>

namespace barwright::solver {
namespace {

std::string lower(const std::string& text) {
  std::string out = text;
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

bool has(const std::string& text, const char* word) { return text.find(word) != std::string::npos; }

double need_strength(const targets::Addition& addition, const char* example) {
  if (addition.strength) return *addition.strength;
  addition.written.fail("'" + addition.name + "' has no strength",
                        std::string("write it behind the name, as on the bottle: ") + example);
}

}  // namespace

bool is_acid(const targets::Addition& addition) {
  const std::string name = lower(addition.name);
  return has(name, "acid") || has(name, "vinegar");
}

core::Acid known_acid(const targets::Addition& addition, double grams) {
  const std::string name = lower(addition.name);
  core::Acid acid;
  acid.name = addition.name;
  acid.grams = grams;
  acid.answer = addition.lye_corrected.value_or(true) ? core::AcidAnswer::correct
                                                      : core::AcidAnswer::let_superfat_rise;
  if (has(name, "stearic")) {
    addition.written.fail("stearic acid is a fat, and its alkali must be counted as one",
                          "put it into the blend as 'stearic acid'");
  }
  if (has(name, "citric")) {
    acid.strength = 1;
    if (has(name, "anhydr")) {
      acid.form = core::AcidForm::citric_anhydrous;
    } else if (has(name, "mono")) {
      acid.form = core::AcidForm::citric_monohydrate;
    } else {
      addition.written.fail(
          "citric acid is sold in two forms that differ by 9 % in the lye they use up",
          "write 'citric acid anhydrous' or 'citric acid monohydrate', as on the bag");
    }
    return acid;
  }
  if (has(name, "lactic")) {
    acid.form = core::AcidForm::lactic;
    acid.strength = need_strength(addition, "'lactic acid 80 %'");
    return acid;
  }
  if (has(name, "vinegar") || has(name, "acetic")) {
    acid.form = core::AcidForm::acetic;
    acid.strength = need_strength(addition, "'vinegar 5 %'");
    return acid;
  }
  addition.written.fail("'" + addition.name + "' is not an acid whose use of lye is known",
                        "known are citric acid anhydrous or monohydrate, lactic acid and vinegar "
                        "(acetic acid) with their strength");
}

core::Addition known_liquid(const targets::Addition& addition, double grams) {
  const std::string name = lower(addition.name);
  core::Addition liquid;
  if (has(name, "milk") && !has(name, "coconut") && !has(name, "oat") && !has(name, "powder")) {
    liquid = core::whole_milk(grams);
  } else if (has(name, "water") || has(name, "tea") || has(name, "coffee")) {
    liquid.water = 1;
  } else {
    addition.written.fail(
        "what '" + addition.name + "' brings of water, fat and sugar is not known",
        "known are water, tea, coffee and whole milk");
  }
  liquid.name = addition.name;
  liquid.grams = grams;
  liquid.frozen = addition.frozen;
  liquid.into = core::Into::lye;
  return liquid;
}

core::Addition known_addition(const targets::Addition& addition, double grams) {
  const std::string name = lower(addition.name);
  core::Addition out;
  if (has(name, "sodium lactate")) {
    const bool dry = has(name, "powder") || has(name, "dry");
    out = dry ? core::sodium_lactate_powder(grams)
              : core::sodium_lactate_syrup(grams,
                                           need_strength(addition, "'sodium lactate syrup 60 %'"));
  } else if (has(name, "salt")) {
    out.salt = 1;
  } else if (has(name, "sugar")) {
    out.sugar = 1;
  } else {
    addition.written.fail("nothing is known of '" + addition.name + "' in lye",
                          "known are sodium lactate (syrup with its strength, or powder), salt, "
                          "sugar and the acids");
  }
  out.name = addition.name;
  out.grams = grams;
  out.into = core::Into::lye;
  out.frozen = addition.frozen;
  return out;
}

}  // namespace barwright::solver
