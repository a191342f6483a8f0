#include "oils/books/stock_list.hpp"

#include <catch2/catch.hpp>

#include "oils/books/shelf_reader.hpp"

using namespace barwright;
using namespace barwright::oils;

namespace {

const Library& library() {
  static const Library one = Library::embedded();
  return one;
}

Shelf shelf(const std::string& lists = "") {
  return read_shelf_text(
      "shelf: yard\ncurrency: EUR\n" + lists + "stock:\n  - {oil: olive, have: 5 kg, lot: M-1}\n",
      "yard.yaml", "", library());
}

StockList read(const std::string& text, bool skip = false, const std::string& lists = "") {
  return read_stock_list_text(text, "delivery.csv", "", shelf(lists), skip);
}

int line_of(const std::string& text) {
  try {
    read(text);
  } catch (const core::InputError& error) {
    CHECK(error.remedy().find("--skip-wrong-rows") != std::string::npos);
    return error.place().line;
  }
  return 0;
}

}  // namespace

TEST_CASE("a delivery note as a supplier writes it becomes lots", "[stock-list]") {
  const std::string lists =
      "lists:\n  Lock Street:\n    oil: Article\n    pack: Unit\n    price: Each\n    count: Qty\n"
      "    lot: Charge\n    best-before: BBE\n    tax: 10 %\n    names: {Kokos: coconut}\n";
  auto list = read(
      "Article;Unit;Each;Qty;Charge;BBE\n"
      "Olive;5 L;30,00;2;M-2;2028-06-30\nKokos;2 x 5 kg;40,00;1;K-9;30.06.2029\n",
      false, lists);
  REQUIRE(list.lots.size() == 2);
  CHECK(list.lots[0].lot.have == "10 L");
  CHECK(*list.lots[0].paid == Approx(66));
  CHECK(list.lots[0].lot.supplier == "Lock Street");
  CHECK(list.lots[0].lot.best_before == "2028-06-30");
  CHECK(list.lots[1].lot.oil == "coconut");
  CHECK(list.lots[1].lot.have == "10 kg");
  CHECK(list.lots[1].lot.best_before == "2029-06-30");
  CHECK(paid_in_full(list).at(1).paid == "44.00 for 10 kg");
}

TEST_CASE("a maker's own sheet needs no mapping, no price and no lot", "[stock-list]") {
  auto list = read("oil,have\ncastor,1 kg\nshea butter,900 g\n");
  REQUIRE(list.lots.size() == 2);
  CHECK(list.lots[1].grams == 900);
  CHECK_FALSE(list.lots[1].paid);
  CHECK(paid_in_full(list).at(0).paid.empty());
}

TEST_CASE("a wrong row of a delivery is named by its line, and left out only when asked",
          "[stock-list]") {
  const std::string head = "oil,pack,price,count,lot,best-before\n";
  CHECK(line_of(head + "castor,1 kg,8,1,A,\nmoonshine,1 kg,8,1,B,\n") == 3);
  CHECK(line_of(head + "castor,1 kg,8,0,A,\n") == 2);
  CHECK(line_of(head + "castor,1 stone,8,1,A,\n") == 2);
  CHECK(line_of(head + "castor,1 kg,8,1,A,31.02.2028\n") == 2);
  CHECK(line_of(head + "castor,1 kg,8,1,A,06/30/2028\n") == 2);
  CHECK(line_of(head + "olive,1 kg,8,1,M-1,\n") == 2);                       // on the shelf
  CHECK(line_of(head + "castor,1 kg,8,1,A,\n\ncastor,1 kg,8,1,A,\n") == 4);  // twice
  const auto list = read(head + "castor,1 kg,8,1,A,\nmoonshine,1 kg,8,1,B,\n", true);
  CHECK(list.lots.size() == 1);
  REQUIRE(list.skipped.size() == 1);
  CHECK(list.skipped[0].place.line == 3);
  CHECK_THROWS_AS(read("# currency: GBP\n" + head + "castor,1 kg,8,1,A,\n"), core::InputError);
}

