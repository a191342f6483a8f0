#include <catch2/catch.hpp>

#include "oils/books/draw.hpp"
#include "oils/books/journal.hpp"
#include "oils/books/shelf.hpp"
#include "oils/books/shelf_reader.hpp"
#include "oils/books/shelf_writer.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using Catch::Matchers::Equals;
using oils::StockKind;

namespace {

const oils::Library& library() {
  static const oils::Library kept = oils::Library::embedded();
  return kept;
}

oils::Shelf shelf(const std::string& stock) {
  return oils::read_shelf_text("shelf: Yard\ncurrency: EUR\nstock:\n" + stock, "yard.yaml", ".",
                               library());
}

std::string complaint(const std::string& stock) {
  try {
    shelf(stock);
  } catch (const core::InputError& error) {
    return error.what();
  }
  return "no complaint";
}

// Invented stock.
const std::string kStock =
    "  - {oil: olive, have: 2 kg, lot: M-1}\n"
    "  - {lye: NaOH, have: 2 x 1 kg, purity: 99 %, paid: 8.00 for 2 kg, lot: N-1}\n"
    "  - {lye: potassium hydroxide, have: 500 g, purity: {stated: 90 %, most: 91 %}, lot: K-1}\n"
    "  - {scent: fir and smoke, have: 120 g, best-before: 2027-06-01}\n"
    "  - {colour: titanium dioxide, have: 80 g}\n"
    "  - {packaging: kraft box, have: 2 x 100, paid: 30.00 for 200, keep: 10}\n";

}  // namespace

TEST_CASE("all that runs out stands on the shelf, each as what it is", "[supplies]") {
  const auto yard = shelf(kStock);
  REQUIRE(yard.lots.size() == 6);
  CHECK(yard.lots[1].kind == StockKind::lye);
  CHECK(yard.lots[1].oil == "sodium hydroxide");
  CHECK(yard.lots[1].grams == Approx(2000));
  CHECK(yard.lots[1].strength->stated == Approx(0.99));
  CHECK(*yard.lots[1].price_per_kg == Approx(4));
  CHECK(*yard.lots[2].strength->most == Approx(0.91));
  CHECK(yard.lots[5].grams == Approx(200));
  CHECK(*yard.lots[5].price_per_kg == Approx(150));  // of 1000 boxes
  CHECK(yard.usable_grams("kraft box") == Approx(190));
  CHECK(yard.holdings().size() == 1);  // a search sees oils alone
  CHECK(yard.name_of("caustic soda") == "sodium hydroxide");
  CHECK(yard.name_of("Fir and Smoke") == "fir and smoke");
  CHECK(yard.name_of("olive oil") == "olive");
  CHECK_FALSE(yard.name_of("lye"));
  CHECK(yard.kind_of("titanium dioxide") == StockKind::colour);
}

TEST_CASE("alkalis are never mixed up, nor taken for anything else", "[supplies]") {
  CHECK_THAT(complaint("  - {lye: lye, have: 1 kg}\n"),
             Contains("yard.yaml:4:11: 'lye' does not say which alkali"));
  CHECK_THAT(complaint("  - {lye: potash, have: 1 kg}\n"), Contains("does not say which alkali"));
  CHECK_THAT(complaint("  - {lye: KOH, have: 1 kg}\n"), Contains("without its purity"));
  CHECK_THAT(complaint("  - {oil: sodium hydroxide, have: 1 kg}\n"),
             Contains("is no oil") && Contains("lye: sodium hydroxide"));
  CHECK_THAT(complaint("  - {additive: caustic soda, have: 1 kg}\n"), Contains("is an alkali"));
  CHECK_THAT(complaint("  - {lye: NaOH, have: 1 kg, purity: 50 %}\n"), Contains("is a solution"));
  CHECK_THAT(complaint("  - {lye: NaOH, have: 1 kg, purity: 101 %}\n"),
             Contains("nothing is purer"));
  CHECK_THAT(complaint("  - {lye: NaOH, have: 1 kg, purity: 99 %, strength: 98 %}\n"),
             Contains("both stand here"));
  CHECK_THAT(complaint("  - {lye: NaOH, have: 1 L}\n"), Contains("no certain weight"));
  CHECK_THAT(complaint("  - {lye: NaOH, scent: fir, have: 1 kg}\n"), Contains("both stand here"));
  CHECK_THAT(complaint("  - {scent: olive, have: 1 kg}\n"), Contains("is an oil"));
  CHECK_THAT(complaint("  - {scent: fir, have: 1 kg, lot: A}\n  - {colour: Fir, have: 9 g}\n"),
             Contains("yard.yaml:5:14: 'Fir' stands here as colour, on line 4 as scent"));
  CHECK_THAT(complaint("  - {packaging: box, have: 12.5}\n"), Contains("no whole number of box"));
  CHECK_THAT(complaint("  - {packaging: box, have: 2 kg}\n"), Contains("counted in pieces"));
}

