// Salt bars, scents, colours by the spoon, embeds and looks at the bench.
#include <catch2/catch.hpp>

#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

const std::string kLoaf =
    "moulds: [{name: loaf, inside: [250 mm, 80 mm, 70 mm], fill-to: 60 mm}]\n"
    "cut: {slice: 25 mm}\n";

/// The same batch in a loaf of 1200 mL.
std::string loaf(const std::string& body, const std::string& top = kLoaf) {
  std::string text = small_batch(body, top);
  text.erase(text.find("make:"), text.find('\n', text.find("make:")) + 1 - text.find("make:"));
  return text;
}

Json weighed(const std::string& text) {
  const Ran ran = sheet_of_text(text, "--json");
  INFO(ran.err);
  REQUIRE(ran.exit_code == 0);
  return Json::parse(ran.out);
}

double batter(const Json& sheet) { return sheet["parts"][0]["recipe"]["total_grams"]; }

}  // namespace

// Cut within hours or poured into single moulds: common practice, no source.
TEST_CASE("a salt bar is said first, and nothing of it is told to dissolve", "[sheet][salt]") {
  const std::string salt = "    additives: [{sea salt: 80 % of oils}]\n";
  const Ran ran = sheet_of_text(loaf(salt));
  INFO(ran.err);
  REQUIRE(ran.exit_code == 0);
  const std::string text = flat(ran.out);
  CHECK(text.find("SALT BAR, 80 % salt of the oils") < text.find("Alkali INTO water"));
  CHECK_THAT(text, !Contains("dissolve fully") && !Contains("more than the usual"));
  CHECK_THAT(text, Contains("it stays grains") && Contains("cut while warm"));
  CHECK_THAT(text, Contains("hardly will"));  // 30 % coconut
  const Json sheet = weighed(loaf(salt));
  CHECK(sheet["parts"][0]["times"]["cut_hours"].get<double>() <= 5);
  // Grains of salt, 2.16 g/mL (usual tables): 1200 mL hold more grams of this batter.
  const double grams = 0.8 * sheet["parts"][0]["recipe"]["oils_grams"].get<double>();
  CHECK((batter(sheet) - grams) / 0.985 + grams / 2.16 == Approx(1200).margin(3));
  CHECK(batter(weighed(loaf(""))) == Approx(1200 * 0.985).margin(3));
  // In single moulds nothing is cut; a little salt makes no salt bar.
  CHECK_THAT(shown(salt), Contains("single moulds, never a log") && !Contains("knife ready"));
  CHECK_THAT(shown("    additives: [{sea salt: 8 % of oils}]\n"), !Contains("SALT BAR"));
}

TEST_CASE("a scent without a certificate is dosed, with a caution and a blank", "[sheet][scent]") {
  const std::string scent = "    scent: [{name: mint leaf, dose: 20 g per kg oils}]\n";
  const std::string text = shown(scent);
  CHECK_THAT(text, Contains("certificate allows ______ %") && Contains("flash point ______ C") &&
                       Contains("No certificate limit for mint leaf"));
  const Json all = read_sheet(scent);
  CHECK(all["parts"][0]["scents"][0]["grams"].get<double>() == Approx(20));
  CHECK(all["parts"][0]["scents"][0]["limit_percent"].is_null());
  CHECK_THAT(refused_sheet("    scent: [{name: mint leaf, dose: 2 tsp per kg oils}]\n"),
             Contains("b.yaml:9:37: a scent is weighed"));
}

