#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/lye/lye.hpp"
#include "core/lye/lye_order.hpp"
#include "core/lye/lye_strength.hpp"
#include "fats.hpp"
#include "said.hpp"

// The dose at its edges: scales just fine enough, floors just held, acids that eat the lye up.

using namespace barwright::core;
using namespace barwright::tests;
using Catch::Contains;

namespace {

constexpr double kNa = 39.997, kK = 56.106;

PotFat steady(double grams) {
  PotFat out = fat("oil", grams, 190, 190, 190);
  out.certified = true;
  out.error = 0;
  return out;
}

const Scales kAssay{{1e-6, {}}, {1e-6, {}}};

/// Half the moles of either alkali, potash of 85 %.
LyeSettings half_and_half() {
  LyeSettings settings;
  settings.alkali = LyeSettings::Choice::mixed;
  settings.koh_share = 0.5;
  settings.koh_strength = Strength{0.85, {}, 0.85};
  return settings;
}

}  // namespace

TEST_CASE("the lye scale may be off by a hundredth of the alkali in moles, no more", "[lye dose]") {
  // A scale good to 1 g: both weighings off take 1 / 39.997 + 0.85 / 56.106 mol. A hundred times
  // that is 95 % of what 190 mg KOH/g need of this much oil.
  const double moles = 100 * (1 / kNa + 0.85 / kK);
  const double oil = moles / 0.95 * kK / 0.190;
  Scales scales = kAssay;
  scales.lye.error = 1;
  const auto said = [&](double grams) {
    return refusal_of([&] { lye_for({{steady(grams)}}, {}, half_and_half(), scales, grams); });
  };
  CHECK(said(oil * (1 + 1e-9)) == "not refused");
  CHECK_THAT(said(oil * (1 - 1e-9)), Contains("which is 1.0 % of the alkali"));
  CHECK(said(oil / 2) ==
        "The lye scale may be off by 1 g, which is 2.0 % of the alkali; more than 1 % is not safe. "
        "| Weigh the alkali on a scale good to 0.5 g and say so, or make at least " +
            std::to_string(10 * static_cast<int>(std::ceil(oil / 10))) + " g of oils.");
}

TEST_CASE("both alkalis of a mix by hand", "[lye dose]") {
  const auto lye = lye_for({{steady(1000)}}, {}, half_and_half(), kAssay, 1000);
  const double moles = 0.95 * 190 / kK;
  REQUIRE(lye.alkali.size() == 2);
  CHECK(lye.alkali[0].grams == Approx(moles / 2 * kNa).epsilon(1e-7));
  CHECK(lye.alkali[1].grams == Approx(moles / 2 * kK / 0.85).epsilon(1e-7));
  CHECK(lye.koh.moles == Approx(0.5).epsilon(1e-7));
  CHECK(lye.koh.fat == Approx(0.5).epsilon(1e-7));
  CHECK(lye.koh.grams == Approx(kK / 0.85 / (kK / 0.85 + kNa)).epsilon(1e-7));
  const auto soda = lye_for({{steady(1000)}}, {}, {}, kAssay, 1000);
  CHECK(soda.koh.moles == 0);
  CHECK(soda.koh.grams == 0);
  CHECK(soda.koh.fat == 0);
}

TEST_CASE("a pot without fat has no lye", "[lye dose]") {
  const std::string none = "There is no fat in the lye pot. | Give at least one oil with a weight.";
  CHECK(refusal_of([] { lye_for({}, {}, {}, kAssay, 0); }) == none);
  CHECK(refusal_of([] { lye_for({{olive(0)}}, {}, {}, kAssay, 0); }) == none);
}

