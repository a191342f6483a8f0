#include "core/lye/lye_notes.hpp"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/lye/lye_parts.hpp"
#include "fats.hpp"
#include "said.hpp"

// What a maker is told of her lye, word for word, on both sides of each edge.

using namespace barwright::core;
using namespace barwright::tests;

namespace {

/// A lye at which there is nothing to say.
Lye quiet() {
  Lye lye;
  lye.alkali = {{Alkali::sodium_hydroxide, 128.6, 1, 128.6}};
  lye.asked_superfat = lye.raised_superfat = lye.superfat = 0.05;
  lye.saponifiable_moles = 3.4;
  return lye;
}

struct About {
  std::vector<PotFat> fats;
  std::vector<Acid> acids;
  LyeSettings settings;
  Scales scales = fine_scales();
};

/// Returns the notes as "word: text", one a line; what is to be said first has a star.
std::string said(Lye lye, const About& about = {}) {
  lye_parts::add_notes(lye, about.fats, about.acids, about.settings, about.scales);
  std::string out;
  for (const auto& note : lye.notes) {
    out += (note.first ? "* " : "") + std::string(word(note.severity)) + ": " + note.text + "\n";
  }
  return out;
}

std::string with_superfat(double superfat) {
  Lye lye = quiet();
  lye.superfat = superfat;
  return said(lye);
}

Acid acid(const std::string& name, double grams) {
  return {name, AcidForm::citric_anhydrous, grams};
}

Forgotten left(double superfat, double worst) { return {"", superfat, worst, worst < 0, false}; }

}  // namespace

TEST_CASE("of a usual lye nothing is said", "[lye notes]") {
  About about;
  about.fats = {olive(1000), coconut(200)};
  CHECK(said(quiet(), about).empty());
}

TEST_CASE("a raised superfat is said first, with what to write to have it as asked",
          "[lye notes]") {
  Lye lye = quiet();
  lye.raised_superfat = 0.075;
  lye.asked_worst = 0.0599;
  About about;
  about.settings.never_below = 0.061;
  const std::string raised =
      "* caution: Superfat raised from 5.0 % to 7.5 %: if the oils need their least alkali, and "
      "scale and strength go against you too, the bar would have fallen below 6.1 %. ";
  CHECK(said(lye, about) ==
        raised +
            "To have 5.0 % all the same, its worst case being 6.0 %, write 'superfat: {aim: "
            "5.0 %, never-below: 5.9 %}' (the floor was 6.1 %).\n");
  lye.asked_worst = 0;
  CHECK(said(lye, about) ==
        raised +
            "To have 5.0 % all the same, its worst case being 0.0 %, write 'superfat: {aim: "
            "5.0 %, never-below: 0.0 %}' (the floor was 6.1 %).\n");
  lye.asked_worst = -0.001;
  const std::string never =
      "5.0 % cannot be insisted on: its worst case is -0.1 %, free lye. A certificate of the "
      "loosest oil, or a finer scale, brings it nearer.";
  CHECK(said(lye, about) == raised + never + "\n");
  CHECK(refusal_of([&] { lye_parts::refuse_raising(lye, about.settings); }) ==
        "At 5.0 % superfat the worst case is -0.1 %, below the floor of 6.1 %, and 'raise: no' "
        "keeps it from rising. | " +
            never + " Or take 'raise: no' out: it would rise to 7.5 %.");
}

TEST_CASE("rounding that moves the superfat by more than 0.3 points is said with its cure",
          "[lye notes]") {
  // Soda and potash of 90 %, both a gram short of exact: 1 / 39.997 + 0.9 / 56.106 mol.
  const double moles = 1 / 39.997 + 0.90 / 56.106;
  Lye lye = quiet();
  lye.alkali = {{Alkali::sodium_hydroxide, 10, 1, 11}, {Alkali::potassium_hydroxide, 4, 0.90, 5}};
  About about;
  about.scales.lye.step = 1;
  lye.saponifiable_moles = moles / 0.003 * (1 + 1e-9);
  CHECK(said(lye, about).empty());
  lye.saponifiable_moles = moles / 0.003 * (1 - 1e-9);
  lye.superfat = 0.053;
  // One step of each may go missing: 0.3 points are one gram of each, less a billionth.
  CHECK(said(lye, about) ==
        "caution: Rounding the alkali down to steps of 1 g moves the superfat from 5.0 % to 5.3 %. "
        "A scale of 0.5 g keeps that within 0.3 points.\n");
  lye.saponifiable_moles = moles / 0.012;
  lye.superfat = 0.062;
  CHECK(said(lye, about) ==
        "caution: Rounding the alkali down to steps of 1 g moves the superfat from 5.0 % to 6.2 %. "
        "A scale of 0.2 g keeps that within 0.3 points.\n");
}

