#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "core/chemistry/saponification.hpp"

// Iodine values acid by acid, and where a certificate is questioned.

using namespace barwright::core;

namespace {

using enum FattyAcid;

AcidProfile pure(FattyAcid acid) {
  AcidProfile profile{};
  at(profile, acid) = 1;
  return profile;
}

double iodine(FattyAcid acid, FatForm form = FatForm::triglyceride, double share = 1) {
  return calculated_iodine_value(pure(acid), form, share);
}

std::string asked(double saponification_value) {
  const auto questions =
      question_certificate(pure(C18_1), FatForm::triglyceride, 1, saponification_value, {});
  return questions.empty() ? "" : questions.front().text;
}

}  // namespace

TEST_CASE("iodine values of the pure acids' glycerides", "[saponification]") {
  // AOCS Cd 1c-85, g I2 per 100 g and per cent of the acid: 0.950, 0.860, 1.732, 2.616, 0.785,
  // 0.723 (recalled).
  CHECK(iodine(C16_1) == Approx(95.0).epsilon(1e-12));
  CHECK(iodine(C18_1) == Approx(86.0).epsilon(1e-12));
  CHECK(iodine(C18_1t) == Approx(86.0).epsilon(1e-12));
  CHECK(iodine(C18_2) == Approx(173.2).epsilon(1e-12));
  CHECK(iodine(C18_3a) == Approx(261.6).epsilon(1e-12));
  CHECK(iodine(C18_3g) == Approx(261.6).epsilon(1e-12));
  CHECK(iodine(C20_1) == Approx(78.5).epsilon(1e-12));
  CHECK(iodine(C22_1) == Approx(72.3).epsilon(1e-12));
  CHECK(iodine(C18_0) == 0);
  // Not listed: three acids of 308.50 g/mol with two double bonds each on a glycerol of 92.09, less
  // three waters of 18.015: 963.56 g bind 6 mol of I2, 253.809 g each.
  CHECK(iodine(C20_2) == Approx(100 * 6 * 253.809 / 963.56).epsilon(1e-4));
  // What does not saponify binds none.
  CHECK(iodine(C18_1, FatForm::triglyceride, 0.9) == Approx(77.4).epsilon(1e-12));
  // Linoleic acid itself, 280.45 g/mol, two double bonds.
  CHECK(iodine(C18_2, FatForm::free_acid) == Approx(100 * 2 * 253.809 / 280.45).epsilon(1e-4));
}

TEST_CASE("the plain mean of molar masses by hand", "[saponification]") {
  // Half lauric (200.322), half stearic (284.484): mean 242.403; a third of the glyceride is
  // 242.403 + (92.094 - 54.045) / 3 = 255.086.
  AcidProfile half{};
  at(half, C12_0) = at(half, C18_0) = 0.5;
  CHECK(calculated_saponification_value_plain_mean(half, FatForm::triglyceride, 1) ==
        Approx(56106 / 255.086).epsilon(1e-5));
  CHECK(calculated_saponification_value_plain_mean(half, FatForm::free_acid, 1) ==
        Approx(56106 / 242.403).epsilon(1e-5));
}

TEST_CASE("saponification equivalents of any value", "[saponification]") {
  CHECK(saponification_equivalent(190) == Approx(295.29).margin(0.005));
  CHECK(saponification_equivalent(0.5) == Approx(112212));
  CHECK_THROWS_AS(saponification_equivalent(-1), std::invalid_argument);
}

TEST_CASE("profiles and shares that are none", "[saponification]") {
  const auto value = [](double fraction, double share) {
    AcidProfile profile{};
    at(profile, C18_1) = fraction;
    return calculated_saponification_value(profile, FatForm::triglyceride, share);
  };
  CHECK(value(1, 0) == 0);
  CHECK(value(1, 1) > 190);
  for (const double none : {-0.1, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    INFO(none);
    CHECK_THROWS_AS(value(none, 1), std::invalid_argument);
    CHECK_THROWS_AS(value(1, none), std::invalid_argument);
  }
}

TEST_CASE("a certificate is questioned two points of a hundred from its own acids",
          "[saponification]") {
  // Triolein: 190.09.
  const double own = calculated_saponification_value(pure(C18_1), FatForm::triglyceride, 1);
  CHECK(asked(own * (1.02 - 1e-9)).empty());
  CHECK(asked(own * (0.98 + 1e-9)).empty());
  CHECK_FALSE(asked(own * (1.02 + 1e-9)).empty());
  CHECK_FALSE(asked(own * (0.98 - 1e-9)).empty());
  CHECK(asked(180.04) ==
        "The certificate says saponification value 180.0 mg KOH/g, but its own fatty acids give "
        "190.1. Ask the supplier which is right before the lye is weighed.");
  CHECK_FALSE(asked(NAN).empty());
  CHECK_FALSE(asked(INFINITY).empty());
}

TEST_CASE("an iodine value near none is questioned a tenth away", "[saponification]") {
  // 2 % of 5, whatever less it is.
  const auto asks = [](const AcidProfile& profile, double claimed) {
    return !question_certificate(profile, FatForm::triglyceride, 1, {}, claimed).empty();
  };
  CHECK_FALSE(asks(pure(C18_0), 0.1));
  CHECK(asks(pure(C18_0), 0.1005));
  AcidProfile trace{};
  at(trace, C18_0) = 0.98;
  at(trace, C18_1) = 0.02;  // 1.72
  CHECK_FALSE(asks(trace, 1.8199));
  CHECK(asks(trace, 1.8205));
  const auto questions = question_certificate(pure(C18_1), FatForm::triglyceride, 1, {}, 90.04);
  REQUIRE(questions.size() == 1);
  CHECK(questions[0].claimed == 90.04);
  CHECK(questions[0].text ==
        "The certificate says iodine value 90.0 g I2/100 g, but its own fatty acids give 86.0. Ask "
        "the supplier which is right before the lye is weighed.");
}
