#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Json = nlohmann::json;

TEST_CASE("a costly butter out of the winter bar, as JSON", "[swap]") {
  const Ran ran = run("barwright swap examples/butter-out.yaml --json");
  REQUIRE(ran.exit_code == 0);
  const Json out = Json::parse(ran.out);
  CHECK(out["schema"] == 2);
  CHECK(out["command"] == "swap");
  CHECK(out["status"] == "optimal");
  const Json& swap = out["swap"];
  double mango = 0, sum = 0;
  for (const auto& line : swap["oils"]) {
    sum += line["after_percent"].get<double>();
    if (line["oil"] == "mango butter") mango = line["after_percent"];
  }
  CHECK(sum == Approx(100).margin(0.01));
  CHECK(mango <= 3.001);
  CHECK(swap["saving"]["per_bar"].get<double>() >= 0.05);
  for (const auto& term : swap["feel"]["terms"]) {
    CHECK(std::abs(term["steps"].get<double>()) <= 1 + 1e-6);
  }
  // Money falls as feel is kept less: the price of feel never pays for a worse feel.
  const Json& points = swap["price_of_feel"]["points"];
  REQUIRE(points.size() >= 3);
  for (std::size_t i = 1; i < points.size(); ++i) {
    CHECK(points[i]["saved_per_bar"].get<double>() > points[i - 1]["saved_per_bar"].get<double>());
  }
  CHECK(swap["price_of_feel"]["proved"] == true);
  CHECK(swap["test_first"]["new"]["oils_grams"] == 500);
}

TEST_CASE("what a swap touches outside the pot comes before the pot", "[swap]") {
  const Ran ran = run("barwright swap examples/butter-out.yaml");
  REQUIRE(ran.exit_code == 0);
  const auto outside = ran.out.find("OUTSIDE THE POT");
  REQUIRE(outside != std::string::npos);
  CHECK(ran.out.find("safety assessment") != std::string::npos);
  CHECK(outside < ran.out.find("OLD AND NEW"));
  CHECK(ran.out.find("WHAT IS FELT") < ran.out.find("THE BLEND"));
}

TEST_CASE("a swap straight from a recipe", "[swap]") {
  const Ran ran =
      run("barwright swap examples/yard-bar.yaml --out coconut --keep-at-most '10 %' --using shelf "
          "--using 'palm kernel' --json");
  REQUIRE(ran.exit_code == 0);
  const Json out = Json::parse(ran.out);
  // 10 % in steps, as written; weighed, within half a step of the 1 g scale.
  const double half_a_gram = 50.0 / out["recipe"]["oils_grams"].get<double>();
  for (const auto& line : out["swap"]["oils"]) {
    if (line["oil"] == "coconut")
      CHECK(line["after_percent"].get<double>() <= 10 + half_a_gram + 1e-9);
  }
  for (const auto& line : out["blend"]) {
    if (line["oil"] == "coconut") CHECK(line["percent"].get<double>() <= 10.001);
  }
}

TEST_CASE("a swap asked for wrongly is told how to ask", "[swap]") {
  CHECK(run("barwright swap examples/yard-bar.yaml").exit_code == 2);
  CHECK(run("barwright swap examples/yard-bar.yaml --out moonbutter").exit_code == 2);
  CHECK(run("barwright swap examples/yard-bar.yaml --out palm").exit_code == 2);
  CHECK(run("barwright swap examples/butter-out.yaml --out olive").exit_code == 2);
  CHECK(run("barwright swap examples/yard-bar.yaml --out coconut --keep-at-most 4").exit_code == 2);
}

TEST_CASE("nothing that cannot be told apart: the way out is shown, exit 4", "[swap]") {
  const std::string folder = fresh_folder("swap-nothing");
  spill(folder + "/b.yaml",
        "brief: bar without its butter\n"
        "recipe: {blend: {olive: 60 %, mango butter: 34 %, castor: 6 %}, superfat: 5 %}\n"
        "replace: {mango butter: none}\nusing: [olive]\n"
        "keep: {feel: not to be told apart at the basin}\n");
  const Ran ran = run("barwright swap b.yaml", folder);
  CHECK(ran.exit_code == 4);
  CHECK(ran.out.find("THE NEAREST THERE IS") != std::string::npos);
}

