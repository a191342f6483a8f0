#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/lye/lye.hpp"
#include "fats.hpp"
#include "said.hpp"

// What is said when even 8 % of superfat does not hold the floor: which fat is the loosest, and to
// what share it can be kept. The worst case of every share is reckoned here on paper: molar masses
// written out, the other fats growing in the place of the loosest.

using namespace barwright::core;
using namespace barwright::tests;
using Catch::Contains;

namespace {

constexpr double kNa = 39.997, kK = 56.106;

struct PaperFat {
  double grams, low, typical;  // mg KOH/g, as judged
};

/// Returns the worst case at 8 % superfat with fat `at` brought to `share` of all.
double paper_worst(std::vector<PaperFat> fats, std::size_t at, double share, const Scales& scales,
                   double stated = 1) {
  double total = 0, need = 0, error = 0;
  for (const auto& fat : fats) {
    total += fat.grams;
    need += fat.grams * fat.typical / 1000 / kK;
    error += scales.oils.step * fat.low / 1000 / kK;
  }
  const double step = scales.lye.step;
  const double dose = std::floor(0.92 * need * kNa / stated / step) * step;
  const double most = (dose + step) / kNa;  // a jar of soda may be pure
  const double others = total - fats[at].grams;
  double typical = 0, low = -error;
  for (std::size_t i = 0; i < fats.size(); ++i) {
    const double grams = i == at ? share * total : fats[i].grams / others * (1 - share) * total;
    typical += grams * fats[i].typical / 1000 / kK;
    low += grams * fats[i].low / 1000 / kK;
  }
  return 1 - most / need * typical / low;
}

std::string refused(const std::vector<PotFat>& fats, const LyeSettings& settings,
                    const Scales& scales) {
  double grams = 0;
  for (const auto& fat : fats) grams += fat.grams;
  return refusal_of([&] { lye_for(fats, {}, settings, scales, grams); });
}

PotFat certified(const std::string& name, double grams, double value) {
  PotFat out = fat(name, grams, value, value, value);
  out.certified = true;
  return out;
}

}  // namespace

TEST_CASE("the cap advised is the largest whole per cent that holds", "[loosest]") {
  // Coconut and rape are steady to 2 %, their ranges apart; the loosest stands in the middle.
  const std::vector<PotFat> fats = {fat("rape", 300, 188, 190, 192),
                                    fat("loose", 500, 160, 180, 200),
                                    fat("coconut", 200, 250, 256, 260)};
  const std::vector<PaperFat> paper = {{300, 186.2, 190}, {500, 160, 180}, {200, 250, 256}};
  LyeSettings settings;
  settings.naoh_strength = Strength{0.98, {}, {}};
  for (const int percent : {1, 2, 17, 30}) {
    INFO(percent);
    const double worst = paper_worst(paper, 1, percent / 100.0, fine_scales(), 0.98);
    REQUIRE(worst > 0.002);
    settings.never_below = worst - 0.001 - 1e-9;  // a tenth of a point is kept for rounding
    CHECK_THAT(refused(fats, settings, fine_scales()),
               Contains("| Keep loose to at most " + std::to_string(percent) + " % of the fats, "));
    settings.never_below = worst - 0.001 + 1e-9;
    CHECK_THAT(refused(fats, settings, fine_scales()),
               percent == 1
                   ? Contains("| Put steadier oils in place of loose, or")
                   : Contains("at most " + std::to_string(percent - 1) + " % of the fats"));
  }
}

