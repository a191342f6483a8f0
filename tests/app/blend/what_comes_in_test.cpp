#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

const std::string kFolder = fresh_folder("comes-in");

/// The recipe part of `weigh --json` for an olive and coconut blend with these lines.
json weighed(const std::string& lines) {
  spill(kFolder + "/r.yaml", "name: r\nblend: {olive: 75 %, coconut: 25 %}\n" + lines);
  const Ran ran = run("barwright weigh r.yaml --json", kFolder);
  INFO(ran.err);
  REQUIRE(ran.exit_code == 0);
  return json::parse(ran.out)["recipe"];
}

std::string refused(const std::string& lines) {
  spill(kFolder + "/r.yaml", "name: r\nblend: {olive: 75 %, coconut: 25 %}\n" + lines);
  const Ran ran = run("barwright weigh r.yaml", kFolder);
  CHECK(ran.exit_code == 3);
  return ran.err;
}

double lye(const json& recipe) { return recipe["lye"][0]["grams"].get<double>(); }

std::string batch(const std::string& pot, const std::string& lye, const std::string& body) {
  return "batch: b\nmake: {oils: 2000 g, bars: 20}\nlye-pot: " + pot + "\n" + lye +
         "parts:\n  body:\n    blend: {olive: 70 %, coconut: 30 %}\n" + body +
         "  top:\n    blend: {olive: 70 %, coconut: 30 %}\n    size: {per-bar: 20 g}\n    method: "
         "thick trace\n"
         "scale: {oils: 1 g, lye: 0.1 g}\n";
}

Ran sheet(const std::string& text, const std::string& how = "") {
  spill(kFolder + "/b.yaml", text);
  return run("barwright sheet b.yaml " + how, kFolder);
}

/// Runs of spaces and line ends as one space: the screen wraps.
std::string flat(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool space = c == ' ' || c == '\n';
    if (!space || (!out.empty() && out.back() != ' ')) out += space ? ' ' : c;
  }
  return out;
}

int count(const std::string& text, const std::string& what) {
  int n = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

}  // namespace

TEST_CASE("a doubted certificate stops a recipe, a confirmed one is said beside it") {
  spill(kFolder + "/r.yaml", "name: r\nshelf: s.yaml\nblend: {olive: 600 g, coconut: 250 g}\n");
  const auto shelf = [&](const std::string& certificate) {
    spill(kFolder + "/s.yaml",
          "shelf: s\nstock:\n  - {oil: olive, have: 5 kg, lot: A, certificate: {" + certificate +
              "}}\n  - {oil: coconut, have: 5 kg}\n");
  };
  shelf("saponification-value: 190 mg NaOH/g");
  const Ran no = run("barwright weigh r.yaml", kFolder);
  CHECK(no.exit_code == 3);
  CHECK_THAT(no.err, Contains("s.yaml:3:") && Contains("266.5") && Contains("confirmed:"));
  shelf("saponification-value: 199 mg KOH/g, confirmed: second analysis agrees");
  const Ran yes = run("barwright weigh r.yaml", kFolder);
  CHECK(yes.exit_code == 0);
  CHECK_THAT(yes.out, Contains("second analysis agrees"));
  CHECK_THAT(run("barwright weigh r.yaml --json", kFolder).out, Contains("second analysis agrees"));
}

TEST_CASE("acids are counted by their strength and form") {
  // 20 g anhydrous use up 20 x 0.6245 = 12.5 g NaOH; 40 g of a 50 % solution the same.
  const std::string scale = "scale: {oils: 1 g, lye: 0.1 g}\noils: 1000 g\n";
  const double none = lye(weighed(scale));
  CHECK(lye(weighed(scale + "lye: {acids: [{citric acid anhydrous: 20 g in all}]}\n")) - none ==
        Approx(12.5).margin(0.11));
  CHECK(lye(weighed(scale + "lye: {acids: [{citric acid anhydrous 50 %: 40 g in all}]}\n")) -
            none ==
        Approx(12.5).margin(0.11));
  CHECK_THAT(refused("lye: {acids: [{citric acid 50 %: 40 g in all}]}\n"), Contains("two forms"));
  CHECK_THAT(refused("lye: {acids: [{amino acid: 4 g in all}]}\n"), Contains("known are"));
  CHECK_THAT(refused("lye: {acids: [{lactic acid: 4 g in all}]}\n"), Contains("no strength"));
}

TEST_CASE("liquids are what their whole name says") {
  for (const char* name :
       {"lemon water", "sugar water", "lye water 50 %", "rice milk", "milk powder",
        "epsom salt tea", "water 50 %", "brine", "salt water", "beer 4 %", "wine vinegar"}) {
    CAPTURE(name);
    CHECK_THAT(refused("lye: {liquids: [{" + std::string(name) + ": 100 g in all}]}\n"),
               Contains("r.yaml:3:"));
  }
  for (const char* name :
       {"distilled water", "Chamomile tea", "goat milk", "cow milk", "coconut milk", "oat milk",
        "beer", "red wine", "cider", "aloe vera juice", "coconut water", "sea water", "brine 10 %",
        "pumpkin puree", "avocado puree", "yogurt"}) {
    CAPTURE(name);
    const json recipe =
        weighed("lye: {liquids: [{" + std::string(name) + ": 100 g in all, frozen: yes}]}\n");
    CHECK(recipe["superfat_percent"].get<double>() >= 5);
  }
  CHECK_THAT(refused("lye: {into-lye: [{epsom salt: 10 g in all}]}\n"), Contains("nothing"));
  CHECK_THAT(refused("lye: {into-lye: [{salt of tartar: 10 g in all}]}\n"), Contains("alkali"));
}

