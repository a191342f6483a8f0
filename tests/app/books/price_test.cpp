#include <catch2/catch.hpp>

#include "oils/records/library.hpp"
#include "solver/books/costs.hpp"
#include "tests/app/books/shelf_yard.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using tests::complaint;
using tests::YardFolder;

namespace {

// Invented.
const char* const kCosts = R"(costs: Weighbridge Yard
currency: EUR
prices: {sodium hydroxide: 4.20 per kg}
packaging: 0.22
labour: {per-batch: 90 min, per-bar: 2 min, per-hour: 18}
overhead: {per-batch: 12}
unsellable: 1 bar
sales-tax: 19 %
wholesale: {margin: 35 %}
retail: {price: 6.50}
)";

}  // namespace

TEST_CASE("price: a bar at what its lots cost, wholesale and retail") {
  const YardFolder yard("price");
  yard.write("costs.yaml", kCosts);
  const auto priced = nlohmann::json::parse(
      yard.run({"price", "@yard-bar.yaml", "--costs", "@costs.yaml", "--bars", "20", "--json"}));
  CHECK(priced["status"] == "reckoned");
  CHECK(priced["sellable"] == 19);
  CHECK(priced["lines"][0]["cost"] == 8.68);  // 1400 g of olive at 6.20 per kg
  CHECK(priced["lines"][1]["cost"] == 1.72);  // 400 g of coconut at 4.30
  CHECK(priced["lines"][2]["cost"] == 1.74);  // 200 g of castor, lot C-1, at 8.70
  double sum = 0;
  for (const auto& line : priced["lines"]) sum += line["cost"].get<double>();
  CHECK(sum == Approx(priced["cost"]["per_batch"].get<double>()).margin(1e-9));
  CHECK(priced["prices"][0]["way"] == "wholesale");
  CHECK(priced["prices"][0]["margin_percent"].get<double>() >= 35);
  CHECK(priced["prices"][1]["price"] == 6.5);
  CHECK_THAT(yard.run({"price", "@yard-bar.yaml", "--costs", "@costs.yaml", "--bars", "20",
                       "--margin", "55 %", "--wholesale-price", "1.00"}),
             Contains("retail") && Contains("The wholesale price is below what a bar costs."));
}

TEST_CASE("price: a recorded batch at the lots it took; what has no price is said") {
  const YardFolder yard("price-batch");
  yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20", "--lot", "castor=C-2",
                         "--defect", "cracked: 2 bars"});
  const auto priced = yard.json("2027-02-14", {"price", "--batch", "yard bar"});
  CHECK(priced["status"] == "incomplete");
  CHECK(priced["lines"][2]["cost"] == 1.9);  // 200 g at 9.50: the lot that was taken
  CHECK(priced["sellable"] == 18);
  CHECK_THAT(priced["remarks"].dump(), Contains("No price is known for sodium hydroxide"));
  CHECK_THAT(complaint([&] { yard.run({"price"}); }), Contains("Name a recipe"));
}

TEST_CASE("price: a slip in the cost file is pointed at") {
  const oils::Library library = oils::Library::embedded();
  const auto says = [&](const std::string& lines) {
    return complaint([&] {
      books::read_costs_text("costs: x\ncurrency: EUR\n" + lines, "costs.yaml", library);
    });
  };
  CHECK_THAT(says("packaging: cheap\n"), Contains("costs.yaml:3:12: 'cheap' is no sum of money"));
  CHECK_THAT(says("unsellable: 2\n"), Contains("'2' does not say how many bars"));
  CHECK_THAT(says("retail: {margin: 100 %}\n"), Contains("costs.yaml:3:"));
  CHECK_THAT(says("retail: {margin: 50 %, price: 3}\n"), Contains("costs.yaml:3:"));
  CHECK_THAT(says("prices: {olive: 3 per kg, olive oil: 4 per kg}\n"),
             Contains("a second price for olive"));
  CHECK_THAT(says("labour: {per-batch: 2 h}\n"), Contains("per-hour"));
  CHECK_THAT(says("wages: 3\n"), Contains("costs.yaml:3:1"));
}
