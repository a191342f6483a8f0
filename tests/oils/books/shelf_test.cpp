#include "oils/books/shelf.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "oils/books/shelf_reader.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

const oils::Library& library() {
  static const oils::Library kept = oils::Library::embedded();
  return kept;
}

oils::Shelf read(const std::string& text, const std::string& folder = ".") {
  return oils::read_shelf_text(text, "shelf.yaml", folder, library());
}

/// One lot with these keys.
oils::Shelf lot(const std::string& keys) {
  return read("shelf: Weighbridge Yard\ncurrency: EUR\nstock:\n  - {" + keys + "}\n");
}

// Invented stock.
const std::string kShelf = R"(shelf: Weighbridge Yard
currency: EUR
counted: 2027-01-09
stock:
  - {oil: olive, have: 4 kg, paid: 30 for 5 kg, supplier: Millbank, best-before: 2028-02-01}
  - {oil: olive oil, have: 1 kg, paid: 9 EUR for 1 kg, best-before: 2027-05-01, keep: 200 g,
     certificate: {ref: CA-17, saponification-value: 188.4 mg KOH/g}}
  - {oil: coconut, have: 2 x 2.5 kg, price: 4.20 per kg, keep: 500 g}
  - {oil: castor, have: 1 L, price: 1.10 per 100 g}
  - {oil: shea, have: 900 g}
)";

}  // namespace

TEST_CASE("a shelf reads as it is written, and its lots are held together") {
  const oils::Shelf shelf = read(kShelf);
  CHECK(shelf.name == "Weighbridge Yard");
  CHECK(shelf.currency == "EUR");
  CHECK(shelf.counted == "2027-01-09");
  REQUIRE(shelf.lots.size() == 5);
  CHECK(shelf.lots[1].oil == "olive");
  CHECK(shelf.lots[1].place.line == 6);
  CHECK(*shelf.lots[0].price_per_kg == Approx(6));

  const auto holdings = shelf.holdings();
  REQUIRE(holdings.size() == 4);
  CHECK(holdings[0].oil == "castor");
  const auto olive = shelf.holding("Olive Oil");
  REQUIRE(olive);
  CHECK(olive->grams == 5000);
  CHECK(olive->keep_grams == 200);
  CHECK(olive->usable_grams() == 4800);
  CHECK(*olive->price_per_kg == Approx((4 * 6.0 + 1 * 9.0) / 5));
  CHECK(olive->best_before == "2027-05-01");
  CHECK(olive->lots == std::vector<std::size_t>{1, 0});  // the sooner best-before first
  const auto coconut = shelf.holding("coconut");
  CHECK(coconut->grams == 5000);
  CHECK(*coconut->price_per_kg == Approx(4.2));
  const auto shea = shelf.holding("shea butter");
  CHECK_FALSE(shea->price_per_kg);
  CHECK(shea->unpriced_grams == 900);
  CHECK_FALSE(shelf.holding("palm"));
  CHECK_FALSE(shelf.holding("no such oil"));
  CHECK(shelf.past("2027-06-01") == std::vector<std::size_t>{1});
}

TEST_CASE("packs in litres are weighed by the oil's density") {
  // Castor, Ph. Eur. and USP: 0.957 to 0.961 at 25 C; a litre at 20 C is about 0.96 kg.
  const auto castor = read(kShelf).holding("castor");
  CHECK(castor->grams == Approx(960).margin(4));
  CHECK(*castor->price_per_kg == Approx(11));
  const oils::Oil& olive = *library().find("olive");
  CHECK(*oils::density_at(olive, 20) == Approx(olive.density->span.typical));
  CHECK(*oils::density_at(olive, 30) == Approx(olive.density->span.typical - 0.0068));
  CHECK_THROWS_WITH(lot("oil: shea butter, have: 1 L"), Contains("sets at room warmth"));
  CHECK_THROWS_WITH(lot("oil: coffee, have: 1 L"), Contains("no density is known for coffee"));
}

