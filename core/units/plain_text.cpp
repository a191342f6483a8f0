#include "core/units/plain_text.hpp"

#include <algorithm>
#include <array>

namespace barwright::core {
namespace {

unsigned byte_at(std::string_view text, std::size_t i) {
  return static_cast<unsigned char>(text[i]);
}

bool is_continuation(std::string_view text, std::size_t i) {
  return i < text.size() && inside_letter(text[i]);
}

/// A character and how many bytes it takes; no bytes where none is whole.
struct Letter {
  unsigned code = 0;
  std::size_t size = 0;
};

// The well-formed byte sequences of the Unicode standard, table 3-7.
Letter letter_at(std::string_view text, std::size_t i) {
  const unsigned lead = byte_at(text, i);
  if (lead < 0x80) return {lead, 1};
  const std::size_t size = lead >= 0xC2 && lead < 0xE0   ? 2
                           : lead >= 0xE0 && lead < 0xF0 ? 3
                           : lead >= 0xF0 && lead < 0xF5 ? 4
                                                         : 0;
  if (size == 0) return {};
  unsigned code = lead & (0x7FU >> size);
  for (std::size_t k = 1; k < size; ++k) {
    if (!is_continuation(text, i + k)) return {};
    code = (code << 6U) | (byte_at(text, i + k) & 0x3FU);
  }
  if (size == 3 && (code < 0x800 || (code >= 0xD800 && code < 0xE000))) return {};
  if (size == 4 && (code < 0x10000 || code > 0x10FFFF)) return {};
  return {code, size};
}

bool is_control(unsigned code) {
  return (code < 0x20 && code != '\t' && code != '\n' && code != '\r') ||
         (code >= 0x7F && code < 0xA0) || code == 0x2028 || code == 0x2029;
}

// The overrides, embeddings and isolates; the plain marks of right-to-left letters are in use.
bool turns_writing(unsigned code) {
  return (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

std::string hex(unsigned value, int digits) {
  constexpr std::string_view kDigits = "0123456789ABCDEF";
  std::string out;
  for (int i = digits - 1; i >= 0; --i)
    out += kDigits[(value >> (4 * static_cast<unsigned>(i))) & 0xFU];
  return out;
}

bool looks_like_utf16(std::string_view text) {
  return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF") ||
         (text.size() > 3 && (text[0] == '\0') != (text[1] == '\0') &&
          (text[2] == '\0') != (text[3] == '\0'));
}

}  // namespace

bool inside_letter(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

std::optional<Unfit> first_unfit(std::string_view text) {
  const std::string in_utf8 = "Save the file as plain text in UTF-8.";
  if (looks_like_utf16(text))
    return Unfit{0, 1, "this", "is text in UTF-16, not in UTF-8", in_utf8};
  for (std::size_t i = 0; i < text.size();) {
    const Letter letter = letter_at(text, i);
    if (letter.size == 0) return Unfit{i, 1, "the line", "holds bytes that are not UTF-8", in_utf8};
    if (is_control(letter.code))
      return Unfit{i, letter.size, "the line", "holds a control character",
                   "Take it out, and save the file as plain text."};
    if (turns_writing(letter.code))
      return Unfit{i, letter.size, "the line", "holds a sign that turns the direction of writing",
                   "Take it out: it is not seen, and what is read is not what stands there."};
    i += letter.size;
  }
  return std::nullopt;
}

std::string visible(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const Letter letter = letter_at(text, i);
    const std::size_t size = std::max<std::size_t>(letter.size, 1);
    if (letter.size == 0)
      out += "\\x" + hex(byte_at(text, i), 2);
    else if (letter.code == '\r' || is_control(letter.code) || turns_writing(letter.code))
      out += letter.code < 0x80 ? "\\x" + hex(letter.code, 2) : "\\u" + hex(letter.code, 4);
    else
      out += text.substr(i, size);
    i += size;
  }
  return out;
}

std::string on_one_line(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  return out;
}

std::string shortened(std::string_view text, std::size_t most) {
  constexpr std::string_view kGap = " ... ";
  if (text.size() <= most + kGap.size()) return std::string(text);
  std::size_t head = most - most / 4;
  std::size_t tail = text.size() - most / 4;
  while (head > 0 && is_continuation(text, head)) --head;
  while (tail < text.size() && is_continuation(text, tail)) ++tail;
  return std::string(text.substr(0, head)) + std::string(kGap) + std::string(text.substr(tail));
}

}  // namespace barwright::core
