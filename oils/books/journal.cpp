#include "oils/books/journal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "core/units/format.hpp"
#include "core/units/number_text.hpp"
#include "core/units/plain_text.hpp"
#include "oils/text/journal_csv.hpp"
#include "oils/text/names.hpp"
#include "oils/text/newer_format.hpp"
#include "oils/text/yaml.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils {
namespace {

enum Column { date, event, batch, part, what, lot, grams, asked, bars, money, until, note, kCount };

constexpr std::array<const char*, kCount> kColumns = {"date", "event", "batch", "part",
                                                      "what", "lot",   "grams", "asked",
                                                      "bars", "money", "until", "note"};

constexpr const char* kFormatWord = "format-";

struct Rule {
  Event event;
  const char* word;
  std::vector<Column> needs;
  bool counts = false;  ///< packaging is counted: its pieces in 'bars', no grams
};

const std::vector<Rule>& rules() {
  static const std::vector<Rule> all = {
      {Event::received, "received", {what, grams}, true},
      {Event::reorder_level, "reorder-level", {what, grams}, true},
      {Event::reserved, "reserved", {batch, what, grams}, true},
      {Event::unreserved, "unreserved", {batch}},
      {Event::made, "made", {batch, grams, bars, until}},
      {Event::poured, "poured", {batch, part, grams, asked}},
      {Event::drawn, "drawn", {batch, what, grams}, true},
      {Event::used, "used", {batch, what, grams}},
      {Event::lye_heavy, "lye-heavy", {batch, note}},
      {Event::held, "held", {batch, note}},
      {Event::let_go, "let-go", {batch, note}},
      {Event::defect, "defect", {batch, note}},
      {Event::noted, "noted", {batch, note}},
      {Event::undone, "undone", {batch}},
      {Event::tested, "tested", {batch, part, what}},
      {Event::bars_in, "bars-in", {batch, bars}},
      {Event::sold, "sold", {batch, bars}},
      {Event::lost, "lost", {batch, bars}},
      {Event::sheet, "sheet", {batch, what, bars, note}},
  };
  return all;
}

class JournalReader {
 public:
  explicit JournalReader(const Table& table) : table_(table) { header(); }

  std::vector<Entry> read() {
    std::vector<Entry> out;
    for (std::size_t i = 1; i < table_.rows.size(); ++i) out.push_back(entry(table_.rows[i]));
    return out;
  }

 private:
  void header() {
    const auto& row = table_.rows.front();
    at_.fill(-1);
    std::vector<std::string> names(kColumns.begin(), kColumns.end());
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string name = yaml::trimmed(row[i].text);
      if (is_format(row[i], name)) continue;
      const auto found = std::find(names.begin(), names.end(), name);
      if (found == names.end())
        table_.fail(row[i].place, fmt::format("'{}' is no column of a journal", name),
                    yaml::nearest_and_known(name, names));
      int& place = at_[static_cast<std::size_t>(found - names.begin())];
      if (place >= 0)
        table_.fail(row[i].place, fmt::format("the column '{}' stands twice", name),
                    "Take one of them out.");
      place = static_cast<int>(i);
    }
    for (std::size_t c = 0; c < kCount; ++c) {
      if (at_[c] < 0)
        table_.fail(row.front().place, fmt::format("the column '{}' is missing", kColumns[c]),
                    "The first line names the columns: " + header_line(',') + ".");
    }
  }

 public:
  static std::string header_line(char separator) {
    std::string out;
    for (const char* name : kColumns) out += (out.empty() ? "" : std::string(1, separator)) + name;
    return out;
  }

  /// Returns the header of a new journal: with its format, in a column that stays empty.
  static std::string new_header(char separator, int format) {
    return header_line(separator) + separator + kFormatWord + std::to_string(format);
  }

 private:
  // "format-1": a journal without it is of format 1.
  bool is_format(const Cell& cell, const std::string& name) const {
    if (!name.starts_with(kFormatWord)) return false;
    const std::string number = name.substr(std::string_view(kFormatWord).size());
    int format = 0;
    const auto read = std::from_chars(number.data(), number.data() + number.size(), format);
    const bool whole = read.ec == std::errc() && read.ptr == number.data() + number.size();
    if (whole && format > yaml::kFormat)
      table_.fail(cell.place, newer_format("journal", std::to_string(format)), kNewerFormatRemedy);
    if (!whole || format < 1)
      table_.fail(
          cell.place, fmt::format("there is no format '{}'", number),
          fmt::format("Write {}{}, or leave the column out.", kFormatWord, yaml::kPlainFormat));
    return true;
  }

