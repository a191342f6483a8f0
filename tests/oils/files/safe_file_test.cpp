#include "oils/files/safe_file.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>

#include "oils/books/stock.hpp"
#include "oils/files/safe_file_posix.hpp"
#include "tests/oils/files/safe_file_disc.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using tests::Disc;
namespace fs = std::filesystem;

namespace {

/// Three oils: the books are opened many thousand times here.
const oils::Library& library() {
  static const oils::Library kept = [] {
    const oils::Library all = oils::Library::embedded();
    oils::Library few;
    for (const char* name : {"olive", "coconut", "castor"}) few.add(*all.find(name));
    return few;
  }();
  return kept;
}

core::Day day(const char* text) { return *core::find_day(text); }

// Invented stock.
const std::string kShelf = R"(shelf: Weighbridge Yard   # the yard's own pails
currency: EUR
stock:
  - {oil: olive, have: 4 kg, paid: 30 for 5 kg, lot: M-77, best-before: 2028-02-01}
  # the old pail: use it up first
  - {oil: olive, have: 1 kg, paid: 9 for 1 kg, lot: M-12, best-before: 2027-05-01, keep: 200 g}
  - {oil: coconut, have: 2 x 2.5 kg, lot: K-3}
)";

oils::Making slipway() {
  oils::Making making;
  making.id = "slipway-2027-02-13";
  making.file = "slipway.yaml";
  making.date = day("2027-02-13");
  making.ready = day("2027-03-27");
  making.bars = 36;
  making.parts = {{"body", 4100, 3600}};
  making.wanted = {{"body", "olive", 1400, 1400}, {"body", "coconut", 600, 600}};
  making.others = {{"body", "sodium hydroxide", "", 280, {}, false},
                   {"body", "water", "", 570, {}, false}};
  return making;
}

/// Everything a workshop's day writes, one entry after another.
using Deed = void (*)(oils::Books&);
const std::vector<std::pair<const char*, Deed>>& deeds() {
  static const std::vector<std::pair<const char*, Deed>> all = {
      {"receive",
       [](oils::Books& books) {
         books.receive(
             {{"castor", "1 kg", "9.80 for 1 kg", "Millbank", "C-9", "2029-01-01", "", ""},
              day("2027-02-01")});
       }},
      {"reorder level",
       [](oils::Books& books) { books.set_reorder_level("olive", 2000, day("2027-02-01")); }},
      {"reserve",
       [](oils::Books& books) {
         books.reserve("spring", std::vector<oils::Wanted>{{"", "olive", 900, 900}},
                       day("2027-02-02"));
       }},
      {"make", [](oils::Books& books) { books.make(slipway()); }},
      {"test",
       [](oils::Books& books) {
         books.test("slipway",
                    std::vector<core::PartTest>{{"body", day("2027-03-20"), true, "no zap"}});
       }},
      {"count in",
       [](oils::Books& books) {
         books.bars("slipway", oils::Event::bars_in, 35, {}, day("2027-03-28"), "");
       }},
      {"unreserve", [](oils::Books& books) { books.unreserve("spring", day("2027-03-01")); }},
      {"undo", [](oils::Books& books) { books.undo("slipway", day("2027-03-29"), "typed twice"); }},
  };
  return all;
}

using State = std::map<std::string, std::string>;

/// The two files that make up the books; what else lies about is none of the state.
State books_of(const State& files) {
  State out;
  for (const char* name : {"yard.yaml", "yard-journal.csv"}) {
    const auto found = files.find(name);
    if (found != files.end()) out[name] = found->second;
  }
  return out;
}

/// What one finds on opening the books again after a cut. Temporary files make no difference (each
/// is emptied before use): states that differ in them alone are looked at once.
State reopened(const State& found) {
  static std::map<State, State> seen;
  State key;
  for (const auto& [path, bytes] : found) {
    if (!path.ends_with(".part")) key[path] = bytes;
  }
  const auto known = seen.find(key);
  if (known != seen.end()) return known->second;
  Disc disc;
  disc.files = found;
  disc.settle();
  oils::Books::open_with(disc, "yard.yaml", library(), oils::Books::Mode::write);
  CHECK(disc.files.find(".yard-unfinished") == disc.files.end());
  return seen[key] = books_of(disc.files);
}

void do_deed(Disc& disc, Deed deed) {
  auto books = oils::Books::open_with(disc, "yard.yaml", library(), oils::Books::Mode::write);
  deed(books);
}

}  // namespace

