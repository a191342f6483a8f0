#include "core/chemistry/solubility.hpp"

#include <catch2/catch.hpp>

using namespace barwright::core;

// The points are those of the table, recalled: Seidell, Solubilities of Inorganic Compounds, and
// makers' caustic soda handbooks. Between two points the mean of both.

namespace {

constexpr auto kNa = Alkali::sodium_hydroxide;
constexpr auto kK = Alkali::potassium_hydroxide;

struct Row {
  double celsius, strength;
};

}  // namespace

TEST_CASE("the strongest soda lye that stays clear", "[solubility]") {
  for (const Row row :
       {Row{-21.5, 0.22}, Row{-15, 0.25}, Row{-7, 0.275}, Row{1, 0.30}, Row{3, 0.31}, Row{5, 0.32},
        Row{7.5, 0.335}, Row{10, 0.35}, Row{12.8, 0.369}, Row{20, 0.522}, Row{25, 0.5325},
        Row{30, 0.543}, Row{35, 0.553}, Row{40, 0.563}, Row{45, 0.5775}, Row{50, 0.592},
        Row{57.5, 0.641}, Row{65, 0.69}, Row{80, 0.69}}) {
    INFO(row.celsius);
    CHECK(strongest_clear(kNa, row.celsius) == Approx(row.strength).epsilon(1e-12));
  }
  // 109 g to 100 g of water at 20 C (recalled): 52.2 %.
  CHECK(strongest_clear(kNa, 20) == Approx(109.0 / 209).margin(0.0005));
}

TEST_CASE("past the hump at 38.8 % soda lye is clear as far as the next hydrate", "[solubility]") {
  // The hydrate with 3.5 H2O melts at 15.6 C: what is stronger needs less warmth again, down to
  // 45.5 % at 5 C. Up to the hump a weaker lye would crystallise, so nothing beyond it counts.
  CHECK(strongest_clear(kNa, 15.6) == 0.388);
  CHECK(strongest_clear(kNa, 15.59) < 0.388);
  // Above it the branch of the monohydrate, 50 % at 14 C, 52.2 % at 20 C: at 17 C 51.1 %.
  CHECK(strongest_clear(kNa, 15.61) > 0.50);
  CHECK(strongest_clear(kNa, 17) == Approx(0.511).epsilon(1e-12));
}

TEST_CASE("the strongest potash lye that stays clear", "[solubility]") {
  for (const Row row : {Row{-45, 0.38}, Row{-25, 0.45}, Row{-12.5, 0.471}, Row{0, 0.492},
                        Row{5, 0.50}, Row{10, 0.508}, Row{15, 0.518}, Row{20, 0.528},
                        Row{25, 0.543}, Row{30, 0.558}, Row{35, 0.5665}, Row{40, 0.575},
                        Row{45, 0.5795}, Row{50, 0.584}, Row{75, 0.612}, Row{100, 0.64}}) {
    INFO(row.celsius);
    CHECK(strongest_clear(kK, row.celsius) == Approx(row.strength).epsilon(1e-12));
  }
  // 112 g to 100 g of water at 20 C (recalled): 52.8 %.
  CHECK(strongest_clear(kK, 20) == Approx(112.0 / 212).margin(0.0005));
}

TEST_CASE("colder than the coldest lye nothing is clear", "[solubility]") {
  CHECK(strongest_clear(kNa, -28.1) == 0);
  CHECK(strongest_clear(kNa, -27.9) > 0.19);
  CHECK(strongest_clear(kK, -65.1) == 0);
  CHECK(strongest_clear(kK, -64.9) > 0.31);
}

TEST_CASE("warmer lye may be stronger", "[solubility]") {
  for (const auto alkali : {kNa, kK}) {
    double before = 0;
    for (double celsius = -70; celsius <= 110; celsius += 0.25) {
      INFO(celsius);
      const double clear = strongest_clear(alkali, celsius);
      CHECK(clear >= before);
      before = clear;
    }
  }
}

TEST_CASE("salt hardly dissolves in lye", "[solubility]") {
  // 35.9 g to 100 g of water at 20 C (recalled); the points in lye are recalled too.
  CHECK(salt_solubility(0) == Approx(100 * 35.9 / 135.9).margin(0.05));
  const double at[] = {0, 0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50, 0.90};
  const double grams[] = {26.4, 22.2, 18, 14.2, 10.4, 7.35, 4.3, 3.05, 1.8, 1.4, 1, 1};
  for (std::size_t i = 0; i < 12; ++i) {
    INFO(at[i]);
    CHECK(salt_solubility(at[i]) == Approx(grams[i]).epsilon(1e-12));
  }
}
