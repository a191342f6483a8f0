#include "core/chemistry/alkali.hpp"

#include <catch2/catch.hpp>

#include "core/chemistry/heat.hpp"
#include "core/lye/acid.hpp"
#include "core/lye/lye.hpp"
#include "core/units/error.hpp"

using namespace barwright::core;

namespace {
constexpr auto kNa = Alkali::sodium_hydroxide;
constexpr auto kK = Alkali::potassium_hydroxide;
}  // namespace

TEST_CASE("sodium hydroxide is potassium hydroxide times 39.997/56.106", "[alkali]") {
  CHECK(grams_for_koh(kNa, 190) == Approx(190 * 39.997 / 56.106).epsilon(1e-15));
  CHECK(grams_for_koh(kK, 190) == 190);
}

TEST_CASE("acids by exact form", "[alkali]") {
  // g NaOH per g: citric acid anhydrous 0.6245, monohydrate 0.571 (stoichiometry).
  CHECK(naoh_per_gram({"citric", AcidForm::citric_anhydrous}) == Approx(0.6245).margin(0.00006));
  CHECK(naoh_per_gram({"citric", AcidForm::citric_monohydrate}) == Approx(0.571).margin(0.0005));
  CHECK(naoh_per_gram({"lactic", AcidForm::lactic}) == Approx(0.4440).margin(0.00006));
  CHECK(naoh_per_gram({"acetic", AcidForm::acetic}) == Approx(0.6660).margin(0.0001));
  Acid vinegar{"vinegar", AcidForm::acetic, 400, 0.05};
  CHECK(alkali_moles(vinegar) * kNaohMolarMass == Approx(20 * 0.6660).epsilon(2e-4));
  CHECK(water_grams(vinegar) == Approx(380));
  CHECK(least_alkali_moles(vinegar, 0) == Approx(0.95 * alkali_moles(vinegar)));
  // Tartaric acid: two groups, 150.09 g/mol; 0.533 g NaOH per g.
  CHECK(naoh_per_gram({"tartaric", AcidForm::other, 10, 1, 2, 150.09}) ==
        Approx(0.533).margin(0.0005));
  const Acid crystals{"citric", AcidForm::citric_monohydrate, 100};
  CHECK(water_grams(crystals) == Approx(8.57).margin(0.005));
}

TEST_CASE("mixed alkali: every basis leads to the same mix", "[alkali]") {
  const double na = 1, k = 0.9;
  const auto by_moles = koh_shares(0.10, MixBasis::moles, {.naoh = na, .koh = k});
  const auto by_grams = koh_shares(by_moles.grams, MixBasis::grams, {.naoh = na, .koh = k});
  const auto by_fat = koh_shares(by_moles.fat, MixBasis::fat, {.naoh = na, .koh = k});
  CHECK(by_grams.moles == Approx(0.10).epsilon(1e-14));
  CHECK(by_fat.grams == Approx(by_moles.grams).epsilon(1e-14));
  // By hand: 0.1 mol KOH weighs 6.2340 g at 90 %, 0.9 mol NaOH 35.9973 g.
  CHECK(by_moles.grams == Approx(6.2340 / (6.2340 + 35.9973)).epsilon(1e-5));
  CHECK(koh_shares(0, MixBasis::grams, {.naoh = na, .koh = k}).moles == 0);
  CHECK(koh_shares(1, MixBasis::grams, {.naoh = na, .koh = k}).moles == 1);
  CHECK_THROWS_AS(koh_shares(1.1, MixBasis::moles, {.naoh = na, .koh = k}), Refusal);
}

TEST_CASE("how strong and weak a product may be", "[alkali]") {
  CHECK(strongest(kNa, {}) == 1);
  CHECK(weakest(kNa, {}) == 0.97);
  CHECK(strongest(kNa, {0.97, {}, {}}) == 1);
  CHECK(strongest(kNa, {0.985, 0.98, 0.99}) == 0.99);
  CHECK(strongest(kK, {0.90, {}, {}}) == Approx(0.91));
  CHECK(weakest(kK, {0.90, 0.88, {}}) == 0.88);
}

TEST_CASE("lye heats itself", "[alkali]") {
  // 33 %: 0.825 mol at about -36 kJ/mol over 350 J/K per 100 g, near 85 C.
  CHECK(self_heating_celsius(kNa, 0.33) == Approx(85).margin(2));
  CHECK(self_heating_celsius(kNa, 0.25) < self_heating_celsius(kNa, 0.33));
  CHECK(self_heating_celsius(kNa, 0) == 0);
}
