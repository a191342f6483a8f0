#include <catch2/catch.hpp>

#include "targets/brief/brief.hpp"
#include "tests/targets/brief/brief_testing.hpp"

using namespace barwright;
using namespace barwright::targets;

namespace {
Brief from(const std::string& text) {
  return read_brief_text("brief: b\noils-from: library\nbest: cheapest\n" + text, "b.yaml", "",
                         testing::brief_library());
}
}  // namespace

TEST_CASE("a whole brief arrives field by field", "[brief]") {
  const Brief brief =
      read_brief(testing::fixture("firmer-market-bar.yaml"), testing::brief_library());
  CHECK(brief.name == "firmer market bar");
  REQUIRE(brief.make);
  REQUIRE(brief.make->bars);
  CHECK(brief.make->bars->count == 24);
  CHECK(brief.make->bars->each_grams == 110);
  CHECK(brief.make->bars->weighed == Bars::Weighed::cured);
  CHECK(brief.oils_from.shelf);
  CHECK_FALSE(brief.oils_from.library);
  REQUIRE(brief.shelf);
  CHECK(brief.shelf->path == testing::fixture("yard-shelf.yaml"));

  REQUIRE(brief.compared_with);
  CHECK(brief.compared_with->name == "market bar as sold");
  CHECK(*brief.compared_with->superfat == Approx(0.05));
  REQUIRE(brief.compared_with->blend);
  REQUIRE(brief.compared_with->blend->oils.size() == 4);
  CHECK(brief.compared_with->blend->oils[0].oil.name == "olive");
  CHECK(brief.compared_with->blend->oils[0].share == Approx(0.45).epsilon(1e-12));
  CHECK(brief.compared_with->blend->oils[2].oil.name == "high-oleic sunflower");

  REQUIRE(brief.wishes.size() == 5);
  CHECK(brief.wishes[0].written.text == "hardness: at least 4 above");
  CHECK(brief.wishes[0].written.place.line == 13);
  CHECK(brief.wishes[0].written.place.column == 13);
  CHECK(brief.wishes[0].low->value == 4);
  CHECK(brief.wishes[1].low->value == -2);
  CHECK(brief.wishes[2].low->value == -5);
  CHECK(brief.wishes[3].subject.property == Property::thrift);
  CHECK(brief.wishes[4].than == kPlainBar);
  REQUIRE(brief.goals.size() == 2);
  CHECK(brief.goals[0].kind == Goal::Kind::most);
  CHECK(brief.goals[1].oil == "rice bran");

  CHECK(*brief.rules.most_oils == 5);
  CHECK(*brief.rules.step_share == Approx(0.01));
  REQUIRE(brief.rules.oils.size() == 3);
  CHECK(*brief.rules.oils[0].least == Approx(0.03));
  CHECK(*brief.rules.oils[0].most == Approx(0.08));
  CHECK(brief.rules.oils[0].always);  // a least share says that the oil is in
  CHECK_FALSE(brief.rules.oils[1].least);
  REQUIRE(brief.rules.leave_on_shelf.size() == 1);
  CHECK(brief.rules.leave_on_shelf[0].oil.name == "coconut");
  CHECK(brief.rules.leave_on_shelf[0].grams == 400);

  CHECK(*brief.lye.alkali == LyeWish::Alkali::sodium);
  CHECK(*brief.lye.superfat == Approx(0.05));
  CHECK(*brief.lye.never_below == Approx(0.01));
  CHECK(*brief.lye.concentration == Approx(0.33));
  CHECK(*brief.scale.oils_grams == 1);
  CHECK(*brief.scale.lye_grams == Approx(0.1));
  CHECK(brief.sureness == Sureness::typical);
}

TEST_CASE("limits on single oils", "[brief]") {
  const auto limit = [](const std::string& text) {
    return from("limits: {castor: \"" + text + "\"}\n").rules.oils.at(0);
  };
  CHECK(limit("at most 8 %").most == Approx(0.08));
  CHECK_FALSE(limit("at most 8 %").always);
  CHECK(limit("at least 3 %").always);  // said outright: the oil cannot stay out
  CHECK(limit("3 to 8 %").least == Approx(0.03));
  CHECK(limit("3 to 8 %").most == Approx(0.08));
  CHECK(limit("from 3 to 8 %").most == Approx(0.08));
  CHECK(limit("at least 3 % and at most 8 % of the oils").most == Approx(0.08));
  CHECK(limit("exactly 5 %").least == limit("exactly 5 %").most);
  CHECK(limit("none").most == 0.0);
  CHECK(limit("always").always);
  const OilLimit block = from("limits: {castor: {least: 3 %, always: yes}}\n").rules.oils.at(0);
  CHECK(block.always);
  CHECK(from("limits: {castor: {least: 5 %}}\n").rules.oils.at(0).always);
  CHECK_FALSE(from("limits: {castor: {least: 5 %, always: no}}\n").rules.oils.at(0).always);
  CHECK_FALSE(limit("none or at least 5 %").always);
  CHECK(limit("none or at least 5 %").least == Approx(0.05));
  CHECK(limit("none or 5 to 8 %").most == Approx(0.08));
  CHECK(from("limits: {steps: 5 g}\nmake: {oils: 2 kg}\n").rules.step_grams == 5.0);
}

