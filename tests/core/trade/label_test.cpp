#include "core/trade/label.hpp"

#include <catch2/catch.hpp>

using namespace barwright::core;
using Catch::Matchers::Contains;

namespace {

// Triolein, C57H104O6: 885.4 g/mol, so its saponification value is 3 x 56106 / 885.4 = 190.1.
PotFat triolein(double grams) {
  PotFat fat;
  fat.name = "triolein";
  fat.grams = grams;
  const double value = 3 * 56106 / 885.4;
  fat.saponification_value = {value, value, value};
  return fat;
}

LabelRequest one_fat(double superfat) {
  LabelRequest request;
  LabelPart part;
  part.fats.push_back({triolein(885.4), "Olein", "Sodium Oleate", false});
  const double naoh = 3 * kNaohMolarMass * (1 - superfat);
  part.alkali.push_back({Alkali::sodium_hydroxide, naoh, 1, naoh});
  part.superfat = superfat;
  part.water_grams = 2 * naoh;
  part.poured_grams = 885.4 + 3 * naoh;
  part.cured_water = 100;
  part.cured_grams = 885.4 + naoh + 100;
  request.parts.push_back(part);
  return request;
}

const Ingredient& item(const IngredientList& list, const std::string& name) {
  for (const auto& each : list.items) {
    if (each.name == name) return each;
  }
  throw std::runtime_error("no " + name);
}

LabelAddition addition(const char* name, double grams) {
  LabelAddition out;
  out.name = name;
  out.grams = grams;
  return out;
}

}  // namespace

TEST_CASE("one mole of triolein becomes three of oleate and one of glycerine") {
  // C18H33NaO2 304.4 g/mol, glycerol 92.09 g/mol.
  const auto list = as_saponified(one_fat(0));
  CHECK(item(list, "Sodium Oleate").grams == Approx(3 * 304.4).margin(1));
  CHECK(item(list, "Glycerin").grams == Approx(92.09).margin(0.1));
  CHECK(item(list, "Aqua").grams == 100);
  CHECK(list.items.size() == 3);
  // Nothing is lost: fat and alkali are soap and glycerine.
  CHECK(item(list, "Sodium Oleate").grams + item(list, "Glycerin").grams ==
        Approx(885.4 + 3 * kNaohMolarMass).epsilon(1e-9));
}

TEST_CASE("the oil left over stands under its own name") {
  const auto list = as_saponified(one_fat(0.05));
  CHECK(item(list, "Olein").grams == Approx(0.05 * 885.4));
  CHECK(item(list, "Glycerin").grams == Approx(0.95 * 92.09).margin(0.1));
  auto request = one_fat(0.05);
  request.parts[0].fats[0].fat.unsaponifiable = 0.02;
  CHECK(item(as_saponified(request), "Olein").grams == Approx(885.4 * 0.02 + 885.4 * 0.98 * 0.05));
}

TEST_CASE("as added: what went into the pot, heaviest first") {
  const auto list = as_added(one_fat(0.05));
  CHECK(list.line() == "Olein, Aqua, Sodium Hydroxide");
  CHECK(list.total_grams == Approx(885.4 + 3 * 3 * kNaohMolarMass * 0.95));
}

TEST_CASE("mixed lye makes both soaps, by moles, the potassium name by analogy") {
  auto request = one_fat(0);
  // 2 mol of NaOH and 1 of KOH.
  request.parts[0].alkali = {{Alkali::sodium_hydroxide, 2 * kNaohMolarMass, 1, 0},
                             {Alkali::potassium_hydroxide, kKohMolarMass / 0.9, 0.9, 0}};
  const auto list = as_saponified(request);
  CHECK(item(list, "Sodium Oleate").grams == Approx(2 * 304.4).margin(1));
  CHECK(item(list, "Potassium Oleate").grams == Approx(320.55).margin(1));  // C18H33KO2
  CHECK(item(list, "Potassium Oleate").status == NameStatus::formed_by_analogy);
}

