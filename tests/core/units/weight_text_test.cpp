#include "core/units/weight_text.hpp"

#include <catch2/catch.hpp>

#include "core/units/format.hpp"
#include "core/units/quantity.hpp"

using namespace barwright::core;

TEST_CASE("pounds and ounces as a scale shows them", "[units]") {
  // 1 lb = 0.45359237 kg = 16 oz: the international yard and pound agreement of 1959, exact.
  const auto oz = [](double grams, double step) {
    return weight_text(grams, step, Units::ounces, Rounding::nearest);
  };
  CHECK(oz(kGramsPerPound, 0.1 * kGramsPerOunce) == "1 lb 0.0 oz");
  CHECK(oz(3 * kGramsPerPound + 2.5 * kGramsPerOunce, 0.1 * kGramsPerOunce) == "3 lb 2.5 oz");
  CHECK(oz(13.4 * kGramsPerOunce, 0.01 * kGramsPerOunce) == "13.40 oz");
  CHECK(oz(1000, 1) == "2 lb 3.27 oz");
  CHECK(oz(203.4, 0.1) == "7.175 oz");
  // What rounds up to sixteen ounces is a pound.
  CHECK(oz(15.999 * kGramsPerOunce, 0.1 * kGramsPerOunce) == "1 lb 0.0 oz");
  CHECK(oz(2 * kGramsPerPound - 0.01, 1) == "2 lb 0.00 oz");
  CHECK(oz(0, 1) == "0.00 oz");
}

TEST_CASE("lye is rounded down in ounces too, and no step is lost to the arithmetic", "[units]") {
  const auto down = [](double grams, double step) {
    return weight_text(grams, step, Units::ounces, Rounding::down);
  };
  CHECK(down(7.1759 * kGramsPerOunce, 0.1) == "7.175 oz");
  CHECK(down(7.1751 * kGramsPerOunce, 0.1) == "7.175 oz");
  const double step = 0.01 * kGramsPerOunce;
  for (int steps = 1; steps < 3000; ++steps) {
    const std::string shown = down(steps * step, step);
    INFO(steps);
    const double ounces = steps / 100.0;
    const double pounds = std::floor(ounces / 16 + 1e-9);
    const std::string wanted =
        steps < 1600 ? fixed(ounces, 2) + " oz"
                     : fixed(pounds, 0) + " lb " + fixed(ounces - 16 * pounds, 2) + " oz";
    CHECK(shown == wanted);
  }
}

TEST_CASE("sentences go by what is shown", "[units]") {
  CHECK(mass_text(2600, Units::grams) == "2.6 kg");
  CHECK(mass_text(640, Units::grams) == "640 g");
  CHECK(mass_text(640, Units::ounces) == "1 lb 6.6 oz");
  CHECK(grams_text(135.4) == "135.4 g");
  {
    const ShownIn shown(Units::ounces);
    CHECK(grams_text(135.4) == "4.776 oz");
    {
      const ShownIn again(Units::grams);
      CHECK(grams_text(135.4) == "135.4 g");
    }
    CHECK(grams_text(135.4) == "4.776 oz");
  }
  CHECK(grams_text(135.4) == "135.4 g");
}
