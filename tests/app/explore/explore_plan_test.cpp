// A buying plan worked by hand: tax and delivery are counted once, and spread as asked.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Json = nlohmann::json;

namespace {

// Half olive, half coconut, two batches of 1000 g: 1 kg of each.
const std::string kBrief =
    "brief: half and half\noils-from: list.csv\nshelf: empty-shelf.yaml\nalready-have: shelf\n"
    "sales-plan: {bars: 20, in-batches-of: 10}\nmake: {oils: 1000 g, bars: 10}\n"
    "want:\n  - {for: plain bar, hardness: at least 1}\n"
    "limits: {olive: exactly 50 %, coconut: exactly 50 %}\n";
// 5 kg at 20.00 and 2 kg at 10.00, 10 % tax on top: 22.00 and 11.00.
const std::string kShelf =
    "shelf: empty\ncurrency: EUR\nlists:\n  Mill Lane:\n    oil: What\n    pack: Pack\n"
    "    price: Net\n    tax: 10 %\nstock: []\n";
const std::string kList = "What,Pack,Net\nolive,5 kg,20.00\ncoconut,2 kg,10.00\n";

struct Place {
  explicit Place(const std::string& name) : folder(fresh_folder(name)) {
    spill(folder + "/list.csv", kList);
    spill(folder + "/empty-shelf.yaml", kShelf);
  }
  Ran explore(const std::string& money, const std::string& options = "--json") const {
    spill(folder + "/brief.yaml", kBrief + money);
    return run("barwright explore brief.yaml " + options, folder);
  }
  std::string folder;
};

}  // namespace

TEST_CASE("tax and delivery are in the cash once, delivery spread by weight", "[explore]") {
  const Place place("explore-landed");
  const Ran ran = place.explore("money: {delivery: {flat: 7 EUR}}\n");
  INFO(ran.err);
  REQUIRE(ran.exit_code == 0);
  const Json out = Json::parse(ran.out);
  const Json& plan = out["plan"];
  CHECK(plan["proved"] == true);
  CHECK(plan["goods"].get<double>() == Approx(33));  // 22 + 11
  CHECK(plan["delivery"].get<double>() == Approx(7));
  CHECK(plan["cash"].get<double>() == Approx(40));
  REQUIRE(plan["buys"].size() == 2);
  double landed = 0;
  for (const auto& buy : plan["buys"]) {
    landed += buy["landed"].get<double>();
    const bool olive = buy["oil"] == "olive";
    CHECK(buy["pack_price"].get<double>() == Approx(olive ? 22 : 11));
    CHECK(buy["landed"].get<double>() == Approx(olive ? 27 : 13));  // 7.00 by 5 kg and 2 kg
    CHECK(buy["landed_per_kg"].get<double>() == Approx(olive ? 5.40 : 6.50));
  }
  CHECK(landed == Approx(plan["cash"].get<double>()));
  // 1 kg of each over 20 bars: (5.40 + 6.50) / 20.
  CHECK(plan["blends"][0]["oil_cost_per_bar"].get<double>() == Approx(0.595));
  for (const auto& left : plan["left_over"]) {
    const bool olive = left["oil"] == "olive";
    CHECK(left["bought_grams"].get<double>() == Approx(olive ? 4000 : 1000));
    CHECK(left["bought_worth"].get<double>() == Approx(olive ? 21.60 : 6.50));
  }
  // Prices per kg hold the list's tax: 4.40 and 5.50, half of each.
  CHECK(out["bars"][0]["price_may_rise_to"][0]["now_per_kg"].get<double>() ==
        Approx(out["bars"][0]["price_may_rise_to"][0]["oil"] == "olive" ? 4.40 : 5.50));
}

TEST_CASE("delivery by value, and none from the sum on that frees it", "[explore]") {
  const Place place("explore-landed-value");
  const Json by_value =
      Json::parse(place.explore("money: {delivery: {flat: 7 EUR, spread: by value}}\n").out);
  for (const auto& buy : by_value["plan"]["buys"]) {
    // 7.00 by 22 and 11: 4.67 and 2.33 as sums, thirds of a cent in the prices per kg.
    const bool olive = buy["oil"] == "olive";
    CHECK(buy["landed"].get<double>() == Approx(olive ? 26.67 : 13.33));
    CHECK(buy["landed_per_kg"].get<double>() ==
          Approx(olive ? 80.0 / 3 / 5 : 40.0 / 3 / 2).epsilon(1e-12));
  }
  const Json free_over =
      Json::parse(place.explore("money: {delivery: {flat: 7 EUR, free-over: 33 EUR}}\n").out);
  CHECK(free_over["plan"]["cash"].get<double>() == Approx(33));
}

