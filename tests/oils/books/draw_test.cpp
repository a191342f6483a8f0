#include "oils/books/draw.hpp"

#include <catch2/catch.hpp>

#include "oils/books/shelf_reader.hpp"

using namespace barwright;
using Catch::Matchers::Contains;

namespace {

// Invented stock.
oils::Shelf shelf() {
  static const oils::Library library = oils::Library::embedded();
  return oils::read_shelf_text(R"(shelf: yard
stock:
  - {oil: olive, have: 3 kg, lot: undated-old}
  - {oil: olive, have: 2 kg, lot: late, best-before: 2028-05-01}
  - {oil: olive, have: 1 kg, lot: soon, best-before: 2027-05-01, keep: 200 g}
  - {oil: olive, have: 4 kg, lot: undated-new}
  - {oil: coconut, have: 500 g}
)",
                               "yard.yaml", ".", library);
}

std::vector<std::pair<std::string, double>> taken(const std::vector<oils::Wanted>& wanted,
                                                  const oils::LotChoice& chosen = {}) {
  const auto all = shelf();
  std::vector<std::pair<std::string, double>> out;
  for (const auto& draw : oils::draws(all, wanted, chosen))
    out.emplace_back(all.lots[draw.lot].lot, draw.grams);
  return out;
}

using Lots = std::vector<std::pair<std::string, double>>;

}  // namespace

TEST_CASE("lots are used best-before first, then the oldest") {
  CHECK(taken({{"", "olive", 700, 700}}) == Lots{{"soon", 700}});
  // 200 g of the first are kept back; undated lots come last, as they stand.
  CHECK(taken({{"", "olive", 5000, 5000}}) ==
        Lots{{"soon", 800}, {"late", 2000}, {"undated-old", 2200}});
  CHECK(taken({{"", "olive", 9000, 9000}}).back() ==
        std::pair<std::string, double>("undated-new", 3200));
}

TEST_CASE("two parts share the lots, the first served first") {
  CHECK(taken({{"body", "olive", 700, 700}, {"topping", "olive", 300, 300}}) ==
        Lots{{"soon", 700}, {"soon", 100}, {"late", 200}});
}

TEST_CASE("a maker may say which lot") {
  CHECK(taken({{"", "olive", 5000, 5000}}, {{"olive", "undated-new"}}) ==
        Lots{{"undated-new", 4000}, {"soon", 800}, {"late", 200}});
  CHECK_THROWS_WITH(
      taken({{"", "olive", 500, 500}}, {{"olive", "M-1"}}),
      Contains("yard.yaml:5: the shelf holds no lot 'M-1' of olive") && Contains("'undated-old'"));
}

TEST_CASE("a lot is never drawn below zero, nor into what is kept back") {
  CHECK_THROWS_WITH(
      taken({{"", "coconut", 500.5, 500.5}}),
      Contains("yard.yaml:7:11: coconut would be drawn below zero: 500.5 g wanted, 500 g "
               "there") &&
          Contains("0.5 g are missing"));
  CHECK_THROWS_WITH(taken({{"a", "olive", 9000, 9000}, {"b", "olive", 1000, 1000}}),
                    Contains("10000 g wanted, 9800 g there beside 200 g kept back"));
  CHECK_THROWS_WITH(taken({{"", "castor", 1, 1}}), Contains("the shelf holds no castor"));
  CHECK(taken({{"", "coconut", 500, 500}}) == Lots{{"", 500}});
}
