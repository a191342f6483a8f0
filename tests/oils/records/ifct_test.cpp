// Analysed samples bought in India, from outside the library: Longvah, T. et al., Indian Food
// Composition Tables, National Institute of Nutrition, Hyderabad, 2017, codes T001 to T013, g per
// 100 g of fatty acids. T010 (a blend) and T014 (vanaspati, hardened) have no record of their own.
#include <catch2/catch.hpp>
#include <map>
#include <string>
#include <vector>

#include "core/chemistry/saponification.hpp"
#include "oils/records/library.hpp"

using namespace barwright;
using core::FattyAcid;

namespace {

struct Sample {
  std::string code, oil;
  std::vector<std::pair<FattyAcid, double>> acids;
};

const std::vector<Sample>& samples() {
  using A = FattyAcid;
  static const std::vector<Sample> kSamples{
      {"T001",
       "coconut",
       {{A::C8_0, 2.76},
        {A::C10_0, 5.18},
        {A::C12_0, 49.57},
        {A::C14_0, 21.12},
        {A::C16_0, 9.26},
        {A::C18_0, 2.97},
        {A::C18_1, 7.24},
        {A::C18_2, 1.9}}},
      {"T002",
       "maize",
       {{A::C16_0, 12.94},
        {A::C18_0, 2.12},
        {A::C20_0, 0.68},
        {A::C22_0, 0.39},
        {A::C24_0, 0.47},
        {A::C16_1, 1.7},
        {A::C18_1, 31.97},
        {A::C18_2, 48.97},
        {A::C18_3a, 0.76}}},
      {"T003",
       "cottonseed",
       {{A::C14_0, 0.91},
        {A::C16_0, 23.4},
        {A::C18_0, 2.79},
        {A::C20_0, 0.42},
        {A::C22_0, 0.34},
        {A::C24_0, 0.31},
        {A::C16_1, 1.84},
        {A::C18_1, 17.82},
        {A::C18_2, 51.81},
        {A::C18_3a, 0.35}}},
      {"T004",
       "sesame",
       {{A::C16_0, 9.34},
        {A::C18_0, 5.75},
        {A::C20_0, 0.67},
        {A::C22_0, 0.25},
        {A::C24_0, 0.22},
        {A::C16_1, 0.27},
        {A::C18_1, 40.87},
        {A::C20_1, 0.27},
        {A::C18_2, 41.96},
        {A::C18_3a, 0.39}}},
      {"T005",
       "peanut",
       {{A::C16_0, 10.27},
        {A::C18_0, 3.38},
        {A::C20_0, 1.39},
        {A::C22_0, 2.66},
        {A::C24_0, 1.25},
        {A::C18_1, 53.89},
        {A::C18_2, 27.17}}},
      {"T006",
       "mustard",
       {{A::C16_0, 2.18},
        {A::C18_0, 1.17},
        {A::C20_0, 0.98},
        {A::C22_0, 1.39},
        {A::C16_1, 0.16},
        {A::C18_1, 10.18},
        {A::C20_1, 5.45},
        {A::C22_1, 51.3},
        {A::C18_2, 15.55},
        {A::C18_3a, 11.64}}},
      {"T007",
       "palm",
       {{A::C16_0, 39.79},
        {A::C18_0, 4.24},
        {A::C16_1, 0.27},
        {A::C18_1, 43.26},
        {A::C18_2, 11.18},
        {A::C18_3a, 0.3}}},
      {"T008",
       "rice bran",
       {{A::C14_0, 0.29},
        {A::C16_0, 19.51},
        {A::C18_0, 2.03},
        {A::C20_0, 1.03},
        {A::C22_0, 0.33},
        {A::C24_0, 0.51},
        {A::C16_1, 0.28},
        {A::C18_1, 43.84},
        {A::C18_2, 31.56},
        {A::C18_3a, 0.56}}},
      {"T009",
       "safflower",
       {{A::C14_0, 0.18},
        {A::C16_0, 6.24},
        {A::C18_0, 2.35},
        {A::C20_0, 0.26},
        {A::C22_0, 0.17},
        {A::C16_1, 0.24},
        {A::C18_1, 13.8},
        {A::C20_1, 0.17},
        {A::C18_2, 76.58},
        {A::C18_3a, 0.13}}},
      {"T011",
       "soybean",
       {{A::C16_0, 11.51},
        {A::C18_0, 4.08},
        {A::C20_0, 0.37},
        {A::C18_1, 24.06},
        {A::C18_2, 54.78},
        {A::C18_3a, 5.2}}},
      {"T012",
       "sunflower",
       {{A::C16_0, 6.43},
        {A::C18_0, 3.69},
        {A::C20_0, 0.32},
        {A::C22_0, 0.66},
        {A::C24_0, 0.29},
        {A::C18_1, 25.96},
        {A::C18_2, 62.65}}},
      {"T013",
       "ghee",
       {{A::C4_0, 0.22},
        {A::C6_0, 0.3},
        {A::C8_0, 0.47},
        {A::C10_0, 1.87},
        {A::C12_0, 2.81},
        {A::C14_0, 11.81},
        {A::C16_0, 39.13},
        {A::C18_0, 13.89},
        {A::C20_0, 0.52},
        {A::C14_1, 0.95},
        {A::C16_1, 1.86},
        {A::C18_1, 23.19},
        {A::C18_1t, 0.44},
        {A::C18_2, 2},
        {A::C18_3a, 0.55}}},
  };
  return kSamples;
}

}  // namespace

TEST_CASE("compositions from outside give values inside the library's ranges") {
  // Known faults of the data, each with its reason; they must stay outside, or the reason is wrong.
  const std::map<std::string, std::string> saponification_faults{
      {"T001", "no C6 and C8 at 2.8 where CXS 210 has at least 4.6: volatile acids lost"},
      {"T013", "C4 at 0.22 where butter fat has 3 to 4: volatile acids lost"}};
  const std::map<std::string, std::string> iodine_faults{
      {"T007", "iodine value near 58 where CXS 210 palm has 50 to 55: it is an olein"}};
  const oils::Library library = oils::Library::embedded();
  for (const Sample& sample : samples()) {
    INFO(sample.code << " " << sample.oil);
    const oils::Oil* oil = library.find(sample.oil);
    REQUIRE(oil != nullptr);
    core::AcidProfile profile{};
    double sum = 0;
    for (const auto& [acid, percent] : sample.acids) sum += percent;
    for (const auto& [acid, percent] : sample.acids) core::at(profile, acid) = percent / sum;
    const double saponifiable = 1 - oil->unsaponifiable.span.typical / 100;
    const double saponification =
        core::calculated_saponification_value(profile, core::FatForm::triglyceride, saponifiable);
    const double iodine =
        core::calculated_iodine_value(profile, core::FatForm::triglyceride, saponifiable);
    const auto inside = [](double value, const core::Span& span) {
      return value >= span.low && value <= span.high;
    };
    CAPTURE(saponification, iodine);
    CHECK(inside(saponification, oil->saponification_value.span) !=
          saponification_faults.contains(sample.code));
    CHECK(inside(iodine, oil->iodine_value.span) != iodine_faults.contains(sample.code));
  }
}