TEST_CASE("colourants stand last whatever they weigh") {
  // Regulation (EC) No 1223/2009, article 19(1)(g); 21 CFR 701.3(f) (both recalled).
  auto request = one_fat(0.05);
  request.additions = {addition("titanium dioxide", 200), addition("salt", 20),
                       addition("fir and smoke", 24), addition("cracked juniper", 6)};
  request.additions[2].own_role = Role::fragrance;
  const auto list = as_added(request);
  CHECK(list.line() ==
        "Olein, Aqua, Sodium Hydroxide, Parfum, Sodium Chloride, cracked juniper, CI 77891");
  CHECK(item(list, "cracked juniper").status == NameStatus::missing);
  CHECK(item(list, "CI 77891").status == NameStatus::recalled);
  request.custom = Custom::us;
  CHECK(as_added(request).line() ==
        "Olein, Water, Sodium Hydroxide, Fragrance, Sodium Chloride, cracked juniper, Titanium "
        "Dioxide");
  request.additions[3].own_name = "Juniperus Communis Fruit";
  CHECK(item(as_added(request), "Juniperus Communis Fruit").status == NameStatus::makers_own);
}

TEST_CASE("allergens are named from a hundredth of a per cent of the bar") {
  // Rinsed off: 0.01 %, Regulation (EC) No 1223/2009, annex III (recalled).
  auto request = one_fat(0.05);
  request.additions = {addition("fir and smoke", 24)};
  request.additions[0].own_role = Role::fragrance;
  const double cured = request.parts[0].cured_grams;
  const double just = kAllergenLeast * cured / 24;
  request.allergens = {{"fir and smoke", "Limonene", 0.08},
                       {"fir and smoke", "Linalool", just},
                       {"fir and smoke", "Citral", just * 0.99}};
  const auto list = as_saponified(request);
  CHECK(item(list, "Limonene").grams == Approx(1.92));
  CHECK(item(list, "Limonene").allergen);
  CHECK_NOTHROW(item(list, "Linalool"));
  CHECK_THROWS(item(list, "Citral"));
  // They are part of the scent: the total does not count them twice.
  auto without = request;
  without.allergens.clear();
  CHECK(list.total_grams == as_saponified(without).total_grams);
  // The same allergen of two scents adds up.
  request.additions.push_back(addition("citrus", 10));
  request.allergens = {{"fir and smoke", "Citral", just * 0.6},
                       {"citrus", "Citral", just * 24 * 0.05}};
  CHECK_NOTHROW(item(as_saponified(request), "Citral"));
}

TEST_CASE("an acid stands as itself as added and as its salt in the bar") {
  auto request = one_fat(0.05);
  LabelAddition acid = addition("citric acid anhydrous", 10);
  acid.becomes = "Sodium Citrate";
  acid.becomes_grams = 13.4;
  request.additions = {acid};
  CHECK_NOTHROW(item(as_added(request), "Citric Acid"));
  CHECK(item(as_saponified(request), "Sodium Citrate").grams == 13.4);
}

TEST_CASE("net weight never rounds up") {
  CHECK(net_weight_line(107, Custom::eu) == "107 g");
  // 107 g are 3.774 oz.
  CHECK(net_weight_line(107, Custom::us) == "Net Wt 3.7 oz (107 g)");
  CHECK(net_weight_line(9.8, Custom::eu) == "9.8 g");
}

TEST_CASE("words that are claims are pointed at, others are not") {
  const auto found = [](const char* words) {
    std::string out;
    for (const auto& claim : find_claims(words)) out += claim.word + "|";
    return out;
  };
  CHECK(found("Gentle, heals eczema") == "eczema|heals|gentle|");
  CHECK(found("Free from palm") == "free from|");
  CHECK(found("VEGAN & cruelty-free") == "vegan|cruelty free|");
  CHECK(found("yard bar, 100 g, nothing notable").empty());
  CHECK_THAT(law_note(), Contains("1223/2009") && Contains("21 CFR 701") && Contains("checked") &&
                             Contains("claims"));
}
