#include <catch2/catch.hpp>
#include <vector>

#include "core/bench/temperature_solid.hpp"

using namespace barwright::core;

namespace {

MeltingFat of(double palmitic, double stearic, double oleic, double share) {
  MeltingFat fat;
  fat.share = share;
  at(fat.acids, FattyAcid::C16_0) = palmitic;
  at(fat.acids, FattyAcid::C18_0) = stearic;
  at(fat.acids, FattyAcid::C18_1) = oleic;
  return fat;
}

}  // namespace

TEST_CASE("the clear point is where the solid share ends", "[melt]") {
  const std::vector<MeltingFat> blend = {of(0.44, 0.05, 0.51, 0.3), of(0.08, 0.42, 0.50, 0.3),
                                         of(0.12, 0.03, 0.85, 0.4)};
  const double clear = clear_celsius(blend);
  CHECK(clear > 20);
  CHECK(clear < 60);
  CHECK(solid_share(blend, clear - 0.5) > 0);
  CHECK(solid_share(blend, clear + 0.01) == 0);
}

TEST_CASE("pulls towards crystals add by share", "[melt]") {
  const std::vector<MeltingFat> blend = {of(0.44, 0.05, 0.51, 0.25), of(0.12, 0.03, 0.85, 0.75)};
  for (const double celsius : {20.0, 30.0, 40.0}) {
    double pull = 0;
    for (const auto& fat : blend) pull += fat.share * crystal_pull(fat, celsius);
    CHECK((pull > 0) == (solid_share(blend, celsius) > 1e-12));
  }
}
