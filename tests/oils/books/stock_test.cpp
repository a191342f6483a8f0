#include "oils/books/stock.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "oils/books/shelf_reader.hpp"
#include "oils/books/trace.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using Catch::Matchers::Equals;
namespace fs = std::filesystem;

namespace {

const oils::Library& library() {
  static const oils::Library kept = oils::Library::embedded();
  return kept;
}

core::Day day(const char* text) { return *core::find_day(text); }

std::string slurp(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// A folder of its own with one shelf file in it.
struct Yard {
  fs::path folder;
  std::string shelf;
  explicit Yard(const std::string& name, const std::string& text)
      : folder(fs::temp_directory_path() / ("barwright-stock-" + name)) {
    fs::remove_all(folder);
    fs::create_directories(folder);
    shelf = (folder / "yard.yaml").string();
    std::ofstream(shelf, std::ios::binary) << text;
  }
  ~Yard() { fs::remove_all(folder); }
  oils::Books open(oils::Books::Mode mode = oils::Books::Mode::write) const {
    return oils::Books::open(shelf, library(), mode);
  }
  std::string journal() const { return slurp(oils::journal_path(shelf)); }
};

// Invented stock, with the comments a maker writes.
const std::string kShelf = R"(# Weighbridge Yard, counted on a wet Saturday
shelf: Weighbridge Yard
currency: EUR
stock:
  - oil: olive        # the big drum
    have: 4 kg        # dip-stick
    lot: M-77
    best-before: 2028-02-01
  - {oil: coconut, have: "2 x 2.5 kg", lot: K-3}   # two pails
  - {oil: castor, have: 1 L, lot: C-9}

# end of the list
)";

oils::Making bar(const std::string& id, double olive = 1400) {
  oils::Making making;
  making.id = id;
  making.file = "bar.yaml";
  making.date = day("2027-02-13");
  making.ready = day("2027-03-13");
  making.bars = 20;
  making.parts = {{"body", 2000, 1800}};
  making.wanted = {{"body", "olive", olive, olive}};
  return making;
}

}  // namespace

TEST_CASE("making draws the shelf down and touches nothing else of the file") {
  const Yard yard("draw", kShelf);
  auto making = bar("bar-2027-02-13");
  making.wanted.push_back({"body", "coconut", 612.5, 610});
  making.others = {{"body", "sodium hydroxide", "N-2", 203.4, {}, false}};
  making.notes = {"room was cold"};
  making.defects = {{"soda ash", 2}};
  {
    auto books = yard.open();
    const auto taken = books.make(making);
    CHECK(taken.size() == 2);
    CHECK(books.shelf().holding("olive")->grams == Approx(2600));
  }
  std::string wanted = kShelf;
  wanted.replace(wanted.find("4 kg"), 4, "2.6 kg");
  wanted.replace(wanted.find("2 x 2.5 kg"), 10, "4.3875 kg");
  CHECK_THAT(slurp(yard.shelf), Equals(wanted));
  CHECK_THAT(yard.journal(),
             Equals("date,event,batch,part,what,lot,grams,asked,bars,money,until,note,format-1\n"
                    "2027-02-13,made,bar-2027-02-13,,,,2000,,20,,2027-03-13,bar.yaml\n"
                    "2027-02-13,poured,bar-2027-02-13,body,,,2000,1800,,,,\n"
                    "2027-02-13,drawn,bar-2027-02-13,body,olive,M-77,1400,,,,,\n"
                    "2027-02-13,drawn,bar-2027-02-13,body,coconut,K-3,612.5,610,,,,\n"
                    "2027-02-13,used,bar-2027-02-13,body,sodium hydroxide,N-2,203.4,,,,,\n"
                    "2027-02-13,defect,bar-2027-02-13,,,,,,2,,,soda ash\n"
                    "2027-02-13,noted,bar-2027-02-13,,,,,,,,,room was cold\n"));

  SECTION("undo puts it back, adds to the journal and rewrites none of it") {
    const std::string before = yard.journal();
    yard.open().undo("bar", day("2027-02-14"), "wrong recipe");
    const auto books = yard.open();
    CHECK(books.shelf().holding("olive")->grams == Approx(4000));
    CHECK(books.shelf().holding("coconut")->grams == Approx(5000));
    CHECK(books.ledger().batches.empty());
    CHECK(books.ledger().undone.size() == 1);
    CHECK(yard.journal() == before + "2027-02-14,undone,bar-2027-02-13,,,,,,,,,wrong recipe\n");
  }
  SECTION("recorded twice is refused and changes nothing") {
    const std::string shelf = slurp(yard.shelf), journal = yard.journal();
    CHECK_THROWS_WITH(yard.open().make(making),
                      Contains("yard-journal.csv:2: batch 'bar-2027-02-13' is recorded already"));
    CHECK(slurp(yard.shelf) == shelf);
    CHECK(yard.journal() == journal);
    yard.open().undo("bar", day("2027-02-14"), "");
    CHECK_NOTHROW(yard.open().make(making));  // after an undo the name is free again
  }
  SECTION("a lot whose line is gone cannot be filled again in silence") {
    std::string text = slurp(yard.shelf);
    const auto at = text.find("  - {oil: coconut");
    text.erase(at, text.find('\n', at) + 1 - at);
    std::ofstream(yard.shelf, std::ios::binary) << text;
    CHECK_THROWS_WITH(yard.open().undo("bar", day("2027-02-14"), ""),
                      Contains("lot K-3 of coconut") && Contains("no longer stands in the shelf"));
    CHECK(slurp(yard.shelf) == text);
  }
}