TEST_CASE("rules on tags, and what stays out", "[brief]") {
  const Brief brief = from(
      "tag rules: {butters: at least 15 %, vegan: yes, palm: no, tree nuts: none}\n"
      "not: [tag animal, oil palm, palm, mango butter]\n");
  REQUIRE(brief.rules.tags.size() == 4);
  CHECK(brief.rules.tags[0].tags == std::vector<std::string>{"butter"});
  CHECK(*brief.rules.tags[0].least == Approx(0.15));
  CHECK(*brief.rules.tags[1].least == 1);
  CHECK(*brief.rules.tags[2].most == 0);
  CHECK(brief.rules.tags[3].tags == std::vector<std::string>{"tree nut"});
  REQUIRE(brief.rules.barred.size() == 4);
  CHECK(brief.rules.barred[0].tag == "animal");
  CHECK(brief.rules.barred[1].oil == "palm");
  CHECK(brief.rules.barred[1].tag.empty());
  // A word that is both an oil and a tag bars both: the wider reading keeps "no palm" true.
  CHECK(brief.rules.barred[2].oil == "palm");
  CHECK(brief.rules.barred[2].tag == "palm");
  CHECK(brief.rules.barred[3].oil == "mango butter");
}

TEST_CASE("how much to make", "[brief]") {
  const auto make = [](const std::string& text) { return *from("make: " + text + "\n").make; };
  CHECK(*make("2600 g oils").oils_grams == 2600);
  CHECK(*make("{oils: 2 kg, bars: 20}").bars_per_batch == 20);
  const MakeSize moulds = make(
      "{moulds: [{name: box, count: 2, inside: [26 cm, 82 mm, 3 in], fill-to: 52 mm}, {inside: 10 "
      "x 8 x "
      "7 cm}, {volume: 1.2 L}, {water: 900 g}]}");
  REQUIRE(moulds.moulds.size() == 4);
  CHECK((*moulds.moulds[0].inside_mm)[0] == Approx(260));
  CHECK((*moulds.moulds[0].inside_mm)[2] == Approx(76.2));
  CHECK(*moulds.moulds[0].fill_to_mm == Approx(52));
  CHECK(moulds.moulds[0].count == 2);
  CHECK((*moulds.moulds[1].inside_mm)[1] == Approx(80));
  CHECK(*moulds.moulds[2].millilitres == Approx(1200));
  CHECK(*moulds.moulds[3].water_grams == 900);
}

TEST_CASE("a setting that bears on nothing is an error at its line", "[brief]") {
  const auto refused = [](const std::string& text) -> std::string {
    try {
      from("lye:\n" + text);
    } catch (const core::InputError& error) {
      return std::to_string(error.place().line) + ": " + error.message() + " | " + error.remedy();
    }
    return "taken";
  };
  const int base = [] {
    try {
      from("lye:\n  supperfat: 5 %\n");
    } catch (const core::InputError& error) {
      return error.place().line;
    }
    return 0;
  }();
  const auto at = [&](int line) { return std::to_string(base + line) + ": "; };
  using Catch::Contains;
  using Catch::StartsWith;
  CHECK_THAT(refused("  superfat: 5 %\n  strength: {potassium hydroxide: 90 %}\n"),
             StartsWith(at(1)) && Contains("strength of potassium hydroxide bears on nothing") &&
                 Contains("alkali: potassium hydroxide"));
  CHECK_THAT(refused("  alkali: KOH\n  strength: {KOH: 90 %, NaOH: 99 %}\n"),
             StartsWith(at(1)) && Contains("strength of sodium hydroxide bears on nothing"));
  CHECK_THAT(refused("  alkali: {NaOH: 100 %, KOH: 0 %, by: moles}\n"), Contains("0 % of it"));
  CHECK_THAT(refused("  acids: [{citric acid monohydrate: 5 g per kg oils, frozen: yes}]\n"),
             Contains("'frozen: yes' has no effect"));
  CHECK_THAT(refused("  liquids: [{tea: 50 % of water, lye: corrected}]\n"),
             Contains("'lye' has no effect"));
  CHECK_THAT(refused("  salt: 5 g per kg oils\n  into-lye: [{sugar: 5 g per kg oils, frozen: "
                     "yes}]\n"),
             Contains("'frozen: yes' has no effect"));
  CHECK(refused("  alkali: KOH\n  strength: 90 %\n") == "taken");
}

