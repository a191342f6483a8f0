#include "solver/app/print/screen.hpp"

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "core/units/plain_text.hpp"
#include "core/units/weight_text.hpp"
#include "solver/app/run.hpp"

namespace barwright::app {
namespace {

constexpr std::size_t kWidth = 88;
constexpr std::size_t kLeastWidth = 40;
constexpr std::size_t kIndent = 2;
constexpr std::size_t kLeastCell = 32;  // a last column narrower than this is not wrapped

// Bytes that start a character: enough for aligning the Latin names a maker types.
std::size_t width(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !core::inside_letter(c); }));
}

std::string trimmed(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

// A number stays with the word behind it: "3 %", "2.4 kg", "7 days".
bool is_number(std::string_view word) {
  return word.find_first_of("0123456789") != std::string_view::npos &&
         word.find_first_not_of("0123456789.,+-(") == std::string_view::npos &&
         word.back() != ',' && word.back() != '.';
}

// Where a person looks: not in a pipe, a file or another program's run.
bool on_a_terminal() { return surroundings().terminal && isatty(STDOUT_FILENO) == 1; }

// A terminal may be narrower than the page; all else gets the same bytes everywhere.
std::size_t page_width() {
  winsize size{};
  if (!on_a_terminal() || ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
    return kWidth;
  return std::clamp<std::size_t>(size.ws_col, kLeastWidth, kWidth);
}

// A cell or a title is one line, whatever a file wrote into it.
std::string plain(std::string text) {
  text = core::on_one_line(text);
  for (std::size_t at = 0; (at = text.find(kNoBreak, at)) != std::string::npos;) {
    text.replace(at, 2, " ");
  }
  return text;
}

// Returns the text in lines no wider than `room` where its words allow; at least one.
std::vector<std::string> wrapped(std::string_view given, std::size_t room) {
  const std::string text = core::on_one_line(given);
  std::vector<std::string> words;
  bool glue = false;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = text.find(' ', at);
    if (end == std::string::npos) end = text.size();
    const std::string_view word = std::string_view(text).substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    if (glue) {
      words.back() += ' ';
      words.back() += word;
    } else {
      words.emplace_back(word);
    }
    glue = is_number(word);
  }
  std::vector<std::string> lines(1);
  for (auto& word : words) {
    word = plain(word);
    if (lines.back().empty()) {
      lines.back() = word;
    } else if (width(lines.back()) + 1 + width(word) > room) {
      lines.push_back(word);
    } else {
      lines.back() += ' ' + word;
    }
  }
  return lines;
}

}  // namespace

Screen::Screen(bool colour) : colour_(colour), width_(page_width()) {}

void Screen::title(std::string_view given, std::string_view right) {
  const std::string left = plain(std::string(given));
  const std::size_t used = width(left) + width(right);
  text_ += colour_ ? fmt::format("\x1b[1m{}\x1b[0m", left) : left;
  if (!right.empty()) {
    text_ += used + 2 <= width_ ? std::string(width_ - used, ' ') : "\n  ";
    text_ += right;
  }
  text_ += '\n';
}

void Screen::heading(std::string_view text, std::string_view beside) {
  blank();
  const std::string line = plain(std::string(text));
  text_ += colour_ ? fmt::format("\x1b[1m{}\x1b[0m", line) : line;
  if (width_ < kWidth && !beside.empty() && width(line) + 3 + width(beside) > width_) {
    text_ += '\n';
    sentence(beside);
    return;
  }
  if (!beside.empty()) text_ += fmt::format("   {}", beside);
  text_ += '\n';
}

void Screen::sentence(std::string_view text, std::string_view mark) {
  const std::string lead = mark.empty() ? std::string() : fmt::format("{} ", mark);
  const std::size_t hang = kIndent + width(lead);
  text_ += std::string(kIndent, ' ') + lead;
  bool first = true;
  for (const auto& line : wrapped(text, width_ - hang)) {
    if (!first) text_ += std::string(hang, ' ');
    text_ += line + '\n';
    first = false;
  }
}

