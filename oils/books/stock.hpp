#pragma once

#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "oils/books/draw.hpp"
#include "oils/books/ledger.hpp"
#include "oils/books/shelf.hpp"
#include "oils/books/shelf_writer.hpp"
#include "oils/files/file_lock.hpp"
#include "oils/files/safe_file.hpp"

namespace barwright::oils {

/// What is typed in when a lot arrives.
struct Arrival {
  NewLot lot;
  core::Day date{};
};

/// What is typed in when a batch was made.
struct Making {
  std::string id;
  std::string file;
  core::Day date{};
  core::Day ready{};
  int bars = 0;
  std::vector<core::PartWeight> parts;
  std::vector<Wanted> wanted;  ///< from the shelf
  std::vector<Use> others;     ///< what stands on no shelf: water, ...
  LotChoice lots;
  std::vector<Defect> defects;
  std::vector<std::string> notes;
  std::vector<std::pair<std::string, std::string>> lye_heavy;  ///< part, why
  std::vector<std::pair<std::string, std::string>> held;       ///< part, why
};

/// What a batch planned or made does to others that count on the same shelf.
struct Shortage {
  std::string oil;                   ///< or what else stands there
  double there = 0;                  ///< g usable on the shelf
  double reserved = 0;               ///< g planned batches count on, this one left out
  double wanted = 0;                 ///< g for this one
  std::vector<std::string> batches;  ///< who else counts on it, in the order planned
  StockKind kind = StockKind::oil;   ///< of packaging all these are pieces
};

/// A workshop's books: the shelf file (stock of lots) and, beside it, its journal. Opened, looked
/// at, added to; each change is one whole entry in both files or in neither.
class Books {
 public:
  enum class Mode { look, write };
  /// `look` changes nothing on disk (an entry cut off is shown as it will be); `write` locks the
  /// books and completes such an entry first. Errors: InputError in shelf or journal, pointed at;
  /// FileError; the books are locked.
  static Books open(const std::string& shelf_path, const Library& library, Mode mode,
                    std::chrono::milliseconds patience = std::chrono::seconds(5));
  /// The same over other file operations and without a lock, for tests.
  static Books open_with(FileOps& files, const std::string& shelf_path, const Library& library,
                         Mode mode);

  const Shelf& shelf() const& { return shelf_; }
  const Ledger& ledger() const& { return ledger_; }
  const Shelf& shelf() && = delete;
  const Ledger& ledger() && = delete;
  const std::string& journal_file() const { return journal_.file; }
  /// Whether an entry that had been cut off was completed on opening.
  bool recovered() const { return recovered_; }

  /// Returns the shelf with what planned batches count on kept back, as a search should see it;
  /// what is kept for the batch `but` is free for itself.
  Shelf free_shelf(std::string_view but = {}) const;
  /// Returns the oils of which planned batches (and `wanted`, by a batch named `id`) together need
  /// more than the shelf holds.
  std::vector<Shortage> shortages(std::span<const Wanted> wanted = {},
                                  const std::string& id = {}) const;

  /// Each records one entry. Errors: InputError, FileError; then nothing has changed (but see
  /// FileError::after_commit).
  void receive(const Arrival& arrival);
  void receive(std::span<const Arrival> arrivals);
  /// Gives a sheet of this batch, file and mark its number: that of the one given out last for it
  /// where nothing changed and no batch of it was recorded since, else the next.
  int give_sheet(const std::string& batch, const std::string& file, const std::string& mark,
                 const core::Day& date);
  void reserve(const std::string& batch, std::span<const Wanted> wanted, const core::Day& date);
  void unreserve(const std::string& batch, const core::Day& date);
  /// Returns what of it may be used and is not reserved, g (packaging: pieces).
  double free_amount(const std::string& what) const;
  /// Of packaging in pieces.
  void set_reorder_level(const std::string& oil, double grams, const core::Day& date);
  /// Returns what came from which lot.
  std::vector<Draw> make(const Making& making);
  void undo(const std::string& batch, const core::Day& date, const std::string& note);
  void test(const std::string& batch, std::span<const core::PartTest> tests);
  /// Lets go what is held for its weights, for a reason in words. Errors besides: nothing is held;
  /// free lye can be left, which no word clears; no reason that says anything.
  void let_go(const std::string& batch, const core::Day& date, const std::string& why);
  void bars(const std::string& batch, Event event, int count, std::optional<core::Cents> money,
            const core::Day& date, const std::string& note);

 private:
  Books(FileOps& files, const std::string& shelf_path);
  void read(const Library& library);
  void record(std::span<const Entry> entries, const std::string& shelf_text);
  std::string with_taken(std::span<const Draw> taken, double sign) const;

  FileOps* files_;
  std::string shelf_path_;
  SafeWriter writer_;
  std::optional<FileLock> lock_;
  bool writing_ = false, recovered_ = false;
  std::string shelf_text_;
  std::optional<std::string> journal_text_;
  Shelf shelf_;
  Journal journal_;
  Ledger ledger_;
};

/// Return the paths beside a shelf file "yard-shelf.yaml": "yard-shelf-journal.csv",
/// ".yard-shelf-unfinished", ".yard-shelf-lock".
std::string journal_path(const std::string& shelf_path);
std::string note_path(const std::string& shelf_path);
std::string lock_path(const std::string& shelf_path);

}  // namespace barwright::oils
