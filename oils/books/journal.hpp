#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/trade/money.hpp"
#include "core/units/date.hpp"
#include "core/units/error.hpp"

namespace barwright::oils {

/// What a line of the journal says happened.
enum class Event {
  received,  ///< a lot came in: what, lot, grams (packaging: bars), money, until (best before),
             ///< note (supplier)
  reorder_level,  ///< from now on: what, grams or bars
  reserved,       ///< for a planned batch: batch, what, grams
  unreserved,     ///< batch: its reservations end
  made,           ///< batch, grams (poured), bars, until (cured), note (file)
  poured,         ///< batch, part, grams (poured), asked (cured, estimated from water loss)
  drawn,          ///< from the shelf: batch, part, what, lot, grams (as weighed), asked (sheet)
  used,           ///< from elsewhere (lye, water, colours): the same
  lye_heavy,      ///< batch, part, note: the weights leave free lye at worst
  held,           ///< batch, part, note: the weights lie outside the recipe
  let_go,         ///< batch, note: why what is held may go all the same
  defect,         ///< batch, bars (spoilt by it, may be 0), note
  noted,          ///< batch, note
  undone,         ///< batch: what was drawn is back on the shelf
  tested,         ///< batch, part, what ("pass" or "fail"), note (how)
  bars_in,        ///< batch, bars: counted after cutting or curing
  sold,           ///< batch, bars, money (for all of them)
  lost,           ///< batch, bars, note: given away, broken, kept
  sheet  ///< a bench sheet was given out: batch (as planned), what (the mark of its recipe),
         ///< bars (its running number), note (file)
};
/// Returns the word a file writes, e.g. "bars-in".
const char* word(Event event);

/// One line of the journal. Cells that say nothing stay empty.
struct Entry {
  core::Day date{};
  Event event = Event::noted;
  std::string batch, part, what, lot;
  std::optional<double> grams;  ///< g
  std::optional<double> asked;  ///< g
  std::optional<int> bars;      ///< or pieces of packaging, which have no grams
  std::optional<core::Cents> money;
  std::optional<core::Day> until;
  std::string note;
  core::Place place{};  ///< of the line; not written
};

/// Returns an entry that says no more yet than this.
Entry entry_of(const core::Day& date, Event event, const std::string& batch = {});

/// A journal: plain CSV that a spreadsheet opens, one line per event, only ever added to.
struct Journal {
  std::string file;
  std::string text;  ///< as read; empty when there is none yet
  std::vector<Entry> entries;
};

/// Returns the journal in this text (empty: none yet). Errors: InputError at file, line and column:
/// a column missing or unknown, an unknown event, a day that the calendar lacks or that lies
/// outside 2000 to 2199, what is no number, a cell the event needs.
Journal read_journal(const std::string& text, const std::string& name);

/// Returns the journal's text with these lines added behind it, in its own separator and line ends;
/// what stands there stays byte for byte, but for the format in its head where these lines need a
/// newer one. Grams to a hundredth.
std::string appended(const Journal& journal, std::span<const Entry> entries);

/// Returns grams as the journal writes them: to a hundredth, closing zeros off.
std::string written_grams(double grams);
/// Returns grams as the journal will read them back.
double journal_grams(double grams);

}  // namespace barwright::oils