TEST_CASE("drawing below zero changes nothing") {
  const Yard yard("zero", kShelf);
  CHECK_THROWS_WITH(yard.open().make(bar("big", 4000.01)), Contains("drawn below zero"));
  CHECK(slurp(yard.shelf) == kShelf);
  CHECK(yard.journal().empty());
}

TEST_CASE("a lot received is a line at the end of the list and a line of the journal") {
  const Yard yard("receive", kShelf);
  yard.open().receive({{"shea butter", "3 kg", "27.60 for 3 kg", "Millbank: oils & \"fats\"", "S-4",
                        "2028-06-30", "", "ref: CA-4, saponification-value: 181 mg KOH/g"},
                       day("2027-02-01")});
  std::string wanted = kShelf;
  wanted.insert(
      wanted.find("\n# end"),
      "  - {oil: shea butter, have: 3 kg, paid: 27.60 for 3 kg, supplier: \"Millbank: oils "
      "& \\\"fats\\\"\", lot: S-4, best-before: 2028-06-30, certificate: {ref: CA-4, "
      "saponification-value: 181 mg KOH/g}}\n");
  CHECK_THAT(slurp(yard.shelf), Equals(wanted));
  CHECK_THAT(yard.journal(),
             Contains("2027-02-01,received,,,shea butter,S-4,3000,,,27.60,2028-06-30,\"Millbank: "
                      "oils & \"\"fats\"\"\"\n"));
  {
    const auto books = yard.open(oils::Books::Mode::look);
    CHECK(books.shelf().lots.back().supplier == "Millbank: oils & \"fats\"");
    CHECK(*books.shelf().lots.back().certificate->saponification_value == 181);
  }

  const std::string before = slurp(yard.shelf);
  const auto receive = [&](const oils::NewLot& lot) {
    yard.open().receive({lot, day("2027-02-01")});
  };
  CHECK_THROWS_WITH(receive({"shea butter", "3 kg", "", "", "S-4", "", "", ""}),
                    Contains("lot S-4 of shea butter is on the shelf already"));
  CHECK_THROWS_WITH(receive({"olive", "3 stone", "", "", "Z", "", "", ""}), Contains("3 stone"));
  CHECK_THROWS_WITH(receive({"olive", "3 kg", "", "", "Z", "1890-01-01", "", ""}),
                    Contains("1890-01-01 lies outside"));
  CHECK_THROWS_WITH(receive({"olive", "3 kg", "9 GBP for 3 kg", "", "Z", "", "", ""}),
                    Contains("GBP"));
  CHECK(slurp(yard.shelf) == before);
}

