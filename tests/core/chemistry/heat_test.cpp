#include "core/chemistry/heat.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/bench/gel.hpp"
#include "core/bench/temperature.hpp"
#include "core/bench/temperature_solid.hpp"
#include "core/lye/lye.hpp"

using namespace barwright::core;

namespace {

LyeMix mix(double alkali_grams, double water_grams, double water_celsius, double room_celsius) {
  return {.alkali_grams = alkali_grams,
          .water_grams = water_grams,
          .water_celsius = water_celsius,
          .room_celsius = room_celsius};
}

}  // namespace

TEST_CASE("fresh lye of 33 % warms by about 85 C", "[heat]") {
  // Heat of solution near -36 kJ/mol at 4.5 mol water per mol (recalled), 3.5 J/gK: + 85 C.
  const double hot = fresh_lye_celsius(mix(330, 670, 20, 20));
  CHECK(hot - 20 == Approx(self_heating_celsius(Alkali::sodium_hydroxide, 0.33)).margin(1e-9));
  CHECK(hot - 20 == Approx(85).margin(3));
  CHECK(fresh_lye_celsius(mix(250, 750, 20, 20)) < hot);
  CHECK(fresh_lye_celsius(mix(400, 600, 20, 20)) > hot);
}

TEST_CASE("part ice keeps at least as much liquid water as alkali", "[heat]") {
  const auto plan = ice_plan(mix(330, 670, 15, 18));
  CHECK(plan.liquid_grams >= 330);
  CHECK(plan.ice_grams + plan.liquid_grams == Approx(670));
  CHECK(plan.ice_grams == 340);
  // 340 g of ice take 340 x 334 J and 340 x 4.19 x 15 J out of 330 g alkali + 670 g water.
  const double cooler = 340 * (334 + 4.19 * 15) / (670 * 4.19 + 330 * 1.49);
  CHECK(plan.without_celsius - plan.peak_celsius == Approx(cooler).epsilon(1e-9));
  // Weak lye needs little ice to end at room warmth, and gets no more than that.
  const auto weak = ice_plan(mix(50, 950, 15, 18));
  CHECK(weak.peak_celsius >= 18);
  CHECK(weak.peak_celsius < 18.5);
}

TEST_CASE("batter takes the warmth of what it is made of", "[heat]") {
  CHECK(batter_celsius({1000, 40}, {400, 40}) == Approx(40));
  // (1000 x 2.0 x 37 + 400 x 3.5 x 30) / (1000 x 2.0 + 400 x 3.5)
  CHECK(batter_celsius({1000, 37}, {400, 30}) == Approx((74000 + 42000) / 3400.0));
  // 270 kJ per kg of fat in 1.39 kg of batter of 2.5 J/gK: about 78 C.
  CHECK(saponification_rise(1000, 1390) == Approx(270.0 / 1.39 / 2.5));
}

TEST_CASE("cooling is exponential and never passes its surroundings", "[heat]") {
  CHECK(*hours_to_reach({100, 20, 1}, 60) == Approx(std::log(2.0)));
  CHECK(celsius_after({100, 20, 2}, *hours_to_reach({100, 20, 2}, 30)) == Approx(30));
  CHECK_FALSE(hours_to_reach({100, 20, 1}, 20));
  CHECK_FALSE(hours_to_reach({100, 20, 1}, 15));
  CHECK(*hours_to_reach({15, 20, 1}, 18) == Approx(std::log(2.5)));
  CHECK(*hours_to_reach({20, 20, 1}, 20) == 0);
  const double small = cooling_hours({300, 3.5, 1.33}, Stand::air);
  const double large = cooling_hours({2400, 3.5, 1.33}, Stand::air);
  CHECK(large == Approx(2 * small));  // eight times the mass, twice as wide
  CHECK(cooling_hours({300, 3.5, 1.33}, Stand::cold_bath) < small / 4);
  CHECK(fahrenheit(37) == Approx(98.6));
}