TEST_CASE("a power cut at any byte of any entry leaves the old or the new books") {
  Disc disc;
  disc.files = {{"yard.yaml", kShelf}};
  disc.settle();
  long points = 0, old_states = 0, new_states = 0;
  for (const auto& [name, deed] : deeds()) {
    INFO(name);
    const State before = disc.files;
    Disc whole;
    whole.files = before;
    whole.settle();
    do_deed(whole, deed);
    const State after = books_of(whole.files);
    REQUIRE(after != books_of(before));
    for (long cut = 0; cut < whole.steps; ++cut) {
      Disc broken;
      broken.files = before;
      broken.settle();
      broken.then = Disc::Then::cut;
      broken.cut_after = cut;
      CHECK_THROWS_AS(do_deed(broken, deed), tests::PowerCut);
      for (const auto survives :
           {Disc::Survives::everything, Disc::Survives::synced,
            Disc::Survives::names_unsynced_bytes_lost, Disc::Survives::bytes_half}) {
        ++points;
        const State found = reopened(broken.after_cut(survives));
        const bool is_old = found == books_of(before);
        const bool is_new = found == after;
        old_states += is_old ? 1 : 0;
        new_states += is_new ? 1 : 0;
        if (!is_old && !is_new) {
          CAPTURE(cut, static_cast<int>(survives));
          FAIL("neither the old nor the new books");
        }
      }
    }
    disc.files = whole.files;
  }
  INFO(points << " points, " << old_states << " old, " << new_states << " new");
  CHECK(points > 20000);
  CHECK(old_states > 1000);
  CHECK(new_states > 1000);
}

TEST_CASE("a disc that fails at any step loses nothing, and says which state stands") {
  Disc disc;
  disc.files = {{"yard.yaml", kShelf}};
  disc.settle();
  long points = 0;
  for (const auto& [name, deed] : deeds()) {
    INFO(name);
    const State before = disc.files;
    Disc whole;
    whole.files = before;
    whole.settle();
    do_deed(whole, deed);
    const State after = books_of(whole.files);
    for (long cut = 0; cut < whole.steps; ++cut) {
      Disc broken;
      broken.files = before;
      broken.settle();
      broken.then = Disc::Then::full;
      broken.cut_after = cut;
      ++points;
      bool told_new = false;
      try {
        do_deed(broken, deed);
        FAIL("the failure was swallowed");
      } catch (const oils::FileError& error) {
        told_new = error.after_commit;
        CHECK_THAT(error.what(), Contains(told_new ? "The entry is on record" : "as they were"));
      }
      const State found = reopened(broken.files);
      if (found != (told_new ? after : books_of(before))) {
        CAPTURE(cut, told_new);
        FAIL("not the state that was told");
      }
    }
    disc.files = whole.files;
  }
  CHECK(points > 2000);
}

TEST_CASE("the disc of these tests does catch a writer that does not sync") {
  Disc disc;
  disc.files = {{"a", "old"}};
  disc.settle();
  disc.skip_sync = true;
  oils::SafeWriter writer(disc, "note");
  writer.commit({{"a", "old", "new"}});
  CHECK(disc.files.at("a") == "new");
  CHECK(disc.after_cut(Disc::Survives::synced).at("a").empty());  // lost: neither old nor new
}

TEST_CASE("looking at books with a cut-off entry shows the entry and writes nothing") {
  Disc disc;
  disc.files = {{"yard.yaml", kShelf}};
  disc.settle();
  Disc whole = disc;
  do_deed(whole, deeds()[3].second);
  // Cut between the two renames: the note is there, the shelf file is still the old one.
  for (long cut = whole.steps - 1; cut > 0; --cut) {
    Disc broken = disc;
    broken.then = Disc::Then::cut;
    broken.cut_after = cut;
    CHECK_THROWS_AS(do_deed(broken, deeds()[3].second), tests::PowerCut);
    if (!broken.files.contains(".yard-unfinished") || broken.files.at("yard.yaml") != kShelf)
      continue;
    broken.then = Disc::Then::never;
    const State found = broken.files;
    const auto books =
        oils::Books::open_with(broken, "yard.yaml", library(), oils::Books::Mode::look);
    CHECK(books.ledger().find("slipway-2027-02-13") != nullptr);
    CHECK(books.shelf().holding("coconut")->grams == Approx(4400));
    CHECK(broken.files == found);

    SECTION("a hand edit in between is found and not overwritten") {
      broken.files.at("yard.yaml") += "# counted by hand\n";
      broken.settle();
      const State edited = broken.files;
      CHECK_THROWS_WITH(
          oils::Books::open_with(broken, "yard.yaml", library(), oils::Books::Mode::write),
          Contains("changed by hand while an entry was cut off") && Contains("yard.yaml"));
      CHECK(broken.files == edited);
    }
    SECTION("a note that was edited is not believed") {
      broken.files.at(".yard-unfinished")[40] ^= 1;
      broken.settle();
      const State edited = broken.files;
      CHECK_THROWS_WITH(
          oils::Books::open_with(broken, "yard.yaml", library(), oils::Books::Mode::write),
          Contains("cannot be read"));
      CHECK(broken.files == edited);
    }
    return;
  }
  FAIL("no such point was found");
}