TEST_CASE("a lot finds its place in lists of every shape, or the line to write is given") {
  const oils::NewLot lot{"castor", "1 kg", "", "", "C-1", "", "", ""};
  const auto with = [&](const std::string& text) {
    const auto shelf = oils::read_shelf_text(text, "s.yaml", ".", library());
    return oils::with_lots(text, shelf, std::vector{lot}).first;
  };
  const std::string line = "- {oil: castor, have: 1 kg, lot: C-1}";
  CHECK(with("shelf: a\nstock: []\n") == "shelf: a\nstock: \n  " + line + "\n");
  CHECK(with("shelf: a\nstock:\n- {oil: olive, have: 1 kg}") ==
        "shelf: a\nstock:\n- {oil: olive, have: 1 kg}\n" + line + "\n");
  CHECK(with("stock:\r\n  - oil: olive\r\n    have: 1 kg\r\nshelf: a\r\n") ==
        "stock:\r\n  - oil: olive\r\n    have: 1 kg\r\n  " + line + "\r\nshelf: a\r\n");
  CHECK_THROWS_WITH(with("shelf: a\nstock: {olive: 1 kg}\n"),
                    Contains("s.yaml:2:8") && Contains("Add it by hand") && Contains(line));
  CHECK_THROWS_WITH(with("shelf: a\nstock: [{oil: olive, have: 1 kg}]\n"),
                    Contains("Add it by hand"));
}

TEST_CASE("amounts change in every way a maker writes them") {
  const auto with = [&](const std::string& text, double grams) {
    const auto shelf = oils::read_shelf_text(text, "s.yaml", ".", library());
    return oils::with_grams(text, shelf, std::vector<oils::LotGrams>{{0, grams}});
  };
  CHECK(with("shelf: a\nstock: {olive: 1 kg, castor: 1 kg}\n", 250) ==
        "shelf: a\nstock: {olive: 0.25 kg, castor: 1 kg}\n");
  CHECK(with("\xEF\xBB\xBFstock: {olive: 900 g}\r\nshelf: b\xC3\xA9\r\n", 12.345) ==
        "\xEF\xBB\xBFstock: {olive: 12.35 g}\r\nshelf: b\xC3\xA9\r\n");
  CHECK(with("shelf: a\nstock:\n  - {oil: castor, have: '1 L'}\n", 0) ==
        "shelf: a\nstock:\n  - {oil: castor, have: '0 g'}\n");
  // One anchor for two lots: changing one would change both.
  CHECK_THROWS_WITH(with("shelf: a\nstock: {olive: &x 1 kg, castor: *x}\n", 250),
                    Contains("s.yaml:2"));
}

TEST_CASE("lots that cannot be told apart are pointed at before anything is written") {
  const Yard yard("apart",
                  "shelf: a\nstock:\n  - {oil: olive, have: 1 kg}\n  - {oil: olive oil, "
                  "have: 2 kg}\n");
  CHECK_NOTHROW(yard.open(oils::Books::Mode::look));
  CHECK_THROWS_WITH(yard.open(), Contains("yard.yaml:4:11: the olive without a lot number stands "
                                          "twice: first on line 3"));
}

TEST_CASE("a day in 1890 on the shelf is pointed at") {
  const Yard yard("1890",
                  "shelf: a\nstock:\n  - {oil: olive, have: 1 kg, best-before: 1890-05-01}\n");
  CHECK_THROWS_WITH(yard.open(oils::Books::Mode::look),
                    Contains("yard.yaml:3:") && Contains("1890-05-01 lies outside the years 2000"));
  auto making = bar("old");
  making.date = day("1890-01-01");
  const Yard other("1890b", kShelf);
  CHECK_THROWS_WITH(other.open().make(making), Contains("1890-01-01 lies outside"));
  CHECK(other.journal().empty());
}

