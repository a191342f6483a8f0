#include "oils/text/journal_csv.hpp"

#include <algorithm>
#include <array>

#include "oils/text/text_check.hpp"

namespace barwright::oils {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out(1);
  for (const char c : text) {
    if (c == '\n')
      out.emplace_back();
    else if (c != '\r')
      out.back() += c;
  }
  return out;
}

// Whether a spreadsheet would reckon with this cell, apostrophes before it left out.
bool formula_after_quotes(std::string_view text) {
  const std::size_t first = text.find_first_not_of('\'');
  return first != std::string_view::npos &&
         std::string_view("=+-@\t\r").find(text[first]) != std::string_view::npos;
}

char separator_of(const std::string& first_line) {
  constexpr std::array kKnown = {',', ';', '\t'};
  const auto count = [&](char c) { return std::count(first_line.begin(), first_line.end(), c); };
  return *std::max_element(kKnown.begin(), kKnown.end(),
                           [&](char a, char b) { return count(a) < count(b); });
}

class TableReader {
 public:
  TableReader(const std::string& text, const std::string& name) : text_(text), name_(name) {
    check_text(text_, name_);
    if (text_.starts_with(kByteOrderMark)) text_.erase(0, kByteOrderMark.size());
    table_.lines = lines_of(text_);
    table_.separator = separator_of(table_.lines.front());
    const std::size_t end = text_.find('\n');
    if (end != std::string::npos && end > 0 && text_[end - 1] == '\r') table_.line_end = "\r\n";
    table_.ends_with_line_end = text_.empty() || text_.back() == '\n';
  }

  Table read() {
    while (at_ < text_.size()) row();
    return std::move(table_);
  }

 private:
  core::Place here() const { return {name_, line_, static_cast<int>(at_ - start_) + 1}; }

  bool at_line_end() const {
    return at_ >= text_.size() || text_[at_] == '\n' ||
           (text_[at_] == '\r' && (at_ + 1 >= text_.size() || text_[at_ + 1] == '\n'));
  }

  void next_line() {
    ++line_;
    start_ = at_;
  }

  void row() {
    std::vector<Cell> cells;
    for (;;) {
      cells.push_back(cell());
      if (at_ < text_.size() && text_[at_] == table_.separator) {
        ++at_;
        continue;
      }
      break;
    }
    if (at_ < text_.size() && text_[at_] == '\r') ++at_;
    if (at_ < text_.size() && text_[at_] == '\n') ++at_;
    next_line();
    const bool empty =
        std::all_of(cells.begin(), cells.end(), [](const Cell& each) { return each.text.empty(); });
    if (!empty) table_.rows.push_back(std::move(cells));
  }

  Cell cell() {
    Cell out;
    out.place = here();
    if (at_ < text_.size() && text_[at_] == '"') {
      quoted(out);
      return out;
    }
    while (!at_line_end() && text_[at_] != table_.separator) out.text += letter();
    return out;
  }

  char letter() { return text_[at_++]; }

  void quoted(Cell& out) {
    ++at_;
    for (;;) {
      if (at_ >= text_.size())
        table_.fail(out.place, "this quote never closes",
                    "Close it, or double a quote that is meant: \"\".");
      const char c = text_[at_];
      if (c == '"') {
        ++at_;
        if (at_ < text_.size() && text_[at_] == '"') {
          out.text += '"';
          ++at_;
          continue;
        }
        break;
      }
      if (c == '\n' || c == '\r') {
        out.text += c;
        ++at_;
        if (c == '\n') next_line();
        continue;
      }
      out.text += letter();
    }
    if (!at_line_end() && text_[at_] != table_.separator)
      table_.fail(here(), "text stands behind the closing quote",
                  "Double a quote that is meant: \"\".");
  }

  std::string text_, name_;
  Table table_;
  std::size_t at_ = 0, start_ = 0;
  int line_ = 1;
};

}  // namespace

void Table::fail(const core::Place& place, const std::string& message,
                 const core::Remedy& remedy) const {
  const auto line = static_cast<std::size_t>(place.line);
  throw core::InputError(place, message, remedy,
                         line >= 1 && line <= lines.size() ? lines[line - 1] : std::string());
}

Table read_table(const std::string& text, const std::string& name) {
  return TableReader(text, name).read();
}

std::string read_cell(std::string_view text) {
  if (text.starts_with('\'') && formula_after_quotes(text)) text.remove_prefix(1);
  return std::string(text);
}

std::string written_cell(std::string_view given, char separator) {
  // One more in front of one that stands there, so that it is read back as it was.
  const std::string text = (formula_after_quotes(given) ? "'" : "") + std::string(given);
  const bool quote = text.find_first_of("\"\r\n") != std::string::npos ||
                     text.find(separator) != std::string::npos ||
                     (!text.empty() && (text.front() == ' ' || text.back() == ' '));
  if (!quote) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

}  // namespace barwright::oils