TEST_CASE("delivery and the half pail left over are counted where a price list says", "[swap]") {
  const std::string folder = fresh_folder("swap-prices");
  spill(folder + "/list.csv",
        "# currency: EUR\noil,pack,price\nsal butter,1 kg,9.00\nillipe,1 kg,12.00\n"
        "hydrogenated soybean,1 kg,4.00\n");
  const Ran ran = run("barwright swap examples/butter-out.yaml --prices " + folder +
                      "/list.csv --delivery 5 --json");
  REQUIRE(ran.exit_code == 0);
  const Json swap = Json::parse(ran.out)["swap"];
  const Json& order = swap["first_order"];
  REQUIRE(order.is_object());
  double left = 0;
  for (const auto& item : order["items"]) {
    left += item["left_worth"].get<double>();
    CHECK(item["left_grams"].get<double>() < item["pack_grams"].get<double>());
  }
  const double bars = swap["saving"]["bars"];
  CHECK(order["saved_per_bar"].get<double>() * bars ==
        Approx(swap["saving"]["per_batch"].get<double>() - left - 5));
}

TEST_CASE("what may take the place comes from another shelf, or from a price list", "[swap]") {
  const std::string folder = fresh_folder("swap-using");
  spill(folder + "/barn-shelf.yaml",
        "shelf: the barn\ncurrency: EUR\nlists: {Mill Lane: {oil: What, price: Asks}}\n"
        "stock: [{oil: babassu, have: 2 kg, price: 4.10 per kg}]\n");
  spill(folder + "/list.csv", "What,Pack,Asks\nbabassu,1 kg,4.40\nmurumuru butter,1 kg,30.00\n");
  spill(folder + "/pounds.csv", "# currency: GBP\noil,pack,price\nbabassu,1 kg,4.40\n");
  const std::string swap =
      "barwright swap examples/yard-bar.yaml --out coconut --keep-at-most '10 %' --json --using ";
  const Ran barn = run(swap + folder + "/barn-shelf.yaml");
  INFO(barn.err);
  REQUIRE(barn.exit_code == 0);
  const Json there = Json::parse(barn.out)["swap"];
  double kernel = 0;
  for (const auto& line : there["oils"]) {
    if (line["oil"] != "babassu") continue;
    kernel = line["after_percent"];
    CHECK(line["short_grams"] == 0.0);  // 2 kg stand in the barn
  }
  CHECK(kernel > 5);
  CHECK(there["saving"].is_object());  // priced by the barn

  const Ran list = run(swap + folder + "/list.csv --using " + folder + "/barn-shelf.yaml");
  INFO(list.err);
  REQUIRE(list.exit_code == 0);  // its columns as the barn's shelf says
  const Ran bought = run(swap + folder + "/list.csv");
  CHECK(bought.exit_code == 3);  // the yard's shelf does not know these headings
  CHECK(bought.err.find("lists:") != std::string::npos);
  CHECK(run(swap + folder + "/pounds.csv").err.find("no rate of exchange") != std::string::npos);
  CHECK(run(swap + folder + "/none.yaml").exit_code == 3);
  CHECK(run(swap + folder + "/list.csv --prices " + folder + "/pounds.csv").exit_code == 2);

  // The same from a brief, found from its folder.
  spill(folder + "/bar.yaml",
        "name: bar\nblend: {olive: 60 %, coconut: 30 %, castor: 10 %}\nsuperfat: 5 %\n");
  spill(folder + "/brief.yaml",
        "brief: bar without coconut\nrecipe: bar.yaml\nreplace: {coconut: at most 20 %}\n"
        "using: [barn-shelf.yaml]\n");
  const Ran brief = run("barwright swap brief.yaml --json", folder);
  INFO(brief.err);
  CHECK(brief.exit_code == 0);
  CHECK(brief.out.find("babassu") != std::string::npos);
}
