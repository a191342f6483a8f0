// Every phrase of a wish, with what it means.
#include <catch2/catch.hpp>

#include "targets/brief/brief.hpp"
#include "targets/brief/wish_reader.hpp"
#include "tests/targets/brief/brief_testing.hpp"

using namespace barwright;
using targets::Wish;

namespace {

/// "d" for a difference, then low and high as value+noticeable, "-" for none.
std::string shown(const Wish& wish) {
  const auto bound = [](const std::optional<targets::Bound>& end) -> std::string {
    if (!end) return "-";
    std::string text = targets::figure(end->value);
    if (end->noticeable != 0) text += "|" + targets::figure(end->noticeable);
    return text;
  };
  std::string text =
      std::string(wish.compared ? "d " : "") + bound(wish.low) + " " + bound(wish.high);
  if (!wish.than.empty()) text += " than " + wish.than;
  if (wish.level) text += " " + targets::words(*wish.level);
  return text;
}

std::vector<Wish> wishes(const std::string& key, const std::string& phrase) {
  const auto document =
      oils::yaml::Document::from_text("\"" + key + "\": \"" + phrase + "\"\n", "w.yaml");
  return targets::read_wishes(document.root());
}

std::string one(const std::string& key, const std::string& phrase) {
  const auto all = wishes(key, phrase);
  REQUIRE(all.size() == 1);
  return shown(all[0]);
}

}  // namespace

TEST_CASE("wishes against the bar in the hand", "[wish]") {
  const std::vector<std::pair<std::string, std::string>> table = {
      {"at least 5 above", "d 5 -"},
      {"at least 5 more", "d 5 -"},
      {"At least 5 points higher", "d 5 -"},
      {"5 or more above", "d 5 -"},
      {"no less than 5 above", "d 5 -"},
      {"at least 5 below", "d - -5"},
      {"5 or more below", "d - -5"},
      {"no more than 1 below", "d -1 -"},
      {"at most 1 below", "d -1 -"},
      {"no more than 6 above", "d - 6"},
      {"at most 6 higher", "d - 6"},
      {"no less", "d 0 -"},
      {"no lower than now", "d 0 -"},
      {"no less than now", "d 0 -"},
      {"at least as much as now", "d 0 -"},
      {"at least as now", "d 0 -"},
      {"no more", "d - 0"},
      {"no more than now", "d - 0"},
      {"at most as now", "d - 0"},
      {"clearly more", "d 0|1 -"},
      {"clearly less", "d - 0|-1"},
      {"slightly more", "d 0|0.5 -"},
      {"a little less", "d - 0|-0.5"},
      {"much more", "d 0|2 -"},
      {"much lower than now", "d - 0|-2"},
      {"not clearly less", "d 0|-1 -"},
      {"not much more", "d - 0|2"},
      {"about as now", "d 0|-1 0|1"},
      {"as now", "d 0|-0.5 0|0.5"},
      {"unchanged", "d 0|-0.5 0|0.5"},
      {"within 3 of now", "d -3 3"},
      {"within 3", "d -3 3"},
      {"2 to 5 above", "d 2 5"},
      {"2-5 below", "d -5 -2"},
      {"between 2 and 5 above", "d 2 5"},
      {"clearly more than all-coconut", "d 0|1 - than all-coconut"},
      {"no less than the yardstick", "d 0 -"},
      {"at least 5 above, likely", "d 5 - likely 95 %"},
      {"at least 5 above, likely 90 %", "d 5 - likely 90 %"},
      {"clearly more, worst-case", "d 0|1 - worst-case"},
  };
  for (const auto& [phrase, meaning] : table) {
    INFO(phrase);
    CHECK(one("hardness", phrase) == meaning);
  }
}

TEST_CASE("wishes with a figure of their own", "[wish]") {
  const std::vector<std::array<std::string, 3>> table = {
      {"hardness", "at least 60", "60 -"},
      {"hardness", "no less than 60", "60 -"},
      {"hardness", "60 or more", "60 -"},
      {"hardness", "above 60", "60 -"},
      {"hardness", "at most 70 points", "- 70"},
      {"hardness", "no more than 70", "- 70"},
      {"hardness", "70 or less", "- 70"},
      {"hardness", "below 70", "- 70"},
      {"hardness", "60 to 70", "60 70"},
      {"hardness", "60-70", "60 70"},
      {"hardness", "60 – 70", "60 70"},
      {"hardness", "between 60 and 70", "60 70"},
      {"cut firmness", "at least 40", "40 -"},
      {"titre", "at most 104 F", "- 40"},
      {"titre", "38 to 42 C", "38 42"},
      {"titre", "95 to 104 F", "35 40"},
      {"titre", "at least 9 F above", "d 5 -"},
      {"soluble-20", "at least 60 %", "60 -"},
      {"saponification value", "at most 195 mg KOH/g", "- 195"},
      {"iodine value", "at most 70", "- 70"},
      {"iodine value", "at most 70 g I2/100 g", "- 70"},
      {"unsaponifiable", "at least 1.5 %", "1.5 -"},
      {"lauric", "15 to 20 %", "15 20"},
      {"C12:0", "at least 2 % more", "d 2 -"},
      {"Lauric acid + C14:0", "at most 20 %", "- 20"},
      {"lauric and myristic", "at most 20 %", "- 20"},
      {"palmitic + stearic / oleic", "at least 0.5", "0.5 -"},
      {"palmitic over stearic", "at most 1.5", "- 1.5"},
      {"oil cost", "at most 4.20 EUR per kg", "- 4.2"},
      {"oil cost", "at most €0.40 per bar", "- 0.4"},
      {"oil cost", "no more than now", "d - 0"},
      {"oil cost", "at least 0.10 EUR per bar less", "d - -0.1"},
  };
  for (const auto& [key, phrase, meaning] : table) {
    INFO(key << ": " << phrase);
    CHECK(one(key, phrase) == meaning);
  }
}