TEST_CASE("a file changed by an editor while a command runs is never overwritten") {
  Disc disc;
  disc.files = {{"yard.yaml", kShelf}};
  disc.settle();
  auto books = oils::Books::open_with(disc, "yard.yaml", library(), oils::Books::Mode::write);
  disc.files.at("yard.yaml") += "# saved meanwhile\n";
  disc.settle();
  const State edited = disc.files;
  CHECK_THROWS_WITH(books.make(slipway()), Contains("was changed while barwright worked on it"));
  CHECK(disc.files == edited);
}

TEST_CASE("real files are replaced whole and keep their permissions") {
  const fs::path folder = fs::temp_directory_path() / "barwright-safe-file";
  fs::remove_all(folder);
  fs::create_directories(folder);
  const std::string path = (folder / "a.csv").string();
  std::ofstream(path) << "old\n";
  fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write);
  oils::SafeWriter writer(oils::real_files(), (folder / ".note").string());
  writer.commit({{path, "old\n", "new\n"}, {(folder / "b.csv").string(), std::nullopt, "b\n"}});
  CHECK(*oils::real_files().read(path) == "new\n");
  CHECK(*oils::real_files().read((folder / "b.csv").string()) == "b\n");
  CHECK((fs::status(path).permissions() & fs::perms::others_read) == fs::perms::none);
  CHECK(std::distance(fs::directory_iterator(folder), fs::directory_iterator()) == 2);
  CHECK_THROWS_AS(writer.commit({{"/nowhere/at/all.csv", std::nullopt, "x"}}), oils::FileError);
  fs::remove_all(folder);
}

namespace {

/// A disc on which somebody edits the journal by hand at a step of an entry.
class EditedDisc : public Disc {
 public:
  long edit_at = -1;
  bool edited = false;
  int create(const std::string& path, const std::vector<std::string>& like) override {
    edit();
    return Disc::create(path, like);
  }
  void sync_folder(const std::string& folder) override {
    Disc::sync_folder(folder);
    edit();
  }

 private:
  void edit() {
    if (edit_at < 0 || --edit_at >= 0) return;
    auto now = files;
    now["yard-journal.csv"] += "2027-01-09,noted,slipway,,,,,,,,,by hand\n";
    files = now;
    settle();
    edited = true;
  }
};

}  // namespace

TEST_CASE("a journal edited by hand while an entry is written is not overwritten in silence") {
  Disc disc;
  disc.files = {{"yard.yaml", kShelf}};
  disc.settle();
  do_deed(disc, [](oils::Books& books) { books.make(slipway()); });
  const std::string line = "by hand";
  int told = 0;
  for (long step = 0;; ++step) {
    EditedDisc edited;
    edited.files = disc.files;
    edited.settle();
    edited.edit_at = step;
    bool failed = false;
    try {
      auto books = oils::Books::open_with(edited, "yard.yaml", library(), oils::Books::Mode::write);
      books.receive({{"castor", "1 kg", "", "", "C-9", "", "", ""}, day("2027-02-01")});
    } catch (const core::InputError& error) {
      failed = true;
    }
    if (!edited.edited) break;
    INFO("edited at step " << step);
    // Either what was typed stands there, or the maker was told that it does not.
    const bool kept = edited.files["yard-journal.csv"].find(line) != std::string::npos;
    told += failed ? 1 : 0;
    CHECK((kept || failed));
    if (failed) CHECK(kept);
  }
  CHECK(told > 0);
}