TEST_CASE("lots with and without a certificate make one oil, wide enough for both") {
  const auto olive = read(kShelf).holding("olive");
  const oils::Oil& published = *library().find("olive");
  const core::Figure& figure = olive->figures.saponification_value;
  CHECK(figure.span.typical ==
        Approx((4 * published.saponification_value.span.typical + 188.4) / 5));
  CHECK(figure.span.low == published.saponification_value.span.low);
  CHECK(figure.span.high == published.saponification_value.span.high);
  CHECK(figure.range_mark == published.saponification_value.range_mark);

  const auto alone =
      lot("oil: olive, have: 1 kg, certificate: {saponification-value: 188.4 mg KOH/g}")
          .holding("olive");
  CHECK(alone->figures.saponification_value.span.low == 188.4);
  CHECK(alone->figures.saponification_value.mark == core::Mark::certificate);

  // Two lots with acids: an acid that one lacks counts as none there.
  const auto mixed = read(
                         "shelf: two\nstock:\n"
                         "  - {oil: olive, have: 1 kg, certificate: {acids: {C18:1: 100 %}}}\n"
                         "  - {oil: olive, have: 3 kg, certificate: {acids: {C18:2: 100 %}}}\n")
                         .holding("olive");
  const auto& oleic = mixed->figures.acids[static_cast<std::size_t>(core::FattyAcid::C18_1)];
  CHECK(oleic->span.typical == Approx(25));
  CHECK(oleic->span.low == 0);
  CHECK(oleic->span.high == 100);
}

TEST_CASE("a quick list is a shelf too") {
  const auto shelf =
      read("shelf: quick\nstock: {olive: 5 kg, castor: {have: 800 g, keep: 100 g}}\n");
  CHECK(shelf.holding("olive")->grams == 5000);
  CHECK(shelf.holding("castor")->usable_grams() == 700);
  CHECK(read("shelf: bare\nstock: []\n").holdings().empty());
}

TEST_CASE("what a shelf cannot mean is refused with its place") {
  CHECK_THROWS_WITH(lot("oil: olvie, have: 1 kg"),
                    Contains("'olive'") && Contains("shelf.yaml:4:"));
  CHECK_THROWS_WITH(lot("oil: tallow, have: 1 kg"), Contains("'beef tallow' or 'mutton tallow'"));
  CHECK_THROWS_WITH(lot("oil: olive"), Contains("missing key 'have'"));
  CHECK_THROWS_WITH(lot("oil: olive, have: 5"), Contains("unit"));
  CHECK_THROWS_WITH(lot("oil: olive, have: 5 C"), Contains("weight"));
  CHECK_THROWS_WITH(lot("oil: olive, have: two x 5 kg"), Contains("whole number of packs"));
  CHECK_THROWS_WITH(lot("oil: olive, have: 1 kg, keep: 2 kg"), Contains("more of olive is kept"));
  CHECK_THROWS_WITH(lot("oil: olive, hav: 1 kg"), Contains("unknown key 'hav'"));
  CHECK_THROWS_WITH(lot("oil: olive, have: 1 kg, best-before: 2027-02-30"), Contains("not a day"));
  CHECK_THROWS_WITH(lot("oil: olive, have: 1 kg, best-before: soon"), Contains("not a day"));
  CHECK_THROWS_WITH(lot("oil: olive, have: 1 kg, record: none.yaml"),
                    Contains("no file 'none.yaml'"));
  CHECK_THROWS_WITH(read("currency: EUR\nstock: []\n"), Contains("missing key 'shelf'"));
  CHECK_THROWS_WITH(read("shelf: x\nstock: {olive: 1 kg, olive: 2 kg}\n"), Contains("second time"));
}

TEST_CASE("all that is wrong with a shelf is told at once") {
  try {
    read(
        "shelf: yard\ncounted: yesterday\nstock:\n  olvie: 5 kg\n"
        "  coconut: {have: 3 lumps, best-before: soon, colour: white}\n  castor: 2 kg\n");
    FAIL("the shelf was taken");
  } catch (const core::InputError& error) {
    std::vector<int> lines = {error.place().line};
    for (const auto& other : error.also()) lines.push_back(other.place().line);
    CHECK(lines == std::vector<int>{2, 4, 5, 5, 5});
    CHECK_THAT(error.what(), Contains("'yesterday' is not a day") && Contains("'olive'") &&
                                 Contains("lumps") && Contains("'soon'") &&
                                 Contains("unknown key 'colour'"));
  }
}