TEST_CASE("shipping and tax that are sums on the bill are spread, to the cent", "[stock-list]") {
  // By hand: 2 kg at 30.00 and 8 kg at 50.00; tax 8.00 by value 3.00 and 5.00; shipping 6.00 by
  // weight 1.20 and 4.80: 34.20 and 59.80, in all 94.00.
  auto list = read("oil,pack,price,lot\ncastor,2 kg,30,A\ncoconut,8 kg,50,B\n");
  add_charge(list, 8, Spread::value);
  add_charge(list, 6, Spread::weight);
  const auto lots = paid_in_full(list);
  CHECK(lots[0].paid == "34.20 for 2 kg");
  CHECK(lots[1].paid == "59.80 for 8 kg");
  // Two charges, rounded once at the end. Three kilos at 1.00: tax 0.10 and shipping 0.10 are
  // 0.0667 each, 1.0667: the cents that add up to 3.20 are 1.07, 1.07 and 1.06 (rounded after each
  // charge 1.08, 1.06 and 1.06).
  auto thirds = read("oil,pack,price,lot\ncastor,1 kg,1,A\ncoconut,1 kg,1,B\nolive,1 kg,1,C\n");
  add_charge(thirds, 0.10, Spread::value);
  add_charge(thirds, 0.10, Spread::weight);
  CHECK(*thirds.lots[0].paid == Approx(1 + 0.2 / 3).epsilon(1e-12));
  const auto shown = paid_in_full(thirds);
  CHECK(shown[0].paid == "1.07 for 1 kg");
  CHECK(shown[1].paid == "1.07 for 1 kg");
  CHECK(shown[2].paid == "1.06 for 1 kg");
  auto bare = read("oil,have\ncastor,1 kg\n");
  CHECK_THROWS_AS(add_charge(bare, 5, Spread::weight), core::InputError);
}

TEST_CASE("what is paid adds up to the bill though its parts end in half cents", "[stock-list]") {
  auto list = read("# tax: 7 %\noil,pack,price,lot\ncastor,1 kg,0.50,A\ncoconut,1 kg,0.50,B\n");
  const auto lots = paid_in_full(list);  // 0.535 each, 1.07 together
  CHECK(lots[0].paid == "0.54 for 1 kg");
  CHECK(lots[1].paid == "0.53 for 1 kg");
}

TEST_CASE("a delivery may hold lye, and what the shelf keeps already", "[stock-list]") {
  const Shelf yard = read_shelf_text(
      "shelf: yard\ncurrency: EUR\nstock:\n  - {scent: fir and smoke, have: 50 g, lot: F-1}\n",
      "yard.yaml", "", library());
  const auto in = [&](const std::string& rows) {
    return read_stock_list_text("oil,have,lot\n" + rows, "delivery.csv", "", yard, false).lots;
  };
  const auto lots = in("caustic soda,5 kg,N-7\nFir and smoke,100 g,F-2\nolive,5 kg,M-2\n");
  REQUIRE(lots.size() == 3);
  CHECK(lots[0].lot.kind == StockKind::lye);
  CHECK(lots[0].lot.oil == "sodium hydroxide");
  CHECK(lots[1].lot.kind == StockKind::scent);
  CHECK(lots[1].lot.oil == "fir and smoke");
  CHECK(lots[2].lot.kind == StockKind::oil);
  using Catch::Matchers::Contains;
  CHECK_THROWS_WITH(in("KOH,1 kg,K-1\n"), Contains("comes in with its purity"));
  CHECK_THROWS_WITH(in("lye,1 kg,K-1\n"), Contains("'lye' is no oil we know"));
  CHECK_THROWS_WITH(in("caustic soda,1 L,N-8\n"), Contains("no certain weight"));
}

TEST_CASE("wrong rows of a delivery are told together", "[stock-list]") {
  const Shelf yard =
      read_shelf_text("shelf: yard\ncurrency: EUR\nstock: []\n", "yard.yaml", "", library());
  try {
    read_stock_list_text("oil,have,lot\nmoonoil,5 kg,A\nolive,5 kg,B\nolive,lots,C\n", "d.csv", "",
                         yard, false);
    FAIL("read");
  } catch (const core::InputError& error) {
    CHECK(error.place().line == 2);
    REQUIRE(error.also().size() == 1);
    CHECK(error.also()[0].place().line == 4);
  }
}
