#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace barwright::core {

/// Something in a text that no file or command line may hold: bytes that are not UTF-8 (overlong
/// forms and halves of surrogate pairs among them), control characters, signs that turn the
/// direction of writing.
struct Unfit {
  std::size_t at = 0;    ///< its first byte
  std::size_t size = 1;  ///< its bytes
  std::string where;     ///< "the line", or "this" where it is all of the text
  std::string what;      ///< "holds a control character"
  std::string remedy;
  /// Returns "the line holds a control character".
  std::string message() const { return where + " " + what; }
};

/// Returns the first such thing; nothing for a plain text. Tabs and line ends are plain.
std::optional<Unfit> first_unfit(std::string_view text);

/// Returns the text with each such thing as it would be written in a program, "\x1B", so that a
/// terminal shows it and does not obey it.
std::string visible(std::string_view text);

/// Returns whether a byte of UTF-8 goes on with a letter begun before it.
bool inside_letter(char byte);

/// Returns the text on one line: line ends and tabs are spaces.
std::string on_one_line(std::string_view text);

/// Returns a text of at most about `most` bytes: of a longer one its head and its tail.
std::string shortened(std::string_view text, std::size_t most);

}  // namespace barwright::core