TEST_CASE("prices that say too little are refused") {
  const std::string have = "oil: olive, have: 1 kg, ";
  CHECK(*lot(have + "paid: EUR 12 for 2 kg").lots[0].price_per_kg == Approx(6));
  CHECK(*lot(have + "paid: \xE2\x82\xAC"
                    "12 for 2 kg")
             .lots[0]
             .price_per_kg == Approx(6));
  CHECK_THROWS_WITH(lot(have + "paid: 12"), Contains("does not say what that buys"));
  CHECK_THROWS_WITH(lot(have + "paid: 12 for"), Contains("does not say what that buys"));
  CHECK_THROWS_WITH(lot(have + "paid: twelve for 2 kg"), Contains("no sum of money"));
  CHECK_THROWS_WITH(lot(have + "paid: \"12,50 for 2 kg\""), Contains("full stop"));
  CHECK_THROWS_WITH(lot(have + "paid: 12 USD for 2 kg"), Contains("in USD"));
  CHECK_THROWS_WITH(lot(have + "paid: EUR 12 EUR for 2 kg"), Contains("twice"));
  CHECK_THROWS_WITH(lot(have + "paid: 12 for 0 kg"), Contains("for nothing"));
  CHECK_THROWS_WITH(lot(have + "paid: 12 for 2 kg, price: 6 per kg"), Contains("both stand here"));
  CHECK_THROWS_WITH(read("shelf: x\nstock: [{oil: olive, have: 1 kg, paid: 12 for 2 kg}]\n"),
                    Contains("no currency"));
}

TEST_CASE("a lot may point to the maker's own record") {
  const fs::path folder = fs::temp_directory_path() / "barwright-shelf";
  fs::create_directories(folder);
  std::ofstream(folder / "mill.yaml") << R"(oil: valley olive
inci: Olea Europaea Fruit Oil
once-saponified: Sodium Olivate
name-status: established
kind: triglyceride
tags: [vegan]
solid-at-25C: no
units: {acids: "% of fatty acids", saponification-value: mg KOH/g, iodine-value: g I2/100 g, unsaponifiable: "% of fat"}
sources: {mill: "Invented mill, invented certificate"}
acids:
  from: {source: mill, mark: certificate}
  C18:1: {typical: 100}
saponification-value: {typical: 188.5, source: mill, mark: certificate}
iodine-value: {typical: 85, source: mill, mark: certificate}
unsaponifiable: {typical: 1, source: mill, mark: certificate}
)";
  const std::string stock =
      "shelf: x\nstock:\n  - {oil: valley olive, record: mill.yaml, have: 3 kg}\n";
  const auto shelf = read(stock, folder.string());
  CHECK(shelf.holding("valley olive")->figures.saponification_value.span.typical == 188.5);
  CHECK(shelf.library.sources().contains("mill"));
  CHECK(library().find("valley olive") == nullptr);
  CHECK_THROWS_WITH(
      read("shelf: x\nstock:\n  - {oil: olive, record: mill.yaml, have: 3 kg}\n", folder.string()),
      Contains("the record is of 'valley olive', the lot of 'olive'"));
  std::ofstream(folder / "shelf.yaml") << stock;
  CHECK(oils::read_shelf((folder / "shelf.yaml").string(), library()).lots.size() == 1);
  std::ofstream(folder / "mill.yaml") << "oil: valley olive\n";
  CHECK_THROWS_WITH(read(stock, folder.string()),
                    Contains("mill.yaml:1") && Contains("in a record named by the shelf"));
  fs::remove_all(folder);
}

TEST_CASE("days are days of the calendar") {
  CHECK(oils::is_iso_date("2028-02-29"));
  for (const char* text : {"2027-02-29", "2027-13-01", "27-01-01", "2027/01/01", "2027-1-1", "",
                           "2027-01-00", "-027-01-01", "2027-0a-01"})
    CHECK_FALSE(oils::is_iso_date(text));
}
