#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "oils/books/shelf.hpp"
#include "oils/books/shelf_reader.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

oils::Shelf shelf(const std::string& stock) {
  return oils::read_shelf_text("shelf: Weighbridge Yard\nstock:\n" + stock, "shelf.yaml", ".",
                               oils::Library::embedded());
}

/// One lot of an oil with these keys in its certificate.
oils::Shelf certified(const std::string& oil, const std::string& keys) {
  return shelf("  - {oil: " + oil + ", have: 5 kg, lot: M-7, certificate: {" + keys + "}}\n");
}

core::Span span(const oils::Oil& oil) { return oil.saponification_value.span; }

}  // namespace

TEST_CASE("a saponification value that cannot be this oil's is refused where it is read") {
  // Olive, CXS 33: 184 to 196 mg KOH/g. 190 read as mg NaOH/g is 266.5; coconut's is 248 to 265.
  CHECK_THROWS_WITH(certified("olive", "saponification-value: 190 mg NaOH/g"),
                    Contains("shelf.yaml:3:") && Contains("olive, lot M-7") &&
                        Contains("266.5 mg KOH/g") && Contains("184 to 196") &&
                        Contains("190.0: is the unit right?") && Contains("confirmed:"));
  CHECK_THROWS_WITH(certified("olive", "saponification-value: 257 mg KOH/g"),
                    Contains("outside the 184 to 196"));
  CHECK_THROWS_WITH(certified("olive", "saponification-value: 135 mg KOH/g"),
                    Contains("189.4: is the unit right?"));
  CHECK_THROWS_WITH(certified("coconut", "saponification-value: 190 mg KOH/g"),
                    Contains("248 to 265"));
  CHECK_NOTHROW(certified("olive", "saponification-value: 135 mg NaOH/g"));
  // Half a per cent beyond is within what the test itself can be off by.
  CHECK_NOTHROW(certified("olive", "saponification-value: 196.9 mg KOH/g"));
  CHECK_THROWS(certified("olive", "saponification-value: 197.1 mg KOH/g"));
  CHECK_NOTHROW(certified("olive", "saponification-value: 183.2 mg KOH/g"));
  CHECK_THROWS(certified("olive", "saponification-value: 182.9 mg KOH/g"));
}

TEST_CASE("a certificate against its own acids is refused where it is read") {
  const std::string acids = "acids: {C16:0: 12 %, C18:0: 3 %, C18:1: 74 %, C18:2: 11 %}";
  // These acids give 190.6; 195.5 lies inside the published range and 2.6 % off.
  CHECK_THROWS_WITH(certified("olive", "saponification-value: 195.5 mg KOH/g, " + acids),
                    Contains("195.5") && Contains("confirmed:"));
  CHECK_NOTHROW(certified("olive", "saponification-value: 190 mg KOH/g, " + acids));
  CHECK_THROWS_WITH(certified("olive", "iodine-value: 70 g I2/100 g, " + acids), Contains("70"));
  // Coconut's acids alone, on olive.
  CHECK_THROWS_WITH(
      certified("olive",
                "acids: {C8:0: 7 %, C10:0: 6 %, C12:0: 48 %, C14:0: 19 %, C16:0: 9 %, C18:0: 3 %, "
                "C18:1: 8 %}"),
      Contains("its acids give") && Contains("184 to 196"));
}

TEST_CASE("a doubted figure is taken once confirmed, with a reason, and is said") {
  const auto sure = certified("olive",
                              "saponification-value: 199 mg KOH/g, confirmed: second analysis at "
                              "another laboratory agrees")
                        .holding("olive");
  CHECK(span(sure->figures).typical == 199);
  CHECK_THAT(sure->figures.confirmed, Contains("olive, lot M-7") && Contains("199.0 mg KOH/g") &&
                                          Contains("second analysis at another laboratory"));
  CHECK_THROWS_WITH(certified("olive", "saponification-value: 199 mg KOH/g, confirmed: yes"),
                    Contains("gives no reason"));
  CHECK_THROWS_WITH(certified("olive", "saponification-value: 190 mg KOH/g, confirmed: why not so"),
                    Contains("nothing of olive, lot M-7 is in doubt"));
}

