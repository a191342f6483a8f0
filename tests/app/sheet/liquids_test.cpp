// Milks, beer, wine, brines and sugar at the bench: in the lye frozen, cooled or before the alkali,
// at trace, and never against another instruction of the same sheet.
#include <catch2/catch.hpp>

#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Catch::Contains;
using Json = nlohmann::json;

TEST_CASE("lye made in frozen milk is used as cool as it is", "[sheet][liquids]") {
  const std::string body = "    liquids: [{goat milk: 100 % of water, frozen: yes}]\n";
  const Json all = read_sheet(body);
  const double lye = all["parts"][0]["temperatures"]["lye_celsius"];
  CHECK(lye <= 20);
  CHECK(lye <= all["pots"][0]["fresh_celsius"].get<double>());
  const std::string text = shown(body);
  CHECK_THAT(text, !Contains("made when: clear"));
  CHECK_THAT(text, !Contains("see that it is clear"));
  CHECK_THAT(text, !Contains("once it is clear"));
  CHECK_THAT(text, !Contains("stays cold"));
  CHECK_THAT(text, !Contains("of the water as ice"));
  CHECK_THAT(text, Contains("by the spoonful, the pot standing in ice water"));
  // Planned warmer than it is: said, and not waited for.
  const std::string warm = shown(body + "    lye-at: 40 C\n");
  CHECK_THAT(warm, Contains("is used at 20 C, not warmer as planned"));
  CHECK_THAT(warm, !Contains("240 min"));
}

TEST_CASE("milk may join the cooled lye, or go in at trace", "[sheet][liquids]") {
  const std::string cold = "    liquids: [{goat milk: 100 g in all, when: lye is cold}]\n";
  CHECK(read_sheet(cold)["parts"][0]["temperatures"]["lye_celsius"].get<double>() <= 28);
  CHECK_THAT(shown(cold), Contains("Stir into its lye, once it is clear and below 30 C"));
  const std::string trace = shown("    liquids: [{goat milk: 100 g in all, when: at trace}]\n");
  CHECK_THAT(trace, Contains("[ ] goat milk 100.0 g at trace, as warm as the batter"));
  CHECK_THAT(refused_sheet("    liquids: [{goat milk: 100 g in all, when: tomorrow}]\n"),
             Contains("b.yaml:9:27: when does 'goat milk' go in?") && Contains("'at trace'"));
  CHECK_THAT(
      refused_sheet("    liquids: [{goat milk: 100 g in all, frozen: yes, when: at trace}]\n"),
      Contains("b.yaml:9:27: 'goat milk' is frozen for the alkali"));
  CHECK_THAT(refused_sheet("    liquids: [{goat milk: 100 g in all}]\n"),
             Contains("Milk and cream in hot lye scorch"));
}

// Beer of 4 % alcohol and 92 % water, recalled: boiled, 92 / 96 of the rest is water.
TEST_CASE("beer and wine are boiled and flat before they meet lye", "[sheet][liquids]") {
  const std::string body = "    liquids: [{beer: 100 g in all}]\n";
  CHECK_THAT(shown(body), Contains("DANGER Boil the beer and let it go flat and ice-cold"));
  const Json recipe = read_sheet(body)["parts"][0]["recipe"];
  const Json plain = read_sheet("    superfat: 5 %\n")["parts"][0]["recipe"];
  CHECK(plain["water_grams"].get<double>() - recipe["water_grams"].get<double>() ==
        Approx(100 * 92 / 96.0).margin(0.2));
  CHECK_THAT(shown("    liquids: [{red wine: 100 g in all, when: at trace}]\n"),
             Contains("Alcohol in the red wine hastens trace") && !Contains("Boil the wine"));
}

TEST_CASE("every fat a liquid brings is counted as fat", "[sheet][liquids]") {
  const auto alkali = [&](const std::string& body) {
    return read_sheet(body)["parts"][0]["recipe"]["lye"][0]["grams"].get<double>();
  };
  const double none = alkali("    superfat: 5 %\n");
  // 200 g x 21 % of fat at 257 mg KOH/g, 5 % superfat: coconut milk as recalled in liquids'
  // records.
  const double coconut =
      alkali("    liquids: [{coconut milk: 200 g in all, frozen: yes}]\n") - none;
  CHECK(coconut == Approx(200 * 0.21 * 0.257 * 39.997 / 56.106 * 0.95).margin(0.3));
  CHECK(alkali("    liquids: [{avocado puree: 100 g in all, when: at trace}]\n") > none + 1);
  CHECK(alkali("    liquids: [{aloe vera juice: 100 g in all}]\n") == Approx(none));
}

TEST_CASE("sugar and brine go into the water before the alkali", "[sheet][liquids]") {
  const std::string sugar = "    into-lye: [{sugar: 20 g per kg oils}]\n";
  CHECK_THAT(shown(sugar), Contains("DANGER Sugar in the lye water (sugar): all of it dissolved") &&
                               Contains("water, then sugar, then the alkali"));
  CHECK(read_sheet(sugar)["pots"][0]["fresh_celsius"].get<double>() >
        read_sheet("    superfat: 5 %\n")["pots"][0]["fresh_celsius"].get<double>() + 2);
  CHECK_THAT(shown("    liquids: [{brine 10 %: 100 g in all}]\n"), Contains("brine 10 %"));
  CHECK_THAT(refused_sheet("    liquids: [{brine: 100 g in all}]\n"), Contains("has no strength"));
  CHECK_THAT(refused_sheet("    additives: [{brine: 100 g in all}]\n"),
             Contains("has no strength"));
  CHECK_THAT(refused_sheet("    liquids: [{vinegar 5 %: 100 g in all}]\n"),
             Contains("b.yaml:9:") && Contains("write it under 'acids:'"));
}

TEST_CASE("what lies on top brings no fat the lye does not know", "[sheet][liquids]") {
  CHECK_THAT(refused_sheet("    top-with: [{cocoa butter: 10 g in all}]\n"),
             Contains("b.yaml:9:31:") && Contains("every fat in the pot meets the lye"));
  CHECK_THAT(refused_sheet("    top-with: [{heavy cream: 10 g in all}]\n"),
             Contains("b.yaml:9:30:") && Contains("on top brings fat"));
  CHECK_THAT(shown("    top-with: [{dried petals: 2 g in all}]\n"), Contains("dried petals"));
}

TEST_CASE("acids warm the lye and go by the salt they make", "[sheet][liquids]") {
  const double plain = read_sheet("    superfat: 5 %\n")["pots"][0]["fresh_celsius"];
  const std::string citric = "    acids: [{citric acid anhydrous: 20 g per kg oils}]\n";
  CHECK(read_sheet(citric)["pots"][0]["fresh_celsius"].get<double>() > plain + 5);
  CHECK_THAT(shown(citric), Contains("becomes sodium citrate in the soap, about 26.9 g"));
  CHECK_THAT(shown("    acids: [{vinegar 5 %: 100 g in all}]\n"), Contains("sodium acetate"));
}

TEST_CASE("there is never more ice than plain water", "[sheet][liquids]") {
  const Json all = read_sheet("    liquids: [{green tea: 80 % of water}]\n");
  const double ice = all["pots"][0]["ice_grams"];
  CHECK(ice > 0);
  CHECK(ice <= all["parts"][0]["recipe"]["water_grams"].get<double>());
}