TEST_CASE("planned batches on one shelf know of each other") {
  const Yard yard("plan", kShelf);
  yard.open().reserve("spring", std::vector<oils::Wanted>{{"", "olive", 2500, 2500}},
                      day("2027-02-01"));
  yard.open().reserve("fair", std::vector<oils::Wanted>{{"", "olive", 1400, 1400}},
                      day("2027-02-02"));
  {
    const auto books = yard.open(oils::Books::Mode::look);
    CHECK(books.shortages().empty());
    CHECK(books.free_shelf().holding("olive")->usable_grams() == Approx(100));
    const std::vector<oils::Wanted> more{{"", "olive", 200, 200}};
    const auto shortages = books.shortages(more, "third");
    REQUIRE(shortages.size() == 1);
    CHECK(shortages[0].batches == std::vector<std::string>{"spring", "fair"});
    CHECK(shortages[0].reserved == 3900);
    // A batch does not stand in its own way.
    CHECK(books.shortages(std::vector<oils::Wanted>{{"", "olive", 1500, 1500}}, "fair").empty());
  }
  yard.open().make(bar("fair", 1400));  // made: its plan is done with
  {
    const auto books = yard.open(oils::Books::Mode::look);
    CHECK(books.ledger().reserved.size() == 1);
    CHECK(books.ledger().reserved_grams("olive") == 2500);
  }
  CHECK_THROWS_WITH(yard.open().unreserve("sprig", day("2027-02-03")),
                    Contains("Did you mean 'spring'"));
  yard.open().unreserve("spring", day("2027-02-03"));
  const auto after = yard.open();
  CHECK(after.ledger().reserved.empty());
}

TEST_CASE("bars are sold only when fit to sell and there") {
  const Yard yard("sell", kShelf);
  yard.open().make(bar("bar"));
  const auto sell = [&](int count, const char* date) {
    yard.open().bars("bar", oils::Event::sold, count, 650 * count, day(date), "market");
  };
  CHECK_THROWS_WITH(sell(1, "2027-04-01"), Contains("bar is on hold: No test of the body"));
  yard.open().test("bar", std::vector<core::PartTest>{{"body", day("2027-02-20"), true, "no zap"}});
  CHECK_THROWS_WITH(sell(1, "2027-03-01"), Contains("bar is curing"));
  CHECK_NOTHROW(sell(18, "2027-03-13"));
  CHECK_THROWS_WITH(sell(3, "2027-03-14"), Contains("3 bars of bar are not there: 2 are"));
  {
    const auto sold = yard.open(oils::Books::Mode::look);
    CHECK(sold.ledger().batches[0].earned == 650 * 18);
  }
  CHECK_THROWS_WITH(yard.open().undo("bar", day("2027-04-01"), ""), Contains("were sold"));
}

TEST_CASE("two programs at once: every entry of both is there, and the shelf adds up") {
  const Yard yard("two", "shelf: a\nstock:\n  - {oil: olive, have: 10 kg, lot: M-1}\n");
  constexpr int kEach = 12;
  std::vector<pid_t> children;
  for (int child = 0; child < 2; ++child) {
    const pid_t pid = fork();
    if (pid == 0) {
      int code = 0;
      try {
        for (int i = 0; i < kEach; ++i) {
          auto books = oils::Books::open(yard.shelf, library(), oils::Books::Mode::write,
                                         std::chrono::minutes(2));
          books.make(bar(std::string(child == 0 ? "a" : "b") + std::to_string(i), 100));
        }
      } catch (...) {
        code = 1;
      }
      _exit(code);
    }
    children.push_back(pid);
  }
  for (const pid_t pid : children) {
    int status = 0;
    REQUIRE(waitpid(pid, &status, 0) == pid);
    CHECK(WEXITSTATUS(status) == 0);
  }
  const auto books = yard.open();
  CHECK(books.ledger().batches.size() == 2 * kEach);
  CHECK(books.shelf().holding("olive")->grams == Approx(10000 - 2 * kEach * 100));
}

TEST_CASE("books that another program holds are named so") {
  const Yard yard("held", kShelf);
  const auto books = yard.open();
  CHECK_THROWS_WITH(oils::Books::open(yard.shelf, library(), oils::Books::Mode::write,
                                      std::chrono::milliseconds(0)),
                    Contains("another barwright is writing in these books (process ") &&
                        Contains("Nothing was changed"));
}