TEST_CASE("a strength with its limits, and a superfat that may not rise", "[brief]") {
  const auto lye = [](const std::string& text) { return from("lye: {" + text + "}\n").lye; };
  const LyeWish one = lye("alkali: KOH, strength: {stated: 90 %, least: 89 %, most: 91 %}");
  CHECK(one.koh_strength->stated == Approx(0.90));
  CHECK(*one.koh_strength->least == Approx(0.89));
  CHECK(*one.koh_strength->most == Approx(0.91));
  const LyeWish two = lye("strength: {NaOH: {stated: 98 %, most: 99 %}}");
  CHECK(*two.naoh_strength->most == Approx(0.99));
  CHECK_FALSE(two.naoh_strength->least);
  CHECK_THROWS_AS(lye("strength: {NaOH: {stated: 98 %, most: 97 %}}"), core::InputError);
  CHECK_THROWS_AS(lye("strength: {NaOH: {stated: 98 %, least: 99 %}}"), core::InputError);
  CHECK_FALSE(lye("superfat: 5 %").raise);
  CHECK(lye("superfat: {aim: 5 %, raise: no}").raise == false);
}

TEST_CASE("lye settings", "[brief]") {
  const auto lye = [](const std::string& text) { return from("lye: {" + text + "}\n").lye; };
  CHECK(*lye("superfat: 6 %").superfat == Approx(0.06));
  CHECK(*lye("water-ratio: 2 to 1").water_per_alkali == 2);
  CHECK(*lye("water-ratio: \"2.5:1\"").water_per_alkali == 2.5);
  CHECK(*lye("water: 38 % of oils").water_of_oils == Approx(0.38));
  CHECK(lye("alkali: NaOH, strength: 99 %").naoh_strength->stated == Approx(0.99));
  CHECK(lye("alkali: potassium hydroxide, purity: 90 %").koh_strength->stated == Approx(0.90));
  const LyeWish mixed =
      lye("alkali: {sodium hydroxide: 95 %, potassium hydroxide: 5 %, by: fat}, strength: {NaOH: "
          "99 %, KOH: "
          "90 %}");
  CHECK(*mixed.alkali == LyeWish::Alkali::mixed);
  CHECK(*mixed.koh_share == Approx(0.05));
  CHECK(mixed.koh_basis == LyeWish::KohBasis::fat);
  CHECK(mixed.koh_strength->stated == Approx(0.90));
  const LyeWish more =
      lye("lye-at: 86 F, oils-at: 38 C, acids: [{citric acid monohydrate: 10 g per kg oils, lye: "
          "corrected}], liquids: {goat milk: 50 % of water, frozen: yes}, salt: 5 g per kg oils, "
          "sodium "
          "lactate: {syrup: 60 %, dose: 20 g per kg oils}");
  CHECK(*more.lye_celsius == Approx(30));
  REQUIRE(more.acids.size() == 1);
  CHECK(more.acids[0].name == "citric acid monohydrate");
  CHECK(*more.acids[0].lye_corrected);
  CHECK(more.acids[0].dose.basis == Basis::per_kg_oils);
  REQUIRE(more.liquids.size() == 1);
  CHECK(more.liquids[0].frozen);
  CHECK(more.liquids[0].dose.basis == Basis::of_water);
  CHECK(more.liquids[0].dose.value == Approx(0.5));
  REQUIRE(more.into_lye.size() == 2);
  CHECK(more.into_lye[0].name == "salt");
  CHECK(*more.into_lye[1].strength == Approx(0.6));
}

TEST_CASE("where oils come from", "[brief]") {
  const auto read = [](const std::string& text) {
    return read_brief_text("brief: b\noils-from: " + text + "\nbest: cheapest\n", "b.yaml", "yard",
                           testing::brief_library())
        .oils_from;
  };
  CHECK(read("library").library);
  const OilsFrom list = read("[shelf, mango butter, shea]");
  CHECK(list.shelf);
  REQUIRE(list.named.size() == 2);
  CHECK(list.named[1].name == "shea butter");
  CHECK(list.named[1].written.text == "shea");
  CHECK(read("prices/list.csv").price_list->path == "yard/prices/list.csv");
}

TEST_CASE("a cost ceiling is a wish with the maker's words", "[brief]") {
  const Brief brief = from(
      "limits: {cost: [at most 4.20 EUR per kg, at most 12 EUR per batch]}\nmake: {oils: 2 kg}\n");
  REQUIRE(brief.wishes.size() == 2);
  CHECK(brief.wishes[0].written.text == "cost: at most 4.20 EUR per kg");
  CHECK(brief.wishes[0].high->value == 4.2);
  CHECK(brief.wishes[1].subject.per == Per::batch);
}

TEST_CASE("a yardstick from a recipe file, by its own name", "[brief]") {
  const Brief brief = read_brief_text(
      "brief: b\noils-from: library\ncompared-with: recipes/market-bar.yaml\nwant: {lather: no "
      "less}\n",
      "b.yaml", testing::fixture(""), testing::brief_library());
  CHECK(brief.compared_with->name == "market bar as sold");
  CHECK(*brief.compared_with->concentration == Approx(0.33));
  CHECK(brief.compared_with->blend->oils.size() == 4);
}