TEST_CASE("in all and per bar mean what they say at every size") {
  const auto acid = [](const json& recipe) {
    return recipe["total_grams"].get<double>() - recipe["water_grams"].get<double>();
  };
  const std::string fine = "scale: {oils: 1 g, lye: 0.1 g}\n";
  const std::string dose = "lye: {acids: [{citric acid anhydrous: 20 g in all}]}\n";
  const double plain = acid(weighed(fine + "oils: 3000 g\n"));
  // 20 g and the 12.5 g of alkali for it, not 60 and 37.5.
  CHECK(acid(weighed(fine + "oils: 3000 g\n" + dose)) - plain == Approx(32.5).margin(0.2));
  const json bars = weighed(fine + "make: {bars: 20, each: 100 g, weighed: cut}\n" +
                            "lye: {acids: [{citric acid anhydrous: 1 g per bar}]}\n");
  CHECK(bars["total_grams"].get<double>() == Approx(2000).margin(2));
  CHECK_THAT(refused("make: {bars: 20, each: 100 g, weighed: cut}\n"
                     "scale: {oils: 0.01 g, lye: 0.01 g}\n"
                     "lye: {into-lye: [{salt: 3000 g in all}]}\n"),
             Contains("no room for oils"));
}

TEST_CASE("what a batch doses in all is shared out among its parts") {
  for (const char* pot : {"one", "each part"}) {
    CAPTURE(pot);
    const Ran ran =
        sheet(batch(pot, "lye: {acids: [{citric acid anhydrous: 20 g in all}]}\n", ""), "--json");
    INFO(ran.err);
    REQUIRE(ran.exit_code == 0);
    double all = 0;
    const json all_of_it = json::parse(ran.out);
    for (const auto& line : all_of_it["list"]) {
      if (line["name"] == "citric acid anhydrous") all += line["grams"].get<double>();
    }
    CHECK(all == Approx(20).margin(0.11));
  }
}

TEST_CASE("an acid of a part is weighed once, told in the clock, and missed with a warning") {
  for (const char* pot : {"one", "each part"}) {
    for (const char* as : {"    acids: [{citric acid anhydrous: 15 g per kg oils}]\n",
                           "    additives: [{citric acid anhydrous: 15 g per kg oils}]\n"}) {
      CAPTURE(pot, as);
      const Ran ran = sheet(batch(pot, "", as));
      INFO(ran.err);
      REQUIRE(ran.exit_code == 0);
      const std::string text = flat(ran.out);
      // The list of all, and the one place it is weighed.
      CHECK(count(text, "[ ] citric acid anhydrous 30.0 g") == 2);
      CHECK_THAT(text, Contains("forgotten: LYE LEFT OVER"));
      CHECK_THAT(text, Contains(std::string(pot) == "one" ? "Stir into its oils, before its lye"
                                                          : "poured into made lye it spits"));
    }
  }
}

TEST_CASE("an additive that is an alkali, a fat or a liquid is never uncounted") {
  const auto with = [](const std::string& name) {
    return sheet(batch("each part", "", "    additives: [{" + name + ": 50 g in all}]\n"));
  };
  for (const char* name :
       {"NaOH", "lye", "caustic soda", "baking soda", "washing soda", "potash", "borax", "coconut",
        "shea butter", "tallow", "egg yolk", "clotted cream", "almond butter", "perry",
        "lemon water", "lye water", "malic acid", "raspberry vinegar", "oleic acid"}) {
    CAPTURE(name);
    const Ran ran = with(name);
    CHECK(ran.exit_code == 3);
    CHECK_THAT(ran.err, Contains("b.yaml:"));
  }
  for (const char* name : {"rose mica", "amino acid", "acid blue", "butter yellow mica",
                           "oat flour", "whole milk", "honey", "heavy cream", "beer", "oat milk"}) {
    CAPTURE(name);
    const Ran ran = with(name);
    INFO(ran.err);
    CHECK(ran.exit_code == 0);
  }
}

TEST_CASE("what is told to go into the lye is reckoned there, or refused") {
  for (const char* pot : {"one", "each part"}) {
    CAPTURE(pot);
    for (const char* when : {"into the lye", "lye water, before the alkali", "with the lye"}) {
      const Ran ran = sheet(batch(
          pot, "", "    additives: [{honey: 30 g in all, when: '" + std::string(when) + "'}]\n"));
      CHECK(ran.exit_code == 3);
      CHECK_THAT(flat(ran.err), Contains("b.yaml:7:") && Contains("told to go in by the lye") &&
                                    Contains("'into-lye:'"));
    }
    const Ran top =
        sheet(batch(pot, "", "    top-with: [{honey: 30 g in all, when: into the lye}]\n"));
    CHECK(top.exit_code == 3);
    const Ran apart = sheet(batch(
        pot, "", "    into-lye: [{sodium lactate powder: 30 g in all, when: at light trace}]\n"));
    CHECK(apart.exit_code == 3);
    CHECK_THAT(flat(apart.err), Contains("told to go in elsewhere"));
  }
}