  const Cell* cell(const std::vector<Cell>& row, Column column) const {
    const auto i = static_cast<std::size_t>(at_[column]);
    return i < row.size() && !yaml::trimmed_view(row[i].text).empty() ? &row[i] : nullptr;
  }

  std::string text(const std::vector<Cell>& row, Column column) const {
    const Cell* found = cell(row, column);
    return found == nullptr ? std::string() : read_cell(yaml::trimmed(found->text));
  }

  Entry entry(const std::vector<Cell>& row) const {
    if (row.size() > table_.rows.front().size())
      table_.fail(row[table_.rows.front().size()].place, "the line has more cells than columns",
                  "Put a text with a separator in it in quotes.");
    Entry out;
    out.place = row.front().place;
    const Cell* when = cell(row, date);
    if (when == nullptr)
      table_.fail(row.front().place, "the line has no date", "Write the day first: 2027-02-13.");
    out.date = day(*when);
    const Rule& rule = rule_of(row);
    out.event = rule.event;
    for (const Column need : rule.needs) {
      if (need == grams && rule.counts && cell(row, bars) != nullptr) continue;
      if (cell(row, need) == nullptr)
        table_.fail(row.front().place,
                    fmt::format("'{}' needs its '{}'", rule.word, kColumns[need]),
                    fmt::format("Fill in the cell in the column '{}'.", kColumns[need]));
    }
    out.batch = text(row, batch);
    out.part = text(row, part);
    out.what = text(row, what);
    out.lot = text(row, lot);
    out.note = text(row, note);
    if (const Cell* found = cell(row, grams)) out.grams = number(*found);
    if (const Cell* found = cell(row, asked)) out.asked = number(*found);
    if (const Cell* found = cell(row, bars)) out.bars = whole(*found);
    if (const Cell* found = cell(row, money)) out.money = core::cents(number(*found));
    if (const Cell* found = cell(row, until)) out.until = day(*found);
    if (out.event == Event::tested && out.what != "pass" && out.what != "fail")
      table_.fail(cell(row, what)->place, fmt::format("'{}' is no outcome of a test", out.what),
                  "Write pass or fail.");
    return out;
  }

  const Rule& rule_of(const std::vector<Cell>& row) const {
    const Cell* found = cell(row, event);
    std::vector<std::string> words;
    const std::string wanted = found == nullptr ? "" : yaml::trimmed(found->text);
    for (const Rule& rule : rules()) {
      if (wanted == rule.word) return rule;
      words.emplace_back(rule.word);
    }
    if (found == nullptr)
      table_.fail(row.front().place, "the line does not say what happened",
                  "Fill in 'event': " + yaml::one_of(words) + ".");
    table_.fail(found->place, fmt::format("'{}' is no event of a journal", wanted),
                yaml::nearest_and_known(wanted, words));
  }

  core::Day day(const Cell& from) const {
    const std::string written = yaml::trimmed(from.text);
    const auto found = core::find_day(written);
    if (!found)
      table_.fail(from.place, fmt::format("'{}' is not a day", written),
                  "Write year-month-day, such as 2027-03-31. (A spreadsheet may have turned it "
                  "into its own form: set the column to text.)");
    if (!core::is_plausible(*found))
      table_.fail(from.place,
                  fmt::format("{} lies outside the years {} to {}", written, core::kFirstYear,
                              core::kLastYear),
                  "Correct the year.");
    return *found;
  }

  double number(const Cell& from) const {
    std::string written = yaml::trimmed(from.text);
    // A spreadsheet that parts cells with semicolons writes a comma for the decimals.
    if (table_.separator == ';') std::replace(written.begin(), written.end(), ',', '.');
    double out = 0;
    const auto read = core::read_number(written.data(), written.data() + written.size(), out);
    if (read.ec != std::errc() || read.ptr != written.data() + written.size() ||
        !std::isfinite(out))
      table_.fail(
          from.place, fmt::format("'{}' is no number", from.text),
          "Write 1250.5: a full stop for the decimals, nothing between thousands, no unit.");
    if (out < 0 || out > 1e9)
      table_.fail(from.place,
                  fmt::format("{} cannot be: it is below zero or beyond all measure", from.text),
                  "Correct it. What left the shelf is written as a number of its own, not as a "
                  "minus.");
    return out;
  }