TEST_CASE("several scents are summed against their limits and the usual most", "[sheet][scent]") {
  const auto two = [](const std::string& limit) {
    return "    scent:\n"
           "      - {name: one, dose: 20 g per kg oils, certificate: {file: a.pdf, "
           "most-in-finished-bar: " +
           limit +
           "}}\n"
           "      - {name: two, dose: 20 g per kg oils, certificate: {file: b.pdf, "
           "most-in-finished-bar: " +
           limit + "}}\n";
  };
  CHECK_THAT(shown(two("2 %")), Contains("of their limits taken together"));
  CHECK_THAT(shown(two("6 %")), !Contains("taken together"));
  CHECK_THAT(shown("    scent: [{name: one, dose: 30 g per kg oils}, {name: two, dose: 30 g per kg "
                   "oils}]\n"),
             Contains("60 g per kg of its oils; 50 g per kg is usually the most"));
}

TEST_CASE("flash points are held against the pot", "[sheet][scent]") {
  const auto at = [](const char* flash, const char* oils) {
    return shown(std::string("    oils-at: ") + oils + "\n    lye-at: " + oils +
                 "\n    scent: [{name: x, dose: 20 g per kg oils, flash-point: " + flash + "}]\n");
  };
  CHECK_THAT(at("46 C", "50 C"), Contains("DANGER x has its flash point at 46 C, and the batter"));
  CHECK_THAT(at("93 C", "50 C"), !Contains("has its flash point"));
  CHECK_THAT(at("93 C", "50 C"), Contains("flash point 93 C"));
  CHECK_THAT(
      shown("    oils-at: 50 C\n    lye-at: 50 C\n    scent: [{name: sweet orange oil, dose: "
            "20 g per kg oils}]\n"),
      Contains("47 C (from memory: its safety data sheet decides)"));
}

TEST_CASE("what a scent does comes from its maker, else from practice", "[sheet][scent]") {
  const auto with = [](const std::string& more) {
    return shown("    scent: [{name: clove oil, dose: 8 g per kg oils" + more + "}]\n");
  };
  CHECK_THAT(with(""), Contains("clove oil thickens: fast (common practice, no source)"));
  CHECK_THAT(with(", behaves: {thickens: no}"),
             Contains("clove oil thickens: no.") && !Contains("thickens: fast"));
  CHECK_THAT(with(", vanillin: 4 %"), Contains("clove oil colours:"));
  CHECK_THAT(shown("    scent: [{name: own, dose: 8 g per kg oils, vanillin: 4 %}]\n"),
             Contains("own colours: brown (4 % vanillin), over days to weeks"));
  const auto minutes = [](const std::string& name) {
    return read_sheet("    scent: [{name: " + name +
                      ", dose: 8 g per kg oils}]\n")["parts"][0]["times"]["working_minutes"]
        .get<double>();
  };
  CHECK(minutes("clove oil") < 0.5 * minutes("tea tree oil"));
}

TEST_CASE("scent soaked in clay is one line at the bench", "[sheet][scent]") {
  const std::string body =
      "    scent: [{name: x, dose: 20 g per kg oils, soaked-in: {kaolin: 10 g in all}}]\n";
  CHECK_THAT(shown(body), Contains("[ ] x 20.0 g stirred into 10.0 g of kaolin an hour before"));
  const Json with = read_sheet(body);
  const Json without = read_sheet("    scent: [{name: x, dose: 20 g per kg oils}]\n");
  CHECK(batter(with) - batter(without) == Approx(10).margin(0.1));
  bool listed = false;
  for (const auto& line : with["list"]) listed = listed || line["name"] == "kaolin";
  CHECK(listed);
}

