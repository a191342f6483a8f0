#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "oils/text/yaml.hpp"

namespace barwright::oils::yaml {

/// Bytes of a file, from `from` to just before `to`.
struct Extent {
  std::size_t from = 0, to = 0;
};

/// Where the nodes of a parsed file stand in its bytes as they lie on the disc, carriage returns
/// and byte order mark included.
class FileBytes {
 public:
  explicit FileBytes(const std::string& text);

  /// Returns where a node begins: its first character, the bracket or the quote.
  std::size_t start(const Node& node) const;
  /// Returns a node's bytes: a quoted text with its quotes, brackets with all in them, a plain text
  /// to its last character, a block from its first key to the end of its last value. Errors:
  /// InputError for a text that goes over several lines without quotes.
  Extent extent(const Node& node) const;
  /// Returns where the line of a byte begins, and where it ends (before the line end).
  std::size_t line_start(std::size_t at) const;
  std::size_t line_stop(std::size_t at) const;
  /// Returns where the next line begins; the file's size after the last.
  std::size_t next_line(std::size_t at) const;
  /// Returns "\r\n" where the file's first line ends so, else "\n".
  std::string line_end() const;
  /// Whether a list or block stands in brackets.
  bool in_brackets(const Node& node) const;

 private:
  std::size_t past_quote(std::size_t at) const;
  std::size_t past_brackets(std::size_t at) const;
  Extent plain(const Node& node, std::size_t at) const;

  std::string_view text_;
  std::vector<std::size_t> starts_;
};

}  // namespace barwright::oils::yaml