namespace {

AcidProfile acids(std::initializer_list<std::pair<FattyAcid, double>> list) {
  AcidProfile out{};
  double sum = 0;
  for (const auto& [acid, percent] : list) sum += percent;
  for (const auto& [acid, percent] : list) at(out, acid) = percent / sum;
  return out;
}

using enum FattyAcid;
const AcidProfile kCoconut = acids({{C8_0, 7.5},
                                    {C10_0, 6.3},
                                    {C12_0, 48},
                                    {C14_0, 18.5},
                                    {C16_0, 9},
                                    {C18_0, 2.9},
                                    {C18_1, 6.6},
                                    {C18_2, 1.6}});
const AcidProfile kPalmKernel = acids({{C8_0, 3.5},
                                       {C10_0, 3.5},
                                       {C12_0, 48},
                                       {C14_0, 16},
                                       {C16_0, 8.3},
                                       {C18_0, 2.3},
                                       {C18_1, 15.5},
                                       {C18_2, 2.4}});
const AcidProfile kPalm = acids({{C14_0, 1}, {C16_0, 44}, {C18_0, 4.5}, {C18_1, 40}, {C18_2, 10}});
const AcidProfile kLard =
    acids({{C14_0, 1.5}, {C16_0, 25}, {C18_0, 13.5}, {C18_1, 47}, {C18_2, 11}});
const AcidProfile kTallow =
    acids({{C14_0, 3.3}, {C16_0, 25.5}, {C18_0, 21}, {C18_1, 42}, {C18_2, 3.3}, {C18_1t, 3}});
const AcidProfile kOlive = acids({{C16_0, 12}, {C18_0, 3}, {C18_1, 75}, {C18_2, 10}});

double solid(const AcidProfile& profile, double celsius) {
  const MeltingFat fat{profile, 1, false};
  return solid_share(std::span(&fat, 1), celsius);
}

}  // namespace

TEST_CASE("solid fat from the acids stays within 9.3 points rms of the printed indices", "[heat]") {
  // Solid fat indices at 10.0, 21.1, 26.7, 33.3 and 37.8 C as handbooks of edible fats print them;
  // recalled.
  const double at[] = {10, 21.1, 26.7, 33.3, 37.8};
  const std::pair<const AcidProfile*, std::array<double, 5>> printed[] = {
      {&kCoconut, {55, 27, 0, 0, 0}},
      {&kPalmKernel, {49, 33, 13, 0, 0}},
      {&kPalm, {34, 12, 9, 6, 4}},
      {&kLard, {25, 20, 12, 4, 2}},
      {&kTallow, {39, 30, 28, 23, 18}}};
  double squares = 0;
  for (const auto& [profile, index] : printed) {
    for (std::size_t i = 0; i < 5; ++i) {
      const double miss = 100 * solid(*profile, at[i]) - index[i];
      squares += miss * miss;
    }
  }
  CHECK(std::sqrt(squares / 25) <= 9.3);
}

TEST_CASE("solid fat falls with warmth, and oils are clear in a room", "[heat]") {
  double before = 1;
  for (double celsius = -20; celsius < 70; celsius += 2.5) {
    const double now = solid(kTallow, celsius);
    CHECK(now <= before + 1e-9);
    before = now;
  }
  CHECK(before == 0);
  CHECK(solid(kOlive, 20) < 0.01);
  const MeltingFat mix[] = {{kTallow, 0.5, false}, {kOlive, 0.5, false}};
  CHECK(solid_share(mix, 25) < solid(kTallow, 25));
  const double celsius = celsius_of_solid_share(mix, 0.05);
  CHECK(solid_share(mix, celsius) == Approx(0.05).margin(1e-3));
  const MeltingFat wax{{}, 1, true};
  CHECK(solid_share(std::span(&wax, 1), 40) == 1);
}

TEST_CASE("a covered log gels, a cold bare one does not", "[heat]") {
  Poured log;  // 260 x 82 x 52 mm
  log.batter_grams = 1092;
  log.fat_grams = 780;
  log.volume_ml = 1108;
  log.surface_cm2 = 2 * (26 * 8.2 + 26 * 5.2 + 8.2 * 5.2);
  log.batter_celsius = 34;
  log.room_celsius = 18;
  log.lye_concentration = 0.33;
  const auto bare = gel_outlook(log);
  CHECK(bare.gel == Gel::no);
  CHECK(bare.peak_celsius < bare.gel_celsius);
  log.covered = true;
  log.batter_celsius = 45;
  const auto covered = gel_outlook(log);
  CHECK(covered.gel != Gel::no);
  CHECK(covered.peak_celsius > bare.peak_celsius);
  CHECK(covered.peak_low <= covered.peak_celsius);
  CHECK(covered.peak_high >= covered.peak_celsius);
  CHECK(poured_celsius(log, 0) == 45);
  CHECK(poured_celsius(log, 48) == Approx(18).margin(6));
}

TEST_CASE("wetter batters gel at less warmth", "[heat]") {
  CHECK(gel_celsius(0.25) == 60);
  CHECK(gel_celsius(0.40) == 80);
  CHECK(gel_celsius(0.33) > gel_celsius(0.28));
}
