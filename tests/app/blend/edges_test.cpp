// Figures at the edge of what a workshop knows: one gram and one tonne, prices of nothing and of a
// thousand million.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

std::string yard(const std::string& name) {
  const std::string folder = fresh_folder(name);
  REQUIRE(run("barwright new yard", folder).exit_code == 0);
  return folder + "/yard";
}

double sum_of(const json& lines) {
  double out = 0;
  for (const auto& line : lines) out += line["grams"].get<double>();
  return out;
}

std::string with_prices(std::string shelf, const std::string& price) {
  for (std::size_t at = 0; (at = shelf.find("paid: ", at)) != std::string::npos; at += 6)
    shelf.replace(at + 6, shelf.find(' ', at + 6) - at - 6, price);
  return shelf;
}

}  // namespace

TEST_CASE("a gram is refused, a tonne is weighed in the same measure") {
  const std::string folder = yard("edges-size");
  const Ran gram = run("barwright weigh yard-bar.yaml --to '1 g oils'", folder);
  CHECK(gram.exit_code == 3);
  CHECK_THAT(gram.err, Contains("scale"));
  const json kilos = json::parse(
      run("barwright weigh yard-bar.yaml --to '10 kg oils' --json", folder).out)["recipe"];
  const json tonne = json::parse(
      run("barwright weigh yard-bar.yaml --to '1000 kg oils' --json", folder).out)["recipe"];
  CHECK(sum_of(tonne["oils"]) == Approx(1e6).margin(5));
  // To the step of the lye scale at ten kilos, a tenth of a gram.
  CHECK(std::abs(sum_of(tonne["lye"]) / 100 - sum_of(kilos["lye"])) <= 0.1 + 0.01 * 2);
}

TEST_CASE("prices of nothing and of a thousand million leave the blend that the wishes ask for") {
  const std::string folder = yard("edges-price");
  const std::string shelf = slurp(folder + "/weighbridge-shelf.yaml");
  for (const char* price : {"0", "0.0000001", "1000000000"}) {
    CAPTURE(price);
    spill(folder + "/weighbridge-shelf.yaml", with_prices(shelf, price));
    const Ran ran = run("barwright blend firmer-bar.yaml", folder);
    CHECK(ran.exit_code == 0);
    CHECK_THAT(ran.out, Contains("Proved: no blend") && !Contains("nan") && !Contains("inf "));
  }
}
