#include "core/lye/lye_portion.hpp"

#include <catch2/catch.hpp>

using namespace barwright::core;

// Portions of one made lye, reckoned on paper.

namespace {

constexpr double kNa = 39.997, kK = 56.106;

Scales scales_with(double lye_error) {
  Scales scales;
  scales.lye = {0.1, lye_error};
  return scales;
}

}  // namespace

TEST_CASE("a portion holds its share of each alkali, and every weighing may be off",
          "[lye portion]") {
  // 100 g of soda and 20 g of potash in 400 g of lye, 100 g of it poured out, a scale good to 2 g:
  // at worst 102 g in 398 g, and 102 g poured.
  const PotAlkali soda{Alkali::sodium_hydroxide, 100, Strength{0.98, 0.97, 1.0}, 2};
  const PotAlkali potash{Alkali::potassium_hydroxide, 20, Strength{0.90, {}, {}}, 2};
  const auto part = portion_of(std::vector{soda, potash}, 100, 400, scales_with(2));
  REQUIRE(part.size() == 2);
  CHECK(part[0].alkali == Alkali::sodium_hydroxide);
  CHECK(part[0].grams == Approx(25));
  CHECK(part[0].error == Approx(102 * 102 / 398.0 - 25));
  CHECK(part[0].strength.stated == 0.98);
  CHECK(part[0].strength.most == 1.0);
  CHECK(part[1].alkali == Alkali::potassium_hydroxide);
  CHECK(part[1].grams == Approx(5));
  CHECK(part[1].error == Approx(22 * 102 / 398.0 - 5));
  // Weighed worse than this scale can, it stays as doubtful; never less so than the scale is.
  for (const double own : {0.0, 1.9, 5.0}) {
    PotAlkali weighed = soda;
    weighed.error = own;
    CHECK(portion_of(std::vector{weighed}, 100, 400, scales_with(2))[0].error ==
          Approx((own == 5 ? 105 : 102) * 102 / 398.0 - 25));
  }
  // Of a pot the scale hardly sees, no more is certain than its own error.
  const PotAlkali crumb{Alkali::sodium_hydroxide, 1, {}, 2};
  const auto crumbs = portion_of(std::vector{crumb}, 1, 3, scales_with(2));
  CHECK(crumbs[0].error == Approx(3 * 3 / 2.0 - 1 / 3.0));
}

TEST_CASE("alkalis of two kinds add up by moles of what is pure in them", "[lye portion]") {
  const PotAlkali soda{Alkali::sodium_hydroxide, 100, Strength{0.98, {}, {}}, 0};
  const PotAlkali potash{Alkali::potassium_hydroxide, 20, Strength{0.90, {}, {}}, 0};
  CHECK(moles_of(std::vector{soda, potash}) == Approx(98 / kNa + 18 / kK).epsilon(1e-12));
  CHECK(moles_of({}) == 0);
}
