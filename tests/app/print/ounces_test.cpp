#include <catch2/catch.hpp>

#include "core/units/quantity.hpp"
#include "core/units/weight_text.hpp"
#include "solver/app/print/screen.hpp"

using namespace barwright;

TEST_CASE(
    "alkali in ounces is never more than was reckoned, and as in grams where those are shown") {
  CHECK(app::lye_grams(203.4, 0.1) == "203.4 g");
  const core::ShownIn shown(core::Units::ounces);
  for (int tenths = 1; tenths < 6000; ++tenths) {
    const double grams = tenths / 10.0;
    const std::string text = app::lye_grams(grams, 0.1);
    double pounds = 0, ounces = 0;
    const auto lb = text.find(" lb ");
    if (lb != std::string::npos) pounds = std::stod(text);
    ounces = std::stod(lb == std::string::npos ? text : text.substr(lb + 4));
    const double back = pounds * core::kGramsPerPound + ounces * core::kGramsPerOunce;
    INFO(text);
    CHECK(back <= grams + 1e-6);
    CHECK(back > grams - 0.03);  // a thousandth of an ounce is 0.028 g
  }
}
