#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Json = nlohmann::json;
using Catch::Matchers::Contains;

namespace {

/// An invented batch of 2 kg of oils in one part.
std::string own(const std::string& lye_pot, const std::string& lye,
                const std::string& superfat = "5 %") {
  static int number = 0;
  const std::string path =
      "/tmp/barwright-slip-" + std::to_string(getpid()) + "-" + std::to_string(number++) + ".yaml";
  std::ofstream(path, std::ios::binary)
      << "batch: own\nscale: {oils: 1 g, lye: 0.1 g}\nmake: {oils: 2000 g}\nlye-pot: " << lye_pot
      << "\nlye: {" << lye << "}\nparts:\n  body:\n    superfat: " << superfat
      << "\n    blend: {olive: 55 %, coconut: 35 %, castor: 10 %}\n"
         "    additives: [{oat flour: 20 g in all}, {goat milk: 100 g in all}]\n";
  return path;
}

const std::string kSoda = "alkali: sodium hydroxide, concentration: 33 %";
const std::string kPotash =
    "alkali: potassium hydroxide, strength: {potassium hydroxide: 90 %}, concentration: 33 %";
const std::string kMixed =
    "alkali: {sodium hydroxide: 50 %, potassium hydroxide: 50 %, by: moles}, strength: {sodium "
    "hydroxide: 99 %, potassium hydroxide: 90 %}, concentration: 33 %";

Json part_of(const std::string& file, const std::string& slips) {
  const Ran ran = run_barwright("rescue " + file + " --json " + slips);
  INFO(ran.err);
  REQUIRE(ran.exit_code == 0);
  return Json::parse(ran.out)["parts"][0];
}

std::string refused(const std::string& file, const std::string& slips) {
  const Ran ran = run_barwright("rescue " + file + " " + slips);
  CHECK(ran.exit_code == 2);
  CHECK(ran.out.empty());
  return ran.err;
}

double superfat(const Json& part) { return part["now"]["superfat_percent"].get<double>(); }

}  // namespace

TEST_CASE("the wrong jar: potash in place of soda is reckoned, and soda in place of potash burns",
          "[rescue]") {
  // By hand: the same grams hold 39.997 / 56.105 of the moles. Planned S of the fat's need stay:
  // 1 - (1 - S) * 0.7129.
  const auto soda = part_of(own("each part", kSoda), "--swapped \"potassium hydroxide for NaOH\"");
  const double planned = soda["planned"]["superfat_percent"].get<double>() / 100;
  CHECK(superfat(soda) == Approx(100 * (1 - (1 - planned) * 39.997 / 56.105)).epsilon(1e-4));
  CHECK(soda["verdict"] != "safe");
  // 90 % potash by the file; soda is taken as pure: 56.105 / 39.997 / 0.9 of the moles.
  for (const char* pot : {"one", "each part"}) {
    const auto potash = part_of(own(pot, kPotash), "--swapped \"NaOH for potassium hydroxide\"");
    CHECK(superfat(potash) < -30);
    CHECK(potash["verdict"] != "safe");
  }
}

TEST_CASE("only like and like are swapped", "[rescue]") {
  const std::string soda = own("each part", kSoda);
  CHECK_THAT(refused(towpath(), "--swapped \"oat flour and yard mix\""),
             Contains("only like and like can be swapped"));
  CHECK_THAT(refused(towpath(), "--swapped \"NaOH and coconut\" --part body"),
             Contains("only like and like can be swapped"));
  CHECK_THAT(refused(soda, "--swapped \"NaOH and coconut\""), Contains("'coconut' is a fat"));
  CHECK_THAT(refused(soda, "--swapped \"water and coconut\""), Contains("'water' is water"));
  CHECK_THAT(refused(soda, "--swapped \"coconut for water\""), Contains("only like and like"));
  CHECK_THAT(refused(soda, "--swapped \"olive and olive\""), Contains("the same line"));
  CHECK_THAT(refused(towpath(), "--swapped \"olive and coconut\" --part body"),
             Contains("inside the premixed 'yard mix'"));
  CHECK(part_of(soda, "--swapped \"oat flour and goat milk\"")["verdict"] == "safe");
}

