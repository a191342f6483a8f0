// Which oils a brief lets the search use. Shelves are invented.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "running.hpp"

using namespace barwright::tests;
using nlohmann::json;

namespace {

json blend(const std::string& stock, const std::string& brief) {
  const std::string folder = fresh_folder("candidates");
  spill(folder + "/shelf.yaml", "shelf: test\ncurrency: EUR\nstock:\n" + stock);
  spill(
      folder + "/brief.yaml",
      "brief: test\nmake: {oils: 2000 g}\nshelf: shelf.yaml\nscale: {lye: 0.1 g}\nmanners: none\n" +
          brief);
  const Ran ran = run("barwright blend brief.yaml --json", folder);
  INFO(ran.err);
  REQUIRE(ran.exit_code == 0);
  return json::parse(ran.out);
}

std::set<std::string> oils(const json& answer) {
  std::set<std::string> names;
  for (const auto& one : answer["blend"]) names.insert(one["oil"]);
  return names;
}

double grams(const json& answer, const std::string& oil) {
  for (const auto& one : answer["blend"]) {
    if (one["oil"] == oil) return one["grams"];
  }
  return 0;
}

const std::string kStock =
    "  - {oil: olive, have: 5 kg, price: 6 per kg}\n"
    "  - {oil: coconut, have: 600 g, price: 5 per kg}\n"
    "  - {oil: mango butter, have: 0 g, price: 18 per kg}\n";

}  // namespace

TEST_CASE("never more of an oil than the shelf holds, less what is to stay") {
  CHECK(grams(blend(kStock, "oils-from: shelf\nbest: most hardness\n"), "coconut") == 600);
  CHECK(grams(blend(kStock,
                    "oils-from: shelf\nbest: most hardness\n"
                    "limits: {leave-on-shelf: {coconut: 200 g}}\n"),
              "coconut") == 400);
}

TEST_CASE("an oil named beside the shelf takes its price from a line without stock") {
  const json answer = blend(kStock,
                            "oils-from: [shelf, mango butter]\nbest: cheapest\n"
                            "limits: {mango butter: at least 10 %}\n");
  CHECK(grams(answer, "mango butter") == 200);
  CHECK(answer["left_out"].empty());
}

TEST_CASE("an oil without a price is left out, and said so, when cost is asked for") {
  const json answer =
      blend(kStock + "  - {oil: shea butter, have: 1 kg}\n", "oils-from: shelf\nbest: cheapest\n");
  CHECK(oils(answer) == std::set<std::string>{"coconut", "olive"});
  REQUIRE(answer["left_out"].size() == 2);
  CHECK(answer["left_out"][1]["oil"] == "shea butter");
  CHECK(answer["left_out"][1]["why"] == "no price is known");
}

TEST_CASE("ties are broken by the shelf, then by price") {
  // Any blend fits this wish, so only the tie breakers choose.
  const std::string any = "want: {hardness: at least 1}\n";
  CHECK(oils(blend(kStock, any + "oils-from: [shelf, olive pomace]\n")).count("olive pomace") == 0);
  // Coconut is the cheaper one, 5 against 6 EUR per kg: all 600 g of it go in.
  CHECK(grams(blend(kStock, any + "oils-from: shelf\n"), "coconut") == 600);
}
