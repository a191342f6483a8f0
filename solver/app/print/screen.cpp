#include "solver/app/print/screen.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "solver/app/run.hpp"

namespace barwright::app {
namespace {

constexpr std::size_t kWidth = 88;
constexpr std::size_t kIndent = 2;
constexpr std::size_t kLeastCell = 32;  // a last column narrower than this is not wrapped

// Bytes that start a character: enough for aligning the Latin names a maker types.
std::size_t width(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
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

std::string plain(std::string text) {
  for (std::size_t at = 0; (at = text.find(kNoBreak, at)) != std::string::npos;) {
    text.replace(at, 2, " ");
  }
  return text;
}

// Returns the text in lines no wider than `room` where its words allow; at least one.
std::vector<std::string> wrapped(std::string_view text, std::size_t room) {
  std::vector<std::string> words;
  bool glue = false;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = text.find(' ', at);
    if (end == std::string_view::npos) end = text.size();
    const std::string_view word = text.substr(at, end - at);
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

void Screen::title(std::string_view left, std::string_view right) {
  const std::size_t used = width(left) + width(right);
  text_ += colour_ ? fmt::format("\x1b[1m{}\x1b[0m", left) : std::string(left);
  if (!right.empty()) {
    text_ += used + 2 <= kWidth ? std::string(kWidth - used, ' ') : "\n  ";
    text_ += right;
  }
  text_ += '\n';
}

void Screen::heading(std::string_view text, std::string_view beside) {
  blank();
  text_ += colour_ ? fmt::format("\x1b[1m{}\x1b[0m", text) : std::string(text);
  if (!beside.empty()) text_ += fmt::format("   {}", beside);
  text_ += '\n';
}

void Screen::sentence(std::string_view text, std::string_view mark) {
  const std::string lead = mark.empty() ? std::string() : fmt::format("{} ", mark);
  const std::size_t hang = kIndent + width(lead);
  text_ += std::string(kIndent, ' ') + lead;
  bool first = true;
  for (const auto& line : wrapped(text, kWidth - hang)) {
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

void Screen::table(std::string_view align, const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths(align.size(), 0);
  for (const auto& row : rows) {
    for (std::size_t c = 0; c < row.size() && c < widths.size(); ++c) {
      widths[c] = std::max(widths[c], width(row[c]));
    }
  }
  std::size_t before = kIndent;  // where the last column stands
  for (std::size_t c = 0; c + 1 < widths.size(); ++c) before += widths[c] + 2;
  const bool narrow = !align.empty() && align.back() == 'l' && before + widths.back() > kWidth &&
                      before + kLeastCell <= kWidth;
  for (const auto& row : rows) {
    std::string line(kIndent, ' ');
    std::vector<std::string> under;
    for (std::size_t c = 0; c < row.size() && c < widths.size(); ++c) {
      std::string cell = row[c];
      if (narrow && c + 1 == widths.size()) {
        under = wrapped(cell, kWidth - before);
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
  return surroundings().terminal && isatty(STDOUT_FILENO) == 1 && (off == nullptr || *off == '\0');
}

std::string grams(double value, double scale_step) {
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
