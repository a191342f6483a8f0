#include "core/lye/dose.hpp"

#include <catch2/catch.hpp>

#include "core/units/error.hpp"

using namespace barwright::core;

TEST_CASE("a dose counts on what its basis names", "[dose]") {
  const DoseMasses masses{1000, 1400, 280};
  CHECK(dose_grams(20, DoseBasis::oils, masses) == Approx(20));
  CHECK(dose_grams(5, DoseBasis::batter, masses) == Approx(7));
  CHECK(dose_grams(300, DoseBasis::water, masses) == Approx(84));
  CHECK_THROWS_AS(dose_grams(-1, DoseBasis::oils, masses), Refusal);
}

TEST_CASE("the cap on a scent is a share of the finished bar, not of the oils", "[dose]") {
  // 1000 g of bar without scent and a limit of 2 %: 20.408 g, since the scent is part of the bar.
  const double most = most_scent_grams(1000, 0.02, 0.1);
  CHECK(most == Approx(20.4));
  CHECK(scent_share(most, 1000) <= 0.02);
  CHECK(scent_share(most + 0.1, 1000) > 0.02);
  CHECK(most_scent_grams(1000, 0, 0.1) == 0);
  CHECK_THROWS_AS(most_scent_grams(1000, 1.2, 0.1), Refusal);
}