// A metric teaspoon is 5 mL; mica 0.45 g/mL loose, recalled.
TEST_CASE("colours by the spoon are weighed, and said to be", "[sheet][spoon]") {
  const auto grams = [](const std::string& with) {
    const Json all = read_sheet("    colours: [{name: a, with: [{" + with + "}]}]\n");
    return all["parts"][0]["colours"][0]["with"][0]["grams"].get<double>();
  };
  CHECK(grams("mica: 2 tsp") == Approx(2 * 5 * 0.45));
  CHECK(grams("mica: 1 tbsp") == Approx(3 * 5 * 0.45).margin(0.051));
  CHECK(grams("mica: 1 tsp per lb oils") == Approx(5 * 0.45 * 1000 / 453.59237).margin(0.051));
  CHECK(grams("mica: 1 tsp per kg oils") == Approx(5 * 0.45).margin(0.051));
  CHECK(grams("glitter: 2 tsp, spoon-weighs: 3 g") == Approx(6));
  const std::string text = shown("    colours: [{name: a, with: [{mica: 8 tsp per kg batter}]}]\n");
  CHECK_THAT(text, Contains("tsp of 5 mL (a level one is taken as 2.2 g") &&
                       Contains("it may bleed into foam and cloth"));
  CHECK_THAT(refused_sheet("    colours: [{name: a, with: [{glitter: 2 tsp}]}]\n"),
             Contains("b.yaml:9:42: what does a teaspoon of 'glitter' weigh?") &&
                 Contains("spoon-weighs: 2.4 g"));
  CHECK_THAT(refused_sheet("    into-lye: [{salt: 2 tsp in all}]\n"),
             Contains("what meets the lye is weighed, never spooned"));
  CHECK_THAT(refused_sheet("    additives: [{kaolin: 2 g in all, spoon-weighs: 3 g}]\n"),
             Contains("'spoon-weighs' beside a dose that is not in spoons"));
}

TEST_CASE("embeds take up room by their volume", "[sheet][looks]") {
  const double empty = batter(weighed(loaf("")));
  const auto with = [&](const std::string& size) {
    return empty -
           batter(weighed(loaf("    embeds: [{name: core, " + size + ", from-lot: A-1}]\n")));
  };
  // 250 mm of 40 mm: 314.2 mL, 309.4 g of batter at 0.985 g/mL.
  CHECK(with("round: [250 mm, 40 mm]") == Approx(314.16 * 0.985).margin(3));
  CHECK(with("box: [250 mm, 20 mm, 20 mm], count: 2") ==
        Approx(200 * 0.985).margin(4));  // two batters, each of 4 lines in steps
  CHECK(with("volume: 100 mL") == Approx(98.5).margin(3));
  CHECK(with("grams: 103 g") == Approx(98.5).margin(3));  // set soap 1.03 g/mL, judgement
  const auto refused = [](const std::string& size) {
    return flat(sheet_of_text(loaf("    embeds: [{name: core, " + size + "from-lot: A-1}]\n")).err);
  };
  CHECK_THAT(refused(""), Contains("how much are the embeds 'core'?"));
  CHECK_THAT(refused("grams: 10 g, volume: 10 mL, "), Contains("b.yaml:"));
  CHECK_THAT(refused("volume: 5 L, "), Contains("no room is left for batter"));
  CHECK_THAT(refused("volume: 5 kg, "), Contains("b.yaml:"));
}

// Common practice, no source, all of it.
TEST_CASE("the maker's own words for a pour bring what they ask of the batter", "[sheet][looks]") {
  const std::string colours =
      "    colours: [{name: reed, share: 25 %}, {name: mud, share: 75 %}]\n";
  const auto poured = [&](const std::string& pour) {
    const Ran ran = sheet_of_text(loaf(colours + "    pour: " + pour + "\n") +
                                  "after: {stamp: yes, bevel: yes}\n");
    INFO(ran.err);
    REQUIRE(ran.exit_code == 0);
    return flat(ran.out);
  };
  const std::string layers = poured("[a layer of reed, a layer of mud]");
  CHECK_THAT(layers,
             Contains("a layer of reed. a layer of mud.") && Contains("reed 15 mm, mud 45 mm"));
  CHECK_THAT(layers, Contains("Stamp from about") && Contains("Bevel after") && Contains("Ash:"));
  CHECK_THAT(poured("swirl in the pot"), Contains("one turn of a spatula"));
  CHECK_THAT(poured("drops of mud"), Contains("high goes deep"));
  CHECK_THAT(poured("as it likes"), !Contains("high goes deep") && !Contains("Layers:"));
}