  int whole(const Cell& from) const {
    const double value = number(from);
    if (value != std::floor(value) || value > 1e6)
      table_.fail(from.place, fmt::format("'{}' is no whole number", from.text),
                  "Bars and packaging are counted whole.");
    return static_cast<int>(value);
  }

  const Table& table_;
  std::array<int, kCount> at_{};
};

std::string decimal(std::string text, char separator) {
  if (separator == ';') std::replace(text.begin(), text.end(), '.', ',');
  return text;
}

std::string line_of(const Entry& entry, char separator, const std::vector<int>& order) {
  std::array<std::string, kCount> cells;
  cells[date] = core::text(entry.date);
  cells[event] = word(entry.event);
  cells[batch] = entry.batch;
  cells[part] = entry.part;
  cells[what] = entry.what;
  cells[lot] = entry.lot;
  if (entry.grams) cells[grams] = decimal(written_grams(*entry.grams), separator);
  if (entry.asked) cells[asked] = decimal(written_grams(*entry.asked), separator);
  if (entry.bars) cells[bars] = std::to_string(*entry.bars);
  if (entry.money) cells[money] = decimal(core::money_text(*entry.money), separator);
  if (entry.until) cells[until] = core::text(*entry.until);
  cells[note] = entry.note;
  std::string out;
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (i > 0) out += separator;
    if (order[i] < 0) continue;
    // One line per event: a line break in a note becomes a space.
    out += written_cell(core::on_one_line(cells[static_cast<std::size_t>(order[i])]), separator);
  }
  return out;
}

/// Returns the least format in which these lines can be read.
int format_of(std::span<const Entry> entries) {
  const auto newer = [](const Entry& entry) {
    const bool pieces = entry.event == Event::received || entry.event == Event::reorder_level ||
                        entry.event == Event::reserved || entry.event == Event::drawn;
    return entry.event == Event::sheet || (pieces && !entry.grams);
  };
  return std::any_of(entries.begin(), entries.end(), newer) ? yaml::kFormat : yaml::kPlainFormat;
}

/// Returns a journal's text with its head saying this format; nothing else of it changes.
std::string with_format(const Journal& journal, const Table& table, int format) {
  std::string out = journal.text;
  const std::string now = kFormatWord + std::to_string(format);
  const std::size_t end = std::min(out.find_first_of("\r\n"), out.size());
  for (const Cell& cell : table.rows.front()) {
    const std::string name = yaml::trimmed(cell.text);
    if (!name.starts_with(kFormatWord)) continue;
    const std::size_t at = out.find(name);
    if (name < now && at < end) out.replace(at, name.size(), now);
    return out;
  }
  return out.insert(end, table.separator + now);
}

}  // namespace

const char* word(Event event) {
  for (const Rule& rule : rules()) {
    if (rule.event == event) return rule.word;
  }
  return "";
}

Entry entry_of(const core::Day& date, Event event, const std::string& batch) {
  Entry out;
  out.date = date;
  out.event = event;
  out.batch = batch;
  return out;
}

Journal read_journal(const std::string& text, const std::string& name) {
  Journal out;
  out.file = name;
  out.text = text;
  const Table table = read_table(text, name);
  if (!table.rows.empty()) out.entries = JournalReader(table).read();
  return out;
}

std::string appended(const Journal& journal, std::span<const Entry> entries) {
  const Table table = read_table(journal.text, journal.file);
  const int format = format_of(entries);
  std::string out = format > yaml::kPlainFormat && !table.rows.empty()
                        ? with_format(journal, table, format)
                        : journal.text;
  std::vector<int> order;  // which column stands where; -1: none of ours
  if (table.rows.empty()) {
    for (int i = 0; i < kCount; ++i) order.push_back(i);
    out += JournalReader::new_header(table.separator, format) + table.line_end;
  } else {
    for (const Cell& cell : table.rows.front()) {
      const auto found = std::find(kColumns.begin(), kColumns.end(), yaml::trimmed(cell.text));
      order.push_back(found == kColumns.end() ? -1 : static_cast<int>(found - kColumns.begin()));
    }
    while (!order.empty() && order.back() < 0) order.pop_back();
    if (!table.ends_with_line_end) out += table.line_end;
  }
  for (const Entry& entry : entries) out += line_of(entry, table.separator, order) + table.line_end;
  return out;
}

std::string written_grams(double grams) {
  std::string out = core::fixed(grams, 2);
  while (out.back() == '0') out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out;
}

double journal_grams(double grams) { return std::round(grams * 100) / 100; }

}  // namespace barwright::oils
