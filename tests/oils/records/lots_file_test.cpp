// Files of measured lots. olive-lots.csv beside this file: every 20th of the 572 Italian olive oils
// of Forina, Armanino, Lanteri and Tiscornia (1983, in: Food Research and Data Analysis, Applied
// Science Publishers, London), from the copy in Debian's r-cran-dslabs (Artistic-2.0), in parts of
// ten thousand as first published.
#include "oils/records/lots_file.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>

using namespace barwright;

namespace {

const oils::Library& library() {
  static const oils::Library all = oils::Library::embedded();
  return all;
}

oils::MeasuredLots read(const std::string& text) {
  return oils::read_lots_text(text, "lots.csv", *library().find("olive"));
}

std::string said(const std::string& text) {
  try {
    read(text);
  } catch (const core::InputError& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("measured lots are read by the names of the acids, per ten thousand", "[lots]") {
  const auto lots =
      oils::read_lots(BARWRIGHT_SOURCE_DIR "/tests/oils/olive-lots.csv", *library().find("olive"));
  REQUIRE(lots.lots.size() == 29);
  CHECK(lots.ignored == std::vector<std::string>{"area"});
  for (const auto& lot : lots.lots)
    CHECK(std::accumulate(lot.begin(), lot.end(), 0.0) == Approx(1).epsilon(1e-12));
  // The first: 1075 palmitic, 7823 oleic of 9996.
  CHECK(core::at(lots.lots[0], core::FattyAcid::C16_0) == Approx(1075.0 / 9996));
  CHECK(core::at(lots.lots[0], core::FattyAcid::C18_1) == Approx(7823.0 / 9996));
}

TEST_CASE("the main acids of measured olive lots lie within the published ranges", "[lots]") {
  const oils::Oil& olive = *library().find("olive");
  const auto lots = oils::read_lots(BARWRIGHT_SOURCE_DIR "/tests/oils/olive-lots.csv", olive);
  for (const auto& lot : lots.lots) {
    for (const auto acid : {core::FattyAcid::C16_0, core::FattyAcid::C16_1, core::FattyAcid::C18_0,
                            core::FattyAcid::C18_1, core::FattyAcid::C18_2}) {
      const core::Span& span = olive.acids[static_cast<std::size_t>(acid)]->span;
      CHECK(100 * core::at(lot, acid) >= span.low);
      CHECK(100 * core::at(lot, acid) <= span.high);
    }
  }
}

TEST_CASE("headings in several hands, and a sum a little short", "[lots]") {
  const auto lots = read("Oleic acid (%),C16:0,LINOLEIC,lot\n70,20,9,a\n");
  REQUIRE(lots.lots.size() == 1);
  CHECK(core::at(lots.lots[0], core::FattyAcid::C18_2) == Approx(9.0 / 99));
}

TEST_CASE("what cannot be read as lots is refused at its line", "[lots]") {
  CHECK(said("oleic,oleic acid\n50,50\n").find("stands there already") != std::string::npos);
  CHECK(said("lot,note\n1,2\n").find("no column names a fatty acid") != std::string::npos);
  CHECK(said("oleic,palmitic\n60,20\n").find("sum to 80") != std::string::npos);
  CHECK(said("oleic,palmitic\n60,40\n6000,4000\n").find("another whole") != std::string::npos);
  CHECK(said("oleic,palmitic\n60,lots\n").find("no share of a fatty acid") != std::string::npos);
  CHECK(said("oleic,palmitic\n60,-1\n").find("no share of a fatty acid") != std::string::npos);
  CHECK(said("oleic,palmitic\n60,40,3\n").find("3 cells, the first line 2") != std::string::npos);
  CHECK(said("oleic,palmitic\n").find("no lot stands") != std::string::npos);
  CHECK(said("").find("empty") != std::string::npos);
}
