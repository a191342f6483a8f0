#include "core/lye/addition.hpp"

#include <cmath>

#include "core/units/error.hpp"

namespace barwright::core {

namespace {

bool fraction(double value) { return value >= 0 && value <= 1; }

}  // namespace

Addition sodium_lactate_syrup(double grams, double strength) {
  if (!(strength > 0 && strength <= 1)) {
    throw Refusal("The strength of the sodium lactate syrup is not a percentage.",
                  "Read it off the bottle, such as 60 %.");
  }
  Addition addition;
  addition.name = "sodium lactate syrup";
  addition.grams = grams;
  addition.into = Into::cooled_lye;
  addition.water = 1 - strength;
  return addition;
}

Addition sodium_lactate_powder(double grams) {
  Addition addition;
  addition.name = "sodium lactate powder";
  addition.grams = grams;
  addition.into = Into::cooled_lye;
  return addition;
}

Addition whole_milk(double grams) {
  Addition addition;
  addition.name = "whole milk";
  addition.grams = grams;
  addition.water = 0.875;  // recalled: usual food table figures
  addition.fat = 0.035;
  addition.sugar = 0.048;
  addition.fat_saponification_value = {210, 228,
                                       240};  // butter fat; typical computed, range recalled
  return addition;
}

bool scorches(const Addition& addition) {
  return addition.sugar > kTraceOfIt || addition.fat > kTraceOfIt;
}

std::optional<Acid> acid_of(const Addition& addition, double grams) {
  std::optional<Acid> out = addition.acid;
  if (out) out->grams *= grams;
  return out;
}

void check(const Addition& addition) {
  const std::string who = "'" + addition.name + "'";
  if (!(addition.grams >= 0) || !std::isfinite(addition.grams)) {
    throw Refusal("The weight of " + who + " is not a weight.", "Give it in grams.");
  }
  const double acid_share = addition.acid.value_or(Acid{}).grams;
  const double sum =
      addition.water + addition.fat + addition.sugar + addition.alcohol + addition.salt;
  if (!fraction(addition.water) || !fraction(addition.fat) || !fraction(addition.sugar) ||
      !fraction(addition.alcohol) || !fraction(addition.salt) || !fraction(acid_share) ||
      sum > 1 + 1e-9) {
    throw Refusal("The shares of water, fat, sugar, alcohol and salt in " + who +
                      " do not make sense together.",
                  "Give each as a percentage of the addition; together at most 100 %.");
  }
  if (addition.fat > 0 && !(addition.fat_saponification_value.low > 0)) {
    throw Refusal("The fat in " + who + " has no saponification value, so its lye is unknown.",
                  "State the saponification value of that fat, or leave the addition out.");
  }
  if (!in_lye(addition.into)) return;
  if (addition.alcohol > kTraceOfIt) {
    throw Refusal("Alcohol in " + who + " boils up when it meets lye.",
                  "Boil the alcohol off and let it go flat and cold first, or add it at trace.");
  }
  if (addition.into == Into::cooled_lye) {
    if (!scorches(addition) || addition.water > 0.5) return;
    throw Refusal("Syrups and fats lie on made lye and scorch; " + who + " is meant for it.",
                  "Dissolve sugar in the water before the alkali, or add " + who + " at trace.");
  }
  if (addition.fat > kTraceOfIt && !addition.frozen) {
    throw Refusal(
        "Milk and cream in hot lye scorch and can boil over; " + who +
            " is meant for the water the alkali goes into.",
        "Freeze it ('frozen: yes') and dissolve the alkali in the ice a little at a time, "
        "or make the lye with plain water and add " +
            who + " 'when: lye is cold', or at trace.");
  }
}

}  // namespace barwright::core
