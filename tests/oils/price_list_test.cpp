#include "oils/price_list.hpp"

#include <catch2/catch.hpp>

using namespace barwright;
using namespace barwright::oils;

namespace {

const Library& library() {
  static const Library one = Library::embedded();
  return one;
}
PriceList read(const std::string& text, bool skip = false, const std::string& columns = "") {
  return read_price_list_text(text, "list.csv", columns, library(), skip);
}

}  // namespace

TEST_CASE("a supplier's own headings, pack sizes in any unit, decimal commas and tax", "[prices]") {
  const auto list = read(
      "# oil: Product\n# pack: Size\n# price: Net\n# currency: EUR\n# tax: 20 %\n"
      "# name Shea, refined = shea butter\n"
      "Product;Size;Net\nOlive;2 x 5 kg;50,00\nShea, refined;11 lb;30.00\nCastor;1 L;7,50 EUR\n");
  REQUIRE(list.packs.size() == 3);
  CHECK(list.currency == "EUR");
  CHECK(list.packs[0].grams == 10000);
  CHECK(list.packs[0].price == Approx(60));
  CHECK(list.packs[0].per_kg() == Approx(6));
  CHECK(list.packs[1].oil == "shea butter");
  CHECK(list.packs[1].grams == Approx(11 * 453.59237));  // avoirdupois pound, exact by definition
  CHECK(list.packs[2].price == Approx(9));
  CHECK(list.packs[2].grams == Approx(960).margin(10));  // castor 0.955 to 0.968 g/mL, Codex 210
}

TEST_CASE("the mapping may lie beside a table left as it came", "[prices]") {
  const auto list =
      read("Item,Pack,EUR\nolive,5 kg,30\n", false, "oil: Item\nprice: EUR\ncurrency: EUR\n");
  CHECK(list.packs.at(0).price == 30);
}

TEST_CASE("a wrong row is named by its line, and left out only when asked", "[prices]") {
  const std::string text =
      "# currency: EUR\noil,pack,price\nolive,5 kg,30\nmoonshine,1 kg,5\ncastor,1 kg,free\n"
      "mango butter,1 L,20\n";
  try {
    read(text);
    FAIL("taken");
  } catch (const core::InputError& error) {
    CHECK(error.place().line == 4);
    CHECK(error.remedy().find("--skip-wrong-rows") != std::string::npos);
  }
  const auto list = read(text, true);
  CHECK(list.packs.size() == 1);
  REQUIRE(list.skipped.size() == 3);
  CHECK(list.skipped[0].place.line == 4);
  CHECK(list.skipped[1].place.line == 5);
  CHECK(list.skipped[2].place.line == 6);  // a butter sets: a litre of it is no certain weight
}

TEST_CASE("a heading that is not there is asked for", "[prices]") {
  CHECK_THROWS_AS(read("Product,pack,price\nolive,5 kg,30\n"), core::InputError);
  CHECK_THROWS_AS(read("# taxes: 5 %\noil,pack,price\n"), core::InputError);
}

TEST_CASE("shipping is spread to the cent, by weight or by value", "[prices]") {
  std::vector<PricedPack> packs(3);
  packs[0].grams = 1000, packs[0].price = 30;
  packs[1].grams = 2000, packs[1].price = 30;
  packs[2].grams = 3000, packs[2].price = 60;
  const auto by_weight = landed_prices(packs, 10, Spread::weight);
  const auto by_value = landed_prices(packs, 10, Spread::value);
  CHECK(by_weight[0] == Approx(31.67));  // 10 x 1 / 6, the cent left over to it
  CHECK(by_value[2] == Approx(65));
  CHECK(by_weight[0] + by_weight[1] + by_weight[2] == Approx(130));
}