TEST_CASE("working-time has its own words", "[wish]") {
  CHECK(one("working-time", "long") == "d 0 - than plain bar");
  CHECK(one("working-time", "short") == "d - 0 than plain bar");
  CHECK(one("working-time", "no sooner than now") == "d 0 -");
  CHECK(one("working-time", "no shorter") == "d 0 -");
  CHECK(one("working-time", "clearly longer") == "d 0|1 -");
}

TEST_CASE("several wishes on one line stay apart, each with its words", "[wish]") {
  const auto all = wishes("hardness", "at least 5 above and at most 80, likely");
  REQUIRE(all.size() == 2);
  CHECK(shown(all[0]) == "d 5 - likely 95 %");
  CHECK(shown(all[1]) == "- 80 likely 95 %");
  CHECK(all[0].written.text == "hardness: at least 5 above");
  CHECK(all[1].written.text == "hardness: at most 80");
  CHECK(all[0].written.place.line == 1);
  CHECK(all[0].written.place.column == 13);
}

TEST_CASE("a wish as a block or a list", "[wish]") {
  const auto document = oils::yaml::Document::from_text(
      "hardness: {wish: at least 60, level: worst-case}\nlather: [clearly more, at least 30]\n",
      "w.yaml");
  const auto all = targets::read_wishes(document.root());
  REQUIRE(all.size() == 3);
  CHECK(shown(all[0]) == "60 - worst-case");
  CHECK(shown(all[1]) == "d 0|1 -");
  CHECK(shown(all[2]) == "30 -");
}

TEST_CASE("subjects know their acids", "[wish]") {
  using core::FattyAcid;
  const auto sum = wishes("lauric + C14:0", "at most 20 %")[0].subject;
  CHECK(sum.kind == targets::Subject::Kind::acids);
  CHECK(sum.acids == std::vector<FattyAcid>{FattyAcid::C12_0, FattyAcid::C14_0});
  const auto ratio = wishes("palmitic + stearic / oleic", "at most 1")[0].subject;
  CHECK(ratio.kind == targets::Subject::Kind::acid_ratio);
  CHECK(ratio.acids == std::vector<FattyAcid>{FattyAcid::C16_0, FattyAcid::C18_0});
  CHECK(ratio.over == std::vector<FattyAcid>{FattyAcid::C18_1});
  const auto cost = wishes("oil cost", "at most 4.20 EUR per kg")[0].subject;
  CHECK(cost.per == targets::Per::kg_oils);
  CHECK(cost.currency == "EUR");
}

TEST_CASE("wishes that could mean two things are refused", "[wish]") {
  for (const char* phrase : {"5 above",
                             "60",
                             "more",
                             "less than now",
                             "good",
                             "at least",
                             "at least five",
                             "5 % more",
                             "at least 120",
                             "at most 101 above",
                             "no",
                             "not",
                             "clearly",
                             "at least 1e999",
                             "at least -5",
                             "70 to 60",
                             "between 60",
                             "likely",
                             "at least 5 above, likely, typical",
                             "at least 5 above, likely 30 %",
                             "at least 60 than all-olive",
                             "",
                             "at least 5 above,",
                             "at least inf"}) {
    INFO(phrase);
    CHECK(testing::said([&] { wishes("hardness", phrase); }) != "");
  }
}

TEST_CASE("goals", "[wish]") {
  using Kind = targets::Goal::Kind;
  const auto goals = [](const std::string& text) {
    return targets::read_brief_text(
               "brief: b\noils-from: library\ncompared-with: all-olive\nbest: " + text + "\n",
               "b.yaml", "", testing::brief_library())
        .goals;
  };
  CHECK(goals("cheapest")[0].kind == Kind::cheapest);
  CHECK(goals("least oil cost")[0].kind == Kind::cheapest);
  CHECK(goals("fewest oils")[0].kind == Kind::fewest_oils);
  CHECK(goals("most hardness")[0].kind == Kind::most);
  CHECK(goals("most hardness")[0].subject.name == "hardness");
  CHECK(goals("least iodine value")[0].subject.kind == targets::Subject::Kind::iodine_value);
  CHECK(goals("nearest in feel")[0].kind == Kind::nearest_in_feel);
  CHECK(goals("nearest in feel to All Coconut")[0].feel_of == "all-coconut");
  CHECK(goals("use up shea")[0].oil == "shea butter");
  const auto list = goals("[cheapest, use up rice bran, {goal: most lather, give: 1.5}]");
  REQUIRE(list.size() == 3);
  CHECK(list[1].oil == "rice bran");
  CHECK(list[2].give == 1.5);
  const auto near =
      goals("{nearest to: {hardness: {at: 60, weight: 2}, lather: 5 above, mildness: as now}}");
  REQUIRE(near[0].points.size() == 3);
  CHECK(near[0].points[0].value == 60);
  CHECK(near[0].points[0].weight == 2);
  CHECK_FALSE(near[0].points[0].compared);
  CHECK(near[0].points[1].compared);
  CHECK(near[0].points[1].value == 5);
  CHECK(near[0].points[2].compared);
  CHECK(near[0].points[2].value == 0);
  const auto mix =
      goals("{weighted: [{goal: most lather, weight: 2}, {goal: cheapest, weight: 1}]}");
  REQUIRE(mix[0].parts.size() == 2);
  CHECK(mix[0].parts[0].weight == 2);
  CHECK(mix[0].parts[1].kind == Kind::cheapest);
}