TEST_CASE("a scale that shows nothing is refused before anything is dosed", "[lye dose]") {
  const auto said = [](const Scales& scales) {
    return refusal_of([&] { lye_for({{steady(1000)}}, {}, {}, scales, 1000); });
  };
  for (const double none : {0.0, -1.0, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    INFO(none);
    CHECK(said({{1, {}}, {none, {}}}) ==
          "The lye scale's step or error is not a weight. | Give the smallest step the scale "
          "shows, such as 1 g or 0.1 g.");
    CHECK(said({{none, {}}, {1, {}}}) ==
          "The oils scale's step or error is not a weight. | Give the smallest step the scale "
          "shows, such as 1 g or 0.1 g.");
  }
}

TEST_CASE("a floor that is just held raises nothing", "[lye dose]") {
  const auto at = [](double floor) {
    LyeSettings settings;
    settings.never_below = floor;
    return lye_for({{steady(1000)}}, {}, settings, kAssay, 1000);
  };
  const double worst = at(0).band.low;
  CHECK(worst == Approx(1 - 0.95 / 0.995).margin(1e-6));
  CHECK(at(worst).raised_superfat == 0.05);
  CHECK(at(worst + 1e-9).raised_superfat == 0.055);
  CHECK(at(worst + 1e-9).asked_worst == worst);
}

TEST_CASE("whatever the aim, superfat rises to 8 % and no further", "[lye dose]") {
  // 8 % leaves 1 - 0.92 / 0.995 = 7.538 % at worst, 7.5 % leaves 7.035 %.
  for (int half_points = 0; half_points <= 15; ++half_points) {
    INFO(half_points);
    LyeSettings settings;
    settings.superfat = half_points * 0.005;
    settings.never_below = 0.0753;
    CHECK(lye_for({{steady(1000)}}, {}, settings, kAssay, 1000).raised_superfat ==
          Approx(0.08).epsilon(1e-12));
    settings.never_below = 0.0754;
    CHECK_THAT(refusal_of([&] { lye_for({{steady(1000)}}, {}, settings, kAssay, 1000); }),
               Contains("Even at 8.0 % superfat"));
  }
}

TEST_CASE("an acid may leave half of the fat as fat, no more", "[lye dose]") {
  // 1000 g at 190 mg/g need 3.38645 mol, 5 % of it not dosed; 45 % of it are 1.52390 mol of acid.
  const double need = 190 / kK;
  const auto said = [&](double superfat) {
    Acid acid{"acid", AcidForm::other, need * (superfat - 0.05) * 100, 1, 1, 100};
    acid.answer = AcidAnswer::let_superfat_rise;
    return refusal_of([&] { lye_for({{steady(1000)}}, {{acid}}, {}, kAssay, 1000); });
  };
  CHECK(said(0.499) == "not refused");
  CHECK(said(0.502) ==
        "The acids use up so much of the alkali that 50.2 % of the fat would stay fat. | Use less "
        "acid, or have the lye corrected for it.");
  // Half as asked for stays as asked for, with an acid that is made up for.
  LyeSettings half;
  half.superfat = 0.5;
  const Acid citric{"citric acid", AcidForm::citric_anhydrous, 10};
  const Scales kitchen{{1, {}}, {0.1, {}}};
  CHECK(lye_for({{steady(1000)}}, {{citric}}, half, kitchen, 1000).superfat > 0.5);
}

TEST_CASE("an alkali lighter than a step of the scale is refused, one of half a gram is not",
          "[lye dose]") {
  CHECK(lye_for({{steady(4)}}, {}, {}, kAssay, 4).alkali[0].grams ==
        Approx(0.95 * 4 * 0.190 / kK * kNa).epsilon(1e-5));
  auto settings = half_and_half();
  settings.koh_share = 0.0001;
  // 0.0001 of 3.217 mol, at 85 %: 0.021 g.
  CHECK(refusal_of([&] { lye_for({{steady(1000)}}, {}, settings, fine_scales(), 1000); }) ==
        "The potassium hydroxide, 0.021 g, is less than one step of the lye scale. | Use a finer "
        "scale or a larger batch, or leave that alkali out.");
}

TEST_CASE("a water rule that is none is refused", "[lye dose]") {
  const auto said = [](WaterRule::Kind kind, double value) {
    LyeSettings settings;
    settings.water = {kind, value};
    return refusal_of([&] { lye_for({{steady(1000)}}, {}, settings, kAssay, 1000); });
  };
  using Kind = WaterRule::Kind;
  const std::string unusable =
      "The water setting is not usable. | Give a lye concentration such as 33 %, water per alkali "
      "such as 2, or water as a share of the oils such as 30 %.";
  for (const auto kind : {Kind::concentration, Kind::ratio, Kind::of_oils}) {
    for (const double none : {0.0, -0.3, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
      INFO(none);
      CHECK(said(kind, none) == unusable);
    }
    CHECK(said(kind, 0.3) == "not refused");
  }
  CHECK(said(Kind::concentration, 1) == unusable);
  CHECK(said(Kind::concentration, 0.995) == "not refused");
  CHECK(said(Kind::ratio, 2) == "not refused");
  CHECK(said(Kind::of_oils, 1) == "not refused");
}

TEST_CASE("a wax may be richer than its record by two points of a hundred", "[lye dose]") {
  auto wax = fat("wax", 1, 95, 95, 95);
  wax.form = FatForm::wax;
  CHECK(judged_span(wax).high == Approx(96.9).epsilon(1e-12));
  wax.acid_value = 120;  // no more reacts than there is
  CHECK(judged_span(wax).low == 95);
  wax.saponification_value = {87, 95, 104};
  CHECK(judged_span(wax).low == 95);
  CHECK(judged_span(wax).high == 104);
  wax.acid_value = -1;
  CHECK(judged_span(wax).low == 0);
}

TEST_CASE("lye of unplanned warmth is taken to stand in a room of 20 C", "[lye dose]") {
  // 15 C, 5 C colder: clear to 35 + 3.8 * 5 / 5.6 = 38.39 %.
  CHECK(check_strength({}, {}, 0.3838).empty());
  const auto notes = check_strength({}, {}, 0.3841);
  REQUIRE(notes.size() == 1);
  CHECK_THAT(notes[0].text, Contains("Lye of 38.4 % at 20 C is within 5 C of crystallising"));
}

TEST_CASE("what is not given weighs nothing, uses nothing up and is no danger", "[lye dose]") {
  CHECK(PotFat{}.grams == 0);
  CHECK(PotFat{}.acid_value == 0);
  CHECK(PotFat{}.unsaponifiable == 0);
  const Acid acid;
  CHECK(acid.grams == 0);
  CHECK(acid.strength == 0);
  CHECK(acid.equivalents_per_mole == 0);
  CHECK(acid.molar_mass == 0);
  const KohShares shares;
  CHECK((shares.moles == 0 && shares.grams == 0 && shares.fat == 0));
  const AlkaliLine line;
  CHECK((line.grams == 0 && line.purity == 1 && line.exact_grams == 0));
  const Forgotten forgotten;
  CHECK((forgotten.superfat == 0 && forgotten.worst == 0));
  CHECK_FALSE(forgotten.lye_heavy);
  CHECK_FALSE(forgotten.nothing_left);
  const Lye lye;
  CHECK((lye.band.low == 0 && lye.band.high == 0 && lye.superfat == 0));
  CHECK((lye.asked_superfat == 0 && lye.raised_superfat == 0 && lye.asked_worst == 0));
  CHECK((lye.water_grams == 0 && lye.saponifiable_moles == 0 && lye.acid_moles == 0));
  CHECK(lye.unsaponifiable_grams == 0);
  CHECK(LyeStep{}.grams == 0);
  const CertificateQuestion question;
  CHECK((question.claimed == 0 && question.computed == 0));
}
