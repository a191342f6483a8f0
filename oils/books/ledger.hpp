#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/bench/release.hpp"
#include "oils/books/journal.hpp"

namespace barwright::oils {

/// Something that went into a batch.
struct Use {
  std::string part;  ///< may be empty: shared by all parts
  std::string what;
  std::string lot;  ///< may be empty: a lot without a number
  double grams = 0;
  std::optional<double> asked;  ///< g on the sheet, where another weight was typed in
  bool from_shelf = false;
  bool pieces = false;  ///< packaging: `grams` are pieces
};

/// Something that went wrong with a batch.
struct Defect {
  std::string what;
  int bars = 0;  ///< spoilt by it
};

/// A batch as the journal tells it.
struct BatchRecord {
  std::string id;    ///< "slipway-2027-02-13"
  std::string file;  ///< what it was made from
  core::Day made{};
  core::Day ready{};
  int bars = 0;  ///< as cut, by the plan
  double poured_grams = 0;
  std::vector<core::PartWeight> parts;
  std::vector<Use> uses;
  std::vector<std::string> notes;
  std::vector<Defect> defects;
  std::vector<core::PartTest> tests;
  std::optional<std::string> lye_heavy;  ///< why, when weights leave free lye at worst
  std::vector<std::string> held;         ///< why, when weights lie outside the recipe
  std::optional<core::LetGo> let_go;     ///< why they may go all the same
  std::optional<int> counted;            ///< bars counted in
  int sold = 0, lost = 0;
  core::Cents earned = 0;
  core::Place place;  ///< of its line

  /// Returns the bars that are still there: counted (else as cut, less the spoilt ones), less those
  /// sold and lost.
  int bars_left() const;
  int spoilt() const;
  core::ReleaseRequest release_request() const;
};

/// A lot that came in.
struct Receipt {
  core::Day date{};
  std::string what, lot, supplier;
  double grams = 0;
  std::optional<core::Cents> paid;
  std::optional<core::Day> best_before;
  core::Place place;
  bool pieces = false;  ///< packaging: `grams` are pieces
};

/// Oil that a planned batch counts on.
struct Reservation {
  std::string batch;
  core::Day date{};
  std::map<std::string, double> grams;  ///< by what is reserved; of packaging pieces
  core::Place place;
};

/// A bench sheet that was given out.
struct SheetGiven {
  int number = 0;  ///< the workshop's running number
  core::Day date{};
  std::string batch;  ///< as planned
  std::string file;
  std::string mark;   ///< of the recipe as weighed then
  bool made = false;  ///< a batch of its file was recorded since
  core::Place place;
};

/// What all lines of a journal come to.
struct Ledger {
  std::vector<BatchRecord> batches;  ///< in the order made
  std::vector<BatchRecord> undone;
  std::vector<Receipt> receipts;
  std::vector<Reservation> reserved;      ///< still open, in the order planned
  std::map<std::string, double> reorder;  ///< g (packaging: pieces) by what it is of
  std::vector<SheetGiven> sheets;         ///< in the order given out

  const BatchRecord* find(std::string_view id) const;
  /// Returns the sheet of a file given out last, if no batch of it was recorded since.
  const SheetGiven* open_sheet(std::string_view file) const;
  /// Returns the g of an oil that planned batches count on, `but` left out.
  double reserved_grams(const std::string& oil, std::string_view but = {}) const;
};

/// Returns the ledger. Errors: InputError at the line of the journal: a batch made twice (both
/// lines named), an event of a batch that was never made, a part the batch lacks, more bars sold
/// than there were, bars sold of a batch that was on hold, before the day it was made.
Ledger ledger_of(const Journal& journal);

/// Returns a batch's name as its id holds it: spaces as hyphens, so that it can be typed bare.
std::string batch_word(std::string_view name);

/// Returns the batch of this id, or the only one made under this name ("slipway"). Errors:
/// InputError that lists what there is.
const BatchRecord& need_batch(const Ledger& ledger, const std::string& id,
                              const std::string& journal_file);
const BatchRecord& need_batch(Ledger&& ledger, const std::string& id,
                              const std::string& journal_file) = delete;

}  // namespace barwright::oils