TEST_CASE("the plan in text and as CSV, with units", "[explore]") {
  const Place place("explore-landed-text");
  const std::string money =
      "money: {delivery: {flat: 7 EUR}, oil-cost: at most 0.50 EUR per bar}\n";
  const Ran text = place.explore(money, "");
  CHECK(text.exit_code == 0);
  for (const char* line : {"1 x  olive     5 kg  22.00 EUR   5.40 EUR/kg",
                           "1 x  coconut   2 kg  11.00 EUR   6.50 EUR/kg",
                           "cash out        40.00 EUR", "Prices hold 10 % tax.",
                           "EUR a bar with delivery in it; 'oil-cost: at most 0.50 EUR per"}) {
    INFO(line << "\n" << text.out);
    CHECK(text.out.find(line) != std::string::npos);
  }
  const std::string csv = place.explore(money, "--csv").out;
  for (const char* row :
       {"buy,,olive,1,packs of 5 kg\n", "price,,olive,22,EUR\n",
        "price with delivery,,olive,27,EUR\n", "delivery,,,7,EUR\n", "cash out,,,40,EUR\n",
        "oils of a bar,plain bar,,0.595,EUR\n", "as planned,plain bar,coconut,50,%\n",
        "left of what is bought,,coconut,1000,g\n"}) {
    INFO(row << "\n" << csv);
    CHECK(csv.find(row) != std::string::npos);
  }
}

TEST_CASE("what a plan cannot honour is refused at its line", "[explore]") {
  const Place place("explore-refused");
  struct Case {
    const char *money, *says;
  };
  for (const auto& one :
       {Case{"money: {packs: any weight}\n", "brief.yaml:10:16: a plan buys whole packs only"},
        Case{"money: {spend-now: at most 50 EUR, delivery: {flat: 7 EUR}}\n",
             "with or without delivery?"},
        Case{"money: {delivery: {flat: 7 EUR, spread: by colour}}\n", "by weight"},
        Case{"money: {delivery: {flat: 7 GBP}}\n", "GBP"},
        Case{"curves: [cost against hardness, cost against titre]\n",
             "brief.yaml:10:33: 'cost against titre' is no curve"}}) {
    const Ran ran = place.explore(one.money, "");
    INFO(one.money << ran.err);
    CHECK(ran.exit_code == 3);
    CHECK(ran.err.find(one.says) != std::string::npos);
    CHECK(ran.out.empty());
  }
}

TEST_CASE("curves asked for in the brief", "[explore]") {
  const Place place("explore-curves");
  std::string brief = kBrief;
  brief.replace(brief.find("limits:"), std::string::npos, "limits: {olive: at least 40 %}\n");
  spill(place.folder + "/curves.yaml", brief + "curves: [cost against hardness]\n");
  const Json out =
      Json::parse(run("barwright explore curves.yaml --points 3 --json", place.folder).out);
  const Json& curves = out["bars"][0]["curves"];
  REQUIRE(curves.size() == 1);
  CHECK(curves[0]["up"] == "cost, EUR per kg");
  CHECK(curves[0]["across"] == "hardness, points");
  CHECK(curves[0]["points"].size() == 3);
  CHECK(curves[0]["proved"] == true);
}

TEST_CASE("a wrong row of the price list is named, and left out only when asked", "[explore]") {
  const Place place("explore-row");
  spill(place.folder + "/list.csv", kList + "moonshine,1 kg,3\n");
  const Ran no = place.explore("");
  CHECK(no.exit_code == 3);
  CHECK(no.err.find("list.csv:4:1: 'moonshine' is no oil we know") != std::string::npos);
  const Ran yes = place.explore("", "--skip-wrong-rows --json");
  CHECK(yes.exit_code == 0);
  CHECK(yes.err.find("left out: list.csv:4") != std::string::npos);
  CHECK(Json::parse(yes.out)["skipped_rows"][0]["line"] == 4);
}

TEST_CASE("what the shelf holds is not bought", "[explore]") {
  const Place place("explore-nothing");
  std::string shelf = kShelf;
  shelf.replace(shelf.find("stock: []"), 9,
                "stock:\n  - {oil: olive, have: 2 kg, price: 5.00 per kg}\n"
                "  - {oil: coconut, have: 2 kg, price: 6.00 per kg}\n");
  spill(place.folder + "/empty-shelf.yaml", shelf);
  const Ran ran = place.explore("money: {delivery: {flat: 7 EUR}}\n", "");
  CHECK(ran.exit_code == 0);
  CHECK(ran.out.find("Nothing: the shelf holds enough") != std::string::npos);
  CHECK(ran.out.find("plain bar     0.55 EUR") != std::string::npos);  // (5 + 6) / 20
}

TEST_CASE("out of time, explore says what was not proved, exit 5", "[explore]") {
  const Ran none = run("barwright explore examples/spring-line.yaml --within 1ms");
  CHECK(none.exit_code == 5);
  CHECK(none.out.find("in the time given") != std::string::npos);
  CHECK(run("barwright explore examples/spring-line.yaml --within soon").exit_code == 2);
  CHECK(run("barwright swap examples/butter-out.yaml --within soon").exit_code == 2);
}