TEST_CASE("little superfat and much of it is said, past the edge only", "[lye notes]") {
  CHECK(with_superfat(0.03).empty());
  CHECK(with_superfat(0.0302).empty());
  CHECK(with_superfat(0.029) ==
        "caution: Superfat 2.9 % leaves little room for a slip of the hand; 5 % is usual.\n");
  CHECK(with_superfat(0.15).empty());
  CHECK(with_superfat(0.151) ==
        "note: Superfat 15.1 % is for salt bars and all-coconut bars; other bars turn soft and "
        "spoil sooner.\n");
}

TEST_CASE("potash past a fifth makes no hard bar, and its label may be a floor", "[lye notes]") {
  Lye lye = quiet();
  lye.koh = {0.20, 0.25, 0.20};
  CHECK(said(lye).empty());
  lye.koh = {0.201, 0.25, 0.201};
  CHECK(said(lye) ==
        "caution: With 20 % of the alkali as potassium hydroxide this will not be a hard bar, but "
        "a soft or liquid soap.\n");
  lye.koh = {0.10, 0.13, 0.10};
  About about;
  about.settings.koh_strength = Strength{0.88, {}, {}};
  CHECK(said(lye, about) ==
        "caution: Potassium hydroxide at 88.0 %: a label that says 'at least 85 %' is a floor, not "
        "a strength. Dosed by this figure, a 90 % lot is 2.3 % too much; the worst case reckons "
        "with 92 %. Ask for the assay, and state the most it allows.\n");
  // Not in the pot, or known: no word.
  CHECK(said(quiet(), about).empty());
  about.settings.koh_strength = Strength{0.88, {}, 0.89};
  CHECK(said(lye, about).empty());
  about.settings.koh_strength = Strength{0.92, {}, {}};
  CHECK(said(lye, about).empty());
}

TEST_CASE("what a forgotten acid leaves is said of each acid the lye is corrected for",
          "[lye notes]") {
  Lye lye = quiet();
  About about;
  about.fats = {olive(1000), coconut(200)};
  about.acids = {acid("citric acid", 20), acid("apple acid", 0.5), acid("lactic acid", 5)};
  lye.forgotten = {left(-1, -1), left(-1, -1), left(-0.002, -0.03), left(0.048, 0.003),
                   left(0.011, -0.004)};
  const std::string citric =
      "danger: The lye holds extra alkali for the citric acid. If it is forgotten, free alkali is "
      "left: superfat -0.2 %.\n";
  const std::string apple =
      "caution: The lye holds extra alkali for the apple acid. If it is forgotten, superfat is "
      "only "
      "4.8 %.\n";
  const std::string lactic =
      "danger: The lye holds extra alkali for the lactic acid. If it is forgotten, free alkali may "
      "be left: superfat 1.1 %, -0.4 % at worst.\n";
  CHECK(said(lye, about) == citric + apple + lactic);
  // None of one that weighs nothing, nor of one the superfat rises for.
  about.acids[0].grams = 0;
  CHECK(said(lye, about) == apple + lactic);
  about.acids[2].answer = AcidAnswer::let_superfat_rise;
  CHECK(said(lye, about) == apple);
  // Nothing over is not free alkali yet, but may be.
  lye.forgotten[3] = left(0, -0.03);
  CHECK(
      said(lye, about) ==
      "danger: The lye holds extra alkali for the apple acid. If it is forgotten, free alkali may "
      "be left: superfat 0.0 %, -3.0 % at worst.\n");
}

TEST_CASE("waxes and figures from memory are named, each once and in full", "[lye notes]") {
  About about;
  auto wax = fat("beeswax", 10, 87, 95, 104);
  wax.form = FatForm::wax;
  auto more = wax;
  more.name = "wax";
  about.fats = {wax, olive(500), more, wax};
  CHECK(said(quiet(), about) ==
        "caution: Wax saponifies slowly and in part (beeswax, wax): the worst case counts its free "
        "acid alone. Lye meant for it may still be free at the cut: keep it low and test the bar "
        "before use.\n");
  auto kernel = fat("palm kernel", 100, 230, 245, 255), palm_oil = fat("palm", 100, 190, 198, 209);
  auto known = fat("shea butter", 100, 170, 180, 190);
  kernel.mark = Mark::recalled;
  palm_oil.mark = Mark::judgement;
  known.mark = Mark::recalled;
  known.certified = true;
  about.fats = {olive(500), kernel, palm_oil, known, kernel};
  CHECK(said(quiet(), about) ==
        "note: Saponification values not read from a published table (palm kernel, palm): use the "
        "supplier's certificate where you have one.\n");
}
