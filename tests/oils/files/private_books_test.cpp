// What a private shelf's books write beside it is as private as it.
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>

#include "oils/books/stock.hpp"
#include "oils/files/safe_file.hpp"
#include "oils/files/safe_file_posix.hpp"

using namespace barwright;
namespace fs = std::filesystem;

namespace {

/// The real disc, and the permissions each file has at the moment it is put in place.
class Watched : public oils::FileOps {
 public:
  std::map<std::string, unsigned> modes;
  std::optional<std::string> read(const std::string& path) override { return real_.read(path); }
  std::string target(const std::string& path) override { return real_.target(path); }
  int create(const std::string& path, const std::vector<std::string>& like) override {
    return real_.create(path, like);
  }
  void write(int file, std::string_view bytes) override { real_.write(file, bytes); }
  void sync(int file) override { real_.sync(file); }
  void close(int file) noexcept override { real_.close(file); }
  void rename(const std::string& from, const std::string& to) override {
    modes[fs::path(to).filename().string()] =
        static_cast<unsigned>(fs::status(from).permissions()) & 0777U;
    real_.rename(from, to);
  }
  void rename_new(const std::string& from, const std::string& to) override { rename(from, to); }
  void remove(const std::string& path) override { real_.remove(path); }
  void sync_folder(const std::string& folder) override { real_.sync_folder(folder); }

 private:
  oils::FileOps& real_ = oils::real_files();
};

}  // namespace

TEST_CASE("the redo note and the journal of a private shelf are private") {
  const fs::path folder = fs::temp_directory_path() / "barwright-private-note";
  fs::remove_all(folder);
  fs::create_directories(folder);
  const std::string shelf = (folder / "yard.yaml").string();
  std::ofstream(shelf) << "shelf: yard\nstock:\n  - {oil: olive, have: 4 kg, lot: M-77}\n";
  const oils::Library library = oils::Library::embedded();
  for (const unsigned mode : {0600U, 0640U, 0664U}) {
    CAPTURE(mode);
    fs::permissions(shelf, static_cast<fs::perms>(mode));
    fs::remove(oils::journal_path(shelf));
    Watched disc;
    auto books = oils::Books::open_with(disc, shelf, library, oils::Books::Mode::write);
    books.receive({{"castor", "1 kg", "", "", "C-" + std::to_string(mode), "", "", ""},
                   *core::find_day("2027-02-01")});
    CHECK(disc.modes.at(".yard-unfinished") == mode);
    CHECK(disc.modes.at("yard-journal.csv") == mode);
    CHECK(disc.modes.at("yard.yaml") == mode);
  }
  fs::remove_all(folder);
}