TEST_CASE("a cap just below what the fat has is found, and a high one is said as it is",
          "[loosest]") {
  std::vector<PotFat> fats = {fat("loose", 109, 150, 250, 255), certified("steady", 891, 190)};
  LyeSettings settings;
  settings.never_below =
      paper_worst({{109, 150, 250}, {891, 189.05, 190}}, 0, 0.10, fine_scales()) - 0.001 - 1e-9;
  CHECK_THAT(refused(fats, settings, fine_scales()), Contains("Keep loose to at most 10 %"));
  fats = {fat("loose", 900, 165, 180, 190), certified("steady", 100, 190)};
  settings.never_below =
      paper_worst({{900, 165, 180}, {100, 189.05, 190}}, 0, 0.70, fine_scales()) - 0.001 - 1e-9;
  CHECK_THAT(refused(fats, settings, fine_scales()), Contains("Keep loose to at most 70 %"));
  // The least of pots: others that weigh half a gram are others all the same.
  const Scales assay{{1e-5, {}}, {1e-5, {}}};
  fats = {fat("loose", 0.5, 165, 180, 190), certified("steady", 0.5, 190)};
  settings.never_below =
      paper_worst({{0.5, 165, 180}, {0.5, 189.05, 190}}, 0, 0.20, assay) - 0.001 - 1e-9;
  CHECK_THAT(refused(fats, settings, assay), Contains("Keep loose to at most 20 %"));
}

TEST_CASE("no cap is advised that lies above what the fat has", "[loosest]") {
  // By weight 'much' costs most, by the gram 'little' does: more of 'much' would help.
  for (const double grams : {980.0, 995.0}) {
    INFO(grams);
    const std::vector<PotFat> fats = {fat("much", grams, 190, 190, 190),
                                      fat("little", 1000 - grams, 150, 250, 260)};
    const std::vector<PaperFat> paper = {{grams, 186.2, 190}, {1000 - grams, 150, 250}};
    LyeSettings settings;
    settings.never_below = paper_worst(paper, 0, grams / 1000, fine_scales()) + 1e-4;
    CHECK_THAT(
        refused(fats, settings, fine_scales()),
        Contains("| Put steadier oils in place of much, or get the certificate of your lot"));
  }
}

TEST_CASE("alone in the pot the loosest fat is to make room for steadier ones", "[loosest]") {
  LyeSettings settings;
  settings.never_below = 0.01;
  // 1 - 0.92 * 190 / 170 = -2.8 %; alkali 124.6 g and 0.1 g, oil one gram short: -3.0 %.
  CHECK(refused({fat("loose", 1000, 170, 190, 201.4)}, settings, fine_scales()) ==
        "Even at 8.0 % superfat the worst case is -3.0 %, below the floor of 1.0 %. The loosest "
        "figure is that of loose: saponification value 170 to 201 mg KOH/g, reckoned at 190. | "
        "Put steadier oils in place of loose, or get the certificate of your lot and enter its "
        "saponification value.");
}

TEST_CASE("of two equally loose fats the first is named, wherever the others stand", "[loosest]") {
  const auto named = [](std::vector<PotFat> fats) {
    const std::string text = refused(fats, {}, fine_scales());
    const std::string before = "The loosest figure is that of ";
    const auto at = text.find(before);
    if (at == std::string::npos) return text;
    const auto from = at + before.size();
    return text.substr(from, text.find(':', from) - from);
  };
  const auto one = fat("one", 400, 160, 190, 200), two = fat("two", 400, 160, 190, 200);
  CHECK(named({one, two}) == "one");
  CHECK(named({two, one}) == "two");
  // The range counts, not the figure: 400 g * 30 against 400 g * 5 of a higher value.
  CHECK(named({coconut(400), one}) == "one");
  CHECK(named({one, coconut(400)}) == "one");
  // And the weight: 800 g * 15 against 100 g * 40.
  CHECK(named({fat("little", 100, 150, 190, 200), fat("much", 800, 175, 190, 200)}) == "much");
}