TEST_CASE("lye is the solution, and a word that is two things is asked about", "[rescue]") {
  const std::string soda = own("each part", kSoda);
  // By hand: 33 % lye, 287.8 g of NaOH in 785.1 g; 50 g of it hold 18.3 g, 6.4 % of what is needed.
  const Json part = part_of(soda, "--too-little \"lye 50 g\"");
  CHECK(superfat(part) == Approx(5.03 + 94.97 * 50 / 785.1).margin(0.02));
  CHECK(part["fixes"][0]["grams"].get<double>() == Approx(18.4).margin(0.2));
  CHECK_THAT(refused(soda, "--too-little \"alkali 50 g\""),
             Contains("Say 'sodium hydroxide' (dry), or 'lye'"));
  CHECK_THAT(refused(soda, "--forgot \"soda lye\""), Contains("may be the dry alkali"));
}

TEST_CASE("water short is judged by what dissolves", "[rescue]") {
  const std::string soda = own("each part", kSoda);
  const Json part = part_of(soda, "--too-little \"water 400 g\"");
  CHECK(part["verdict"] == "hold");
  CHECK_THAT(part["say"][0].get<std::string>(), Contains("above 50 % it does not dissolve"));
  // 287.8 g in 497.3 - 150 g is 45 %: it dissolves, and the lye stays what it is.
  CHECK(part_of(soda, "--too-little \"water 150 g\"")["verdict"] == "safe");
  CHECK_THAT(refused(soda, "--too-little \"water 600 g\""), Contains("holds only 497.3 g"));
  // Shared out by weight, a pot not topped up gives every part too much; topped up, none.
  const Json shared = part_of(towpath(), "--too-little \"water 100 g\"");
  CHECK(shared["verdict"] == "mend");
  CHECK(shared["now"]["worst_percent"].get<double>() < 0);
  CHECK_THAT(shared["fixes"][0]["how"].get<std::string>(), Contains("top it up with water"));
}

TEST_CASE("in a pot of two alkalis a gram of one is not a gram of the other", "[rescue]") {
  const std::string mixed = own("one", kMixed, "7 %");
  const Json part = part_of(mixed, "--too-much \"NaOH 100 g\"");
  REQUIRE(part["fixes"].size() >= 1);
  const auto& fix = part["fixes"][0];
  CHECK(fix["add"] == "lye");
  CHECK(fix["after"]["superfat_percent"].get<double>() == Approx(7).margin(0.1));
  // By hand: 1026.4 g held 7.05 mol; with 2.475 mol (99 g / 39.997) more, 1126.4 g hold 9.52. By
  // grams of alkali it would be 871 g, and 2.8 % superfat.
  const std::string how = fix["how"];
  const std::string from = "Weigh out ";
  CHECK(std::stod(how.substr(how.find(from) + from.size())) ==
        Approx(1026 * 7.05 / 1026.4 / (9.525 / 1126.4)).margin(1));
}

TEST_CASE("milk and its fat are one line", "[rescue]") {
  const std::string soda = own("each part", kSoda);
  const Json milk = part_of(soda, "--forgot \"goat milk\"");
  CHECK(superfat(milk) < 4.9);
  CHECK(milk["now"] == part_of(soda, "--forgot \"fat of goat milk\"")["now"]);
}

TEST_CASE("forgotten lye is put in, of either alkali", "[rescue]") {
  for (const auto& lye : {kSoda, kPotash}) {
    const std::string file = own("each part", lye);
    const Json part = part_of(file, "--forgot lye");
    CHECK(part["verdict"] == "mend");
    CHECK(superfat(part) == Approx(100));
    CHECK(part["fixes"][0]["add"] == "lye");
    CHECK(part["fixes"][0]["after"]["superfat_percent"].get<double>() == Approx(5).margin(0.1));
  }
  CHECK_THAT(refused(own("each part", kPotash), "--forgot NaOH"), Contains("is in no part"));
}

