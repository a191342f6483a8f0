#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/units/error.hpp"

namespace barwright::oils {

/// One cell of a table with where it stands (columns count bytes, from 1).
struct Cell {
  std::string text;
  core::Place place;
};

/// A table as a spreadsheet saves it: comma, semicolon or tab between cells (RFC 4180 for the
/// rest), a byte order mark and either line end accepted.
struct Table {
  std::vector<std::vector<Cell>> rows;  ///< the first is the header; empty lines are left out
  char separator = ',';
  std::string line_end = "\n";
  bool ends_with_line_end = true;

  /// Throws InputError at a cell, with its line of the file.
  [[noreturn]] void fail(const core::Place& place, const std::string& message,
                         const core::Remedy& remedy) const;
  std::vector<std::string> lines;  ///< of the file, for messages
};

/// Returns the table in this text; `name` stands for the file. The separator is what the first line
/// holds most of. Errors: InputError for a quote that never closes, text behind a closing quote,
/// bytes that are not text.
Table read_table(const std::string& text, const std::string& name);

/// Returns a cell as it is written: in quotes where it must be (RFC 4180). A text that a
/// spreadsheet would take for a formula ("=1+1", "-M2", "@x") gets an apostrophe in front, which
/// makes it text there.
std::string written_cell(std::string_view text, char separator);
/// Returns the text of a cell that was written so: without that apostrophe.
std::string read_cell(std::string_view text);

}  // namespace barwright::oils
