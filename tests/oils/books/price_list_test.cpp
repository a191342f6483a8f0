#include "oils/books/price_list.hpp"

#include <catch2/catch.hpp>

#include "oils/books/shelf.hpp"
#include "oils/books/shelf_reader.hpp"

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

TEST_CASE("shipping is spread by weight or by value, not rounded", "[prices]") {
  std::vector<PricedPack> packs(3);
  packs[0].grams = 1000, packs[0].price = 30;
  packs[1].grams = 2000, packs[1].price = 30;
  packs[2].grams = 3000, packs[2].price = 60;
  const auto by_weight = landed_prices(packs, 10, Spread::weight);
  const auto by_value = landed_prices(packs, 10, Spread::value);
  CHECK(by_weight[0] == Approx(30 + 10.0 / 6).epsilon(1e-12));
  CHECK(by_value[2] == Approx(65));
  CHECK(by_weight[0] + by_weight[1] + by_weight[2] == Approx(130));
  // 1 g of a kilogram: 10.00 x 1 / 1000 is a whole cent, 1.00 x 1 / 1000 is none, yet it counts.
  packs.resize(2);
  packs[0].grams = 1, packs[1].grams = 999;
  CHECK(landed_prices(packs, 1, Spread::weight)[0] == Approx(30.001).epsilon(1e-12));
  packs[0].grams = packs[1].grams = 0;
  CHECK(landed_prices(packs, 1, Spread::weight)[0] == Approx(30.5));
  CHECK_THROWS_AS(landed_prices({}, 1, Spread::weight), core::Refusal);
}

TEST_CASE("the shelf maps a supplier's columns once, for every list headed so", "[prices]") {
  const auto shelf = read_shelf_text(
      "shelf: yard\ncurrency: EUR\nlists:\n"
      "  Lock Street Oils:\n    oil: Product\n    pack: Size\n    price: Net price\n    tax: 7 %\n"
      "    names: {\"Shea, refined\": shea butter}\n"
      "  Millbank:\n    files: millbank-*.csv\n    price-per-kg: EUR per kg\n"
      "stock: []\n",
      "yard.yaml", "", library());
  REQUIRE(shelf.lists.size() == 2);
  const auto with = [&](const std::string& text, const std::string& name) {
    return read_price_list_text(text, name, "", library(), false, shelf.lists);
  };
  const auto lock = with("Product;Size;Net price\nShea, refined;2 kg;19,60\n", "spring.csv");
  CHECK(lock.currency == "EUR");  // the shelf's
  CHECK(lock.packs.at(0).oil == "shea butter");
  CHECK(lock.packs[0].price == Approx(19.60 * 1.07));
  // By its name: 5 kg at 4.30 per kg.
  const auto mill = with("oil,pack,EUR per kg\ncoconut,5 kg,4.30\n", "prices/millbank-2027.csv");
  CHECK(mill.packs.at(0).price == Approx(21.5));
  CHECK(mill.tax == 0);
  // What stands above the table is nearer than what the shelf says.
  const auto near =
      with("# tax: 20 %\n# price: Gross\nProduct;Size;Gross;Net price\nOlive;1 kg;6;5\n", "x.csv");
  CHECK(near.packs.at(0).price == Approx(7.2));
  // A table that no entry is for is read by the usual headings.
  CHECK(with("oil,pack,price\nolive,1 kg,6\n", "y.csv").packs.at(0).price == 6);
}

TEST_CASE("what the shelf says of lists wrongly is pointed at", "[prices]") {
  const auto shelf = [](const std::string& block) {
    return read_shelf_text("shelf: y\ncurrency: EUR\nlists:\n" + block + "stock: []\n", "y.yaml",
                           "", library());
  };
  const auto line_of = [&](const std::string& block) {
    try {
      shelf(block);
    } catch (const core::InputError& error) {
      return error.place().line;
    }
    return 0;
  };
  CHECK(line_of("  A: {oil: Product, colour: red}\n") == 4);
  CHECK(line_of("  A: {names: {x: olive}}\n") == 4);  // for which tables?
  CHECK(line_of("  A:\n    price: P\n    price-per-kg: Q\n") == 6);
  CHECK(line_of("  A:\n    pack: P\n    have: Q\n") == 6);
  CHECK(line_of("  A:\n    oil: P\n    tax: 7\n") == 6);
  // Two entries for one table: neither is taken by itself.
  const auto two = shelf("  A: {oil: Product}\n  B: {pack: Size}\n");
  CHECK_THROWS_AS(read_price_list_text("Product,Size,price\nolive,1 kg,6\n", "l.csv", "", library(),
                                       false, two.lists),
                  core::InputError);
}

TEST_CASE("a price that may be misread is a wrong row", "[prices]") {
  for (const char* price :
       {"1.234", "1,234", "1.234,50", "-3", "$3.00", "3 GBP", "EUR 3 EUR", "3 - 4"}) {
    CAPTURE(price);
    CHECK_THROWS_AS(
        read("# currency: EUR\noil;pack;price\nolive;1 kg;" + std::string(price) + "\n"),
        core::InputError);
  }
  for (const char* price : {"3", "3.5", "3,50", "EUR 3.50",
                            "\xE2\x82\xAC"
                            "3.50"}) {
    CAPTURE(price);
    CHECK_NOTHROW(read("# currency: EUR\noil;pack;price\nolive;1 kg;" + std::string(price) + "\n"));
  }
}

TEST_CASE("a name of a file fits a pattern with stars") {
  CHECK(fits_pattern("a/millbank-2027.csv", "millbank-*.csv"));
  CHECK(fits_pattern("x", "*"));
  CHECK(fits_pattern("aXbXc", "a*b*c"));
  CHECK_FALSE(fits_pattern("millbank.csv", "millbank-*.csv"));
  CHECK_FALSE(fits_pattern("aXb", "a*c"));
}

TEST_CASE("wrong rows are told together", "[prices]") {
  try {
    read("# currency: EUR\noil;pack;price\nmoonoil;1 kg;3\nolive;1 kg;4\nolive;1 kg;abc\n");
    FAIL("read");
  } catch (const core::InputError& error) {
    CHECK(error.place().line == 3);
    REQUIRE(error.also().size() == 1);
    CHECK(error.also()[0].place().line == 5);
  }
}