TEST_CASE("a scale that costs more than the loosest range is said, with its remedy", "[loosest]") {
  // 400 g of 160 to 200 mg/g: the range costs 400 * 40 = 16000 mg. The scale: 160 mg a gram.
  PotFat oil = fat("oil", 400, 160, 200, 210);
  const std::string costs_more = " The oils scale's error of 1 g a line costs still more. | ";
  const std::string finer = " A finer scale or a larger batch helps too.";
  oil.error = 100;  // as much as the range: not more
  CHECK_THAT(refused({oil}, {}, fine_scales()), !Contains(costs_more) && !Contains(finer));
  oil.error = 100.5;
  CHECK_THAT(refused({oil}, {}, fine_scales()), Contains(costs_more) && Contains(finer));
  // Every line is weighed: five, each off by a fifth of that, cost as much together.
  std::vector<PotFat> lines(5, fat("oil", 400, 160, 200, 210));
  for (auto& line : lines) line.error = 19.9;
  CHECK_THAT(refused(lines, {}, fine_scales()), !Contains(costs_more) && !Contains(finer));
  for (auto& line : lines) line.error = 20.1;
  CHECK_THAT(refused(lines, {}, fine_scales()), Contains(costs_more) && Contains(finer));
}

TEST_CASE("of a wax, and of a certified lot, no certificate is asked for", "[loosest]") {
  const std::string certificate =
      ", or get the certificate of your lot and enter its saponification value.";
  LyeSettings settings;
  settings.never_below = 0.05;
  PotFat wax = fat("beeswax", 90, 87, 95, 104);
  wax.form = FatForm::wax;
  wax.acid_value = 17;
  const std::string of_wax = refused({certified("steady", 910, 190), wax}, settings, fine_scales());
  CHECK_THAT(of_wax,
             Contains("beeswax: saponification value 17 to 104 mg KOH/g, reckoned at 95; of "
                      "a wax only the free acid is sure to react. | "));
  CHECK_THAT(of_wax, Contains(" % of the fats, or lower the floor.") && !Contains(certificate));
  PotFat lot = fat("loose", 1000, 175, 190, 200);
  lot.certified = true;
  CHECK_THAT(refused({lot}, settings, fine_scales()),
             Contains("in place of loose, or lower the floor.") && !Contains(certificate));
  lot.certified = false;
  CHECK_THAT(refused({lot}, settings, fine_scales()),
             Contains("in place of loose" + certificate) && !Contains("lower the floor"));
}

TEST_CASE("what the alkali's own papers would help is said where they would", "[loosest]") {
  const std::string floor =
      " The potassium hydroxide, stated at 87.0 %, may be a lot of 92 % under a label of 'at "
      "least'. | State the assay of your lot and the most it may be. ";
  const std::string highest =
      " The highest strength the alkali's certificate allows, if you state it, narrows the worst "
      "case as well.";
  using Choice = LyeSettings::Choice;
  const auto said = [](Choice alkali, std::optional<Strength> naoh, std::optional<Strength> koh) {
    LyeSettings settings;
    settings.alkali = alkali;
    settings.koh_share = 0.10;
    settings.naoh_strength = naoh;
    settings.koh_strength = koh;
    return refused({fat("loose", 1000, 165, 190, 200)}, settings, fine_scales());
  };
  const Strength label{0.87, {}, {}}, assay{0.87, {}, 0.88}, weak{0.98, {}, {}};
  const auto soda = Choice::sodium_hydroxide, potash = Choice::potassium_hydroxide;
  for (const auto choice : {potash, Choice::mixed}) {
    CHECK_THAT(said(choice, {}, label), Contains(floor) && Contains(highest));
    CHECK_THAT(said(choice, {}, assay), !Contains("label of 'at least'") && Contains(highest));
  }
  // The potash that stands on the shelf does not matter to a lye of soda.
  CHECK_THAT(said(soda, {}, label), !Contains("label of 'at least'") && !Contains(highest));
  CHECK_THAT(said(soda, Strength{1, {}, {}}, {}), !Contains(highest));
  CHECK_THAT(said(soda, weak, {}), Contains(highest));
  CHECK_THAT(said(soda, Strength{0.98, {}, 0.99}, {}), !Contains(highest));
}
