#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/units/error.hpp"

namespace barwright::oils::yaml {

/// The text of a file, by lines, for errors that show where they stand. Byte order marks and
/// carriage returns are dropped.
class SourceText {
 public:
  SourceText(std::string text, std::string name);

  const std::string& name() const { return name_; }
  const std::string& text() const { return text_; }
  /// Returns line `number` (from 1) without its end; empty when there is none.
  std::string line(int number) const;
  /// Returns the place of a line and a column, both counted from 0. Columns count bytes, as
  /// core::InputError takes them for its caret.
  core::Place place(int line, int byte_column) const;

  /// Whether the quote at this place closes again; true where no quote stands.
  bool quote_closes(const core::Place& place) const;

  /// Refuses what is no plain UTF-8 text, and tabs at the start of a line.
  void check() const;
  [[noreturn]] void fail(const core::Place& place, const std::string& message,
                         const core::Remedy& remedy) const;

 private:
  std::string text_, name_;
  std::vector<std::size_t> starts_;  // first byte of each line
};

std::string trimmed(std::string_view text);
std::string_view trimmed_view(std::string_view text);
/// Lower case, '-' and '_' as spaces, runs of spaces as one, trimmed.
std::string folded(std::string_view text);
/// Returns a text as YAML in double quotes, so that it may hold a colon or a sharp.
std::string quoted(std::string_view text);
/// Returns a key, a name or a value as it is written anywhere in a file, in brackets too: in quotes
/// where a bare one might be taken for something else. What is read back is the same text.
std::string bare_or_quoted(const std::string& text);
/// Whether a text is a spelling of "not a number" or of infinity.
bool is_nan_or_infinity(std::string_view text);

}  // namespace barwright::oils::yaml
