#include "solver/app/screen.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace barwright::app {
namespace {

constexpr std::size_t kWidth = 88;
constexpr std::size_t kIndent = 2;

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
  std::size_t column = kIndent + width(lead);
  text_ += std::string(kIndent, ' ') + lead;
  const std::string hang(kIndent + width(lead), ' ');
  bool first = true;
  std::size_t at = 0;
  while (at < text.size()) {
    std::size_t end = text.find(' ', at);
    if (end == std::string_view::npos) end = text.size();
    const std::string_view piece = text.substr(at, end - at);
    at = end + 1;
    if (piece.empty()) continue;
    if (!first && column + 1 + width(piece) > kWidth) {
      text_ += '\n' + hang;
      column = hang.size();
      first = true;
    }
    if (!first) {
      text_ += ' ';
      ++column;
    }
    text_ += piece;
    column += width(piece);
    first = false;
  }
  text_ += '\n';
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
  for (const auto& row : rows) {
    std::string line(kIndent, ' ');
    for (std::size_t c = 0; c < row.size() && c < widths.size(); ++c) {
      const std::string pad(widths[c] - width(row[c]), ' ');
      if (c > 0) line += "  ";
      line += align[c] == 'r' ? pad + row[c] : row[c] + pad;
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text_ += line + '\n';
  }
}

bool colour_wanted() {
  const char* off = std::getenv("NO_COLOR");
  return isatty(STDOUT_FILENO) == 1 && (off == nullptr || *off == '\0');
}

std::string grams(double value, double scale_step) {
  const int decimals =
      scale_step >= 1 ? 0
                      : std::min(3, static_cast<int>(std::ceil(-std::log10(scale_step) - 1e-9)));
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