TEST_CASE("a record of the maker's own is questioned like a certificate") {
  const fs::path folder = fs::temp_directory_path() / "barwright-doubted-record";
  fs::create_directories(folder);
  const auto record = [&](const std::string& name, double value, const std::string& more = {}) {
    std::ofstream(folder / "mine.yaml")
        << "oil: " << name << "\n"
        << more
        << "inci: Olea Europaea Fruit Oil\nonce-saponified: Sodium Olivate\n"
           "name-status: established\nkind: triglyceride\ntags: [vegan]\nsolid-at-25C: no\n"
           "units: {acids: \"% of fatty acids\", saponification-value: mg KOH/g, "
           "iodine-value: g I2/100 g, unsaponifiable: \"% of fat\"}\n"
           "sources: {mill: \"Invented mill, invented figures\"}\n"
           "acids:\n  from: {source: mill, mark: read}\n  C18:1: {typical: 100, low: 100, high: "
           "100}\n"
           "saponification-value: {typical: "
        << value << ", low: " << value - 2 << ", high: " << value + 2
        << ", source: mill, mark: read}\n"
           "iodine-value: {typical: 85, low: 80, high: 88, source: mill, mark: read}\n"
           "unsaponifiable: {typical: 1, low: 1, high: 1, source: mill, mark: read}\n";
    auto library = oils::Library::embedded();
    library.add_folder(folder.string());
    return library;
  };
  // Pure triolein's 190.1, less 1 % unsaponifiable: 188.2.
  CHECK_NOTHROW(record("olive", 188.5));
  CHECK_THROWS_WITH(record("olive", 257),
                    Contains("mine.yaml:") && Contains("your record of 'olive'"));
  CHECK_THROWS_WITH(record("yard oil", 257), Contains("your record of 'yard oil'"));
  CHECK_THROWS_WITH(record("yard oil", 257, "like: coconut\n"), Contains("yard oil"));
  const auto taken = record("olive", 199, "confirmed: pressed from a mixed grove\n");
  CHECK_THAT(taken.find("olive")->confirmed, Contains("pressed from a mixed grove"));
  const std::string text = "shelf: x\nstock: [{oil: yard oil, record: mine.yaml, have: 1 kg}]\n";
  record("yard oil", 188);
  CHECK_NOTHROW(oils::read_shelf_text(text, "s.yaml", folder.string(), oils::Library::embedded()));
  CHECK_THROWS(record("yard oil", 257));
  CHECK_THROWS_WITH(
      oils::read_shelf_text(text, "s.yaml", folder.string(), oils::Library::embedded()),
      Contains("mine.yaml:") && Contains("in a record named by the shelf"));
  fs::remove_all(folder);
}

TEST_CASE("a certificate covers what its lot holds, no more") {
  const oils::Oil& published = *oils::Library::embedded().find("olive");
  const double low = span(published).low;  // 184, below 2 % under 190.6
  const std::string small =
      "  - {oil: olive, have: 100 g, certificate: {saponification-value: 189 mg KOH/g}}\n";
  const auto one = shelf(small).holding("olive");
  CHECK(span(one->figures_for(100)).low == 189);
  CHECK(one->figures_for(100).saponification_value.mark == core::Mark::certificate);
  const oils::Oil six = one->figures_for(600);
  CHECK(span(six).low == Approx((100 * 189 * 0.995 + 500 * low) / 600));
  CHECK(span(six).typical == Approx((100 * 189 + 500 * span(published).typical) / 600));
  CHECK(six.saponification_value.mark == published.saponification_value.mark);
  // Other parts take 60 g of the lot: 40 g are sure for this one.
  CHECK(span(one->figures_for(100, 60)).low == Approx((40 * 189 * 0.995 + 60 * low) / 100));
  CHECK(span(one->figures_for(100, 200)).low == low);

  const auto none =
      shelf("  - {oil: olive, have: 0 g, certificate: {saponification-value: 189 mg KOH/g}}\n")
          .holding("olive");
  CHECK(span(none->figures).low == low);
  CHECK(span(none->figures_for(600)).low == low);
  const auto kept = shelf(
                        "  - {oil: olive, have: 1 kg, keep: 1 kg, certificate: "
                        "{saponification-value: 189 mg KOH/g}}\n")
                        .holding("olive");
  CHECK(span(kept->figures_for(600)).low == low);
}

TEST_CASE("of several lots the worst that may be drawn is taken") {
  // 1 kg of the lower lot at most, the rest from the higher: whichever pail is opened first.
  const auto two =
      shelf(
          "  - {oil: olive, have: 1 kg, lot: A, certificate: {saponification-value: 186 mg "
          "KOH/g}}\n"
          "  - {oil: olive, have: 3 kg, lot: B, certificate: {saponification-value: 194 mg "
          "KOH/g}}\n")
          .holding("olive");
  CHECK(span(two->figures_for(800)).low == Approx(186 * 0.995));
  CHECK(span(two->figures_for(800)).high == Approx(194 * 1.005));
  CHECK(span(two->figures_for(2000)).low == Approx((186 + 194) / 2.0 * 0.995));
  CHECK(span(two->figures_for(4000)).low == Approx((186 + 3 * 194) / 4.0 * 0.995));
  CHECK(two->figures_for(2000).saponification_value.mark == core::Mark::certificate);
  CHECK(two->figures_for(5000).saponification_value.mark != core::Mark::certificate);
}