TEST_CASE("supplies are drawn and written back as they were written", "[supplies]") {
  const std::string text = "shelf: Yard\ncurrency: EUR\nstock:\n" + kStock;
  const auto yard = shelf(kStock);
  const std::vector<oils::Wanted> wanted{{"bar", "sodium hydroxide", 203.4, 203.4},
                                         {"", "kraft box", 36, 36}};
  const auto taken = oils::draws(yard, wanted);
  REQUIRE(taken.size() == 2);
  CHECK(taken[0].lot == 1);
  const std::vector<oils::LotGrams> changes{{1, 1796.6}, {5, 164}};
  const std::string after = oils::with_grams(text, yard, changes);
  CHECK_THAT(after, Contains("{lye: NaOH, have: 1.7966 kg, purity: 99 %") &&
                        Contains("{packaging: kraft box, have: 164, paid"));
  const std::vector<oils::NewLot> more{
      {"sodium hydroxide", "5 kg", "", "", "N-2", "", "", "", StockKind::lye, "98.5 %"}};
  CHECK_THAT(oils::with_lots(text, yard, more).first,
             Contains("  - {lye: sodium hydroxide, have: 5 kg, purity: \"98.5 %\", lot: N-2}\n"));
  const std::vector<oils::NewLot> nasty{{"sodium hydroxide", "5 kg", "", "", "N-3", "", "", "",
                                         StockKind::lye, "stated: 99 %}, note: {a: b"}};
  CHECK_THROWS_WITH(oils::with_lots(text, yard, nasty), Contains("in the purity of the lot"));
  CHECK_THROWS_WITH(
      oils::draws(yard, std::vector<oils::Wanted>{{"bar", "sodium hydroxide", 2100, 0}}),
      Contains("sodium hydroxide would be drawn below zero"));
}

TEST_CASE("pieces stand in the journal as pieces", "[supplies]") {
  oils::Entry line = oils::entry_of(*core::find_day("2027-02-13"), oils::Event::received);
  line.what = "kraft box";
  line.bars = 200;
  const std::string text = oils::appended(oils::read_journal("", "j.csv"), std::vector{line});
  CHECK_THAT(text, Contains("2027-02-13,received,,,kraft box,,,,200,,,\n"));
  const auto back = oils::read_journal(text, "j.csv").entries;
  REQUIRE(back.size() == 1);
  CHECK_FALSE(back[0].grams);
  CHECK(back[0].bars == 200);
  CHECK_THROWS_WITH(oils::read_journal(text + "2027-02-13,received,,,kraft box,,,,,,,\n", "j.csv"),
                    Contains("'received' needs its 'grams'"));
}

TEST_CASE("a shelf that gains more than oils says format 2, and nothing else of it changes") {
  const std::string body = "shelf: Yard\nstock:\n  - {oil: olive, have: 1 kg}\n";
  const auto gained = [&](const std::string& text, StockKind kind, const std::string& what) {
    const auto yard = oils::read_shelf_text(text, "yard.yaml", ".", library());
    const std::vector<oils::NewLot> more{{what, "1 kg", "", "", "A", "", "", "", kind, ""}};
    return oils::with_lots(text, yard, more).first;
  };
  const std::string oil = "  - {oil: coconut, have: 1 kg, lot: A}\n";
  const std::string lye = "  - {lye: sodium hydroxide, have: 1 kg, lot: A}\n";
  for (const char* head : {"# mine\n\n", ""}) {
    CAPTURE(head);
    CHECK(gained(head + body, StockKind::oil, "coconut") == head + body + oil);
    CHECK(gained(head + body, StockKind::lye, "sodium hydroxide") ==
          std::string(head) + "format: 2\n" + body + lye);
  }
  for (const char* said : {"format: 1\n", "format: 2\n"})
    CHECK(gained(said + body, StockKind::lye, "sodium hydroxide") == "format: 2\n" + body + lye);
}