TEST_CASE("weights that cannot be are refused", "[rescue]") {
  const std::string soda = own("each part", kSoda);
  CHECK_THAT(refused(soda, "--too-much \"NaOH -20 g\""), Contains("has no sign"));
  CHECK_THAT(refused(soda, "--too-much \"NaOH - 20 g\""), Contains("has no sign"));
  CHECK_THAT(refused(soda, "--too-little \"castor 500 g\""), Contains("holds only 200 g"));
  CHECK_THAT(refused(soda, "--too-much \"NaOH 0 g\""), Contains("above zero"));
}

TEST_CASE("a hold prints no fix; alkali still dry is taken back", "[rescue]") {
  const std::string soda = own("each part", kSoda);
  const Json much = part_of(soda, "--too-much \"NaOH 200 g\"");
  REQUIRE(much["fixes"].size() == 1);
  CHECK_THAT(much["fixes"][0]["how"].get<std::string>(),
             Contains("Still dry") && Contains("take 200 g") && Contains("shows 287.8 g"));
  CHECK(much["fixes"][0]["after"]["superfat_percent"].get<double>() ==
        Approx(much["planned"]["superfat_percent"].get<double>()).margin(0.01));
  // So much that it would not even dissolve: the same way while dry, and no other.
  const Json more = part_of(soda, "--too-much \"NaOH 300 g\"");
  CHECK(more["verdict"] == "mend");
  REQUIRE(more["fixes"].size() == 1);
  CHECK_THAT(more["fixes"][0]["how"].get<std::string>(), Contains("take 300 g"));
  CHECK_THAT(more["say"].dump(), Contains("does not dissolve") && Contains("Past that: hold it"));
  // Lye too much is no longer dry: less of it is weighed out.
  const Json lye = part_of(soda, "--too-much \"lye 50 g\"");
  CHECK_THAT(lye["fixes"][0]["how"].get<std::string>(), Contains("Weigh out 785.1 g"));
  CHECK(lye["fixes"].dump().find("Still dry") == std::string::npos);
  const std::string say = much["say"].dump();
  CHECK_THAT(say, Contains("Past that: hold it"));
  const Json held = part_of(soda,
                            "--swapped \"castor for olive\" --too-much \"coconut 1 g\" "
                            "--strength \"NaOH 100 %\" --forgot water");
  CHECK(held["verdict"] == "hold");
  CHECK(held["fixes"].empty());
}

TEST_CASE("a jar of another strength, and several slips on one pot", "[rescue]") {
  const std::string mixed = own("one", kMixed, "7 %");
  const Json strong = part_of(mixed, "--strength \"KOH 100 %\"");
  // Half of the moles are a ninth more: 93.0 % x (1 + 0.1111 / 2) = 98.2 %.
  CHECK(superfat(strong) == Approx(100 - 93 * (1 + 1 / 18.0)).margin(0.1));
  CHECK(strong["verdict"] == "mend");
  const std::string soda = own("each part", kSoda);
  CHECK(superfat(part_of(soda, "--strength \"NaOH 90 %\"")) ==
        Approx(100 - 94.97 * 0.9).margin(0.1));
  CHECK_THAT(refused(soda, "--strength \"NaOH 20 %\""), Contains("between 50 and 100 %"));
  CHECK_THAT(refused(soda, "--strength \"castor 90 %\""), Contains("has no strength"));
  // Each alone is safe, or mended; together they are judged as one pot.
  CHECK(part_of(soda, "--too-much \"NaOH 4 g\"")["verdict"] == "safe");
  CHECK(part_of(soda, "--too-little \"olive 30 g\"")["verdict"] == "safe");
  const Json both = part_of(soda, "--too-much \"NaOH 4 g\" --too-little \"olive 30 g\"");
  CHECK(both["verdict"] == "mend");
  CHECK(both["now"]["worst_percent"].get<double>() < 0);
  const Json two = part_of(soda, "--forgot castor --forgot coconut");
  CHECK(two["fixes"][0]["add"] == "coconut and castor");
  CHECK(two["fixes"][0]["grams"].get<double>() == Approx(900));
}