void Screen::danger(std::string_view text) {
  if (colour_) text_ += "\x1b[1;31m";
  sentence(text, "DANGER");
  if (colour_) text_ += "\x1b[0m";
}

void Screen::blank() {
  if (!text_.empty() && !text_.ends_with("\n\n")) text_ += '\n';
}

// Rows that find no room side by side, each wrapped below itself.
void Screen::stack(const std::vector<std::vector<std::string>>& rows) {
  constexpr std::size_t kHang = 2 * kIndent;
  for (const auto& row : rows) {
    std::string joined;
    for (const auto& cell : row) joined += (joined.empty() || cell.empty() ? "" : "  ") + cell;
    bool first = true;
    for (const auto& line : wrapped(joined, width_ - kHang)) {
      text_ += std::string(first ? kIndent : kHang, ' ') + line + '\n';
      first = false;
    }
  }
}

void Screen::table(std::string_view align, const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths(align.size(), 0);
  for (const auto& row : rows) {
    for (std::size_t c = 0; c < row.size() && c < widths.size(); ++c) {
      widths[c] = std::max(widths[c], width(row[c]));
    }
  }
  std::size_t before = kIndent;  // where the last column stands
  for (std::size_t c = 0; c + 1 < widths.size(); ++c) before += widths[c] + 2;
  const std::size_t all = before + (widths.empty() ? 0 : widths.back());
  if (width_ < kWidth && all > width_ && before + kLeastCell > width_) return stack(rows);
  const bool narrow = !align.empty() && align.back() == 'l' && before + widths.back() > width_ &&
                      before + kLeastCell <= width_;
  for (const auto& row : rows) {
    std::string line(kIndent, ' ');
    std::vector<std::string> under;
    for (std::size_t c = 0; c < row.size() && c < widths.size(); ++c) {
      std::string cell = row[c];
      if (narrow && c + 1 == widths.size()) {
        under = wrapped(cell, width_ - before);
        cell = under.front();
      } else {
        cell = plain(std::move(cell));
      }
      const std::string pad(widths[c] - width(cell), ' ');
      if (c > 0) line += "  ";
      line += align[c] == 'r' ? pad + cell : cell + pad;
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text_ += line + '\n';
    for (std::size_t l = 1; l < under.size(); ++l)
      text_ += std::string(before, ' ') + under[l] + '\n';
  }
}

bool colour_wanted() {
  const char* off = std::getenv("NO_COLOR");
  const char* kind = std::getenv("TERM");  // "dumb": it knows no colours
  return on_a_terminal() && (off == nullptr || *off == '\0') &&
         (kind == nullptr || std::string_view(kind) != "dumb");
}

std::string lye_grams(double value, double scale_step) {
  if (core::shown_units() == core::Units::grams) return grams(value, scale_step);
  return core::weight_text(value, scale_step, core::Units::ounces, core::Rounding::down);
}

std::string grams(double value, double scale_step) {
  if (core::shown_units() == core::Units::ounces)
    return core::weight_text(value, scale_step, core::Units::ounces, core::Rounding::nearest);
  // Steps of 1.5 or 0.25 g need theirs too: 64.5 g must not read 65 g, above what was dosed.
  int decimals = 0;
  for (double unit = scale_step; decimals < 4; unit *= 10, ++decimals) {
    if (std::abs(unit - std::round(unit)) < 1e-6 * std::max(1.0, unit) && unit > 0.5) break;
  }
  return fmt::format("{:.{}f} g", value, decimals);
}

std::string percent(double fraction, int decimals) {
  return trimmed(100 * fraction, decimals) + " %";
}

std::string signed_points(double value) {
  const std::string text = fmt::format("{:+.{}f}", value, std::abs(value) < 9.95 ? 1 : 0);
  return text == "+0.0" || text == "-0.0" ? "0.0" : text;
}

std::string money(double value, std::string_view currency) {
  return fmt::format("{:.2f} {}", value, currency);
}

}  // namespace barwright::app
