#pragma once

#include <optional>
#include <string>

#include "oils/books/shelf_writer.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {

/// What is typed in behind 'shelf' and its commands.
struct ShelfOptions : BooksOptions {
  std::string file;  // the positional of `shelf` itself
  std::string as;    // what it is that comes in: scent, colour, ...
  std::string oil, amount, batch, count;
  bool drop = false;
  oils::NewLot lot;
  std::optional<int> in, sold, lost;
  std::string price, note;
  std::string from, shipping, tax, spread;
  bool skip_wrong_rows = false;
};

/// Returns the answer of a command that wrote: its text, or JSON with `more` in it.
Outcome recorded(const ShelfOptions& options, const std::string& command, const std::string& text,
                 const std::string& diagnostics, Json more = {});

/// Receives a lot, or a whole list of them ("--from"). Errors: UsageError, InputError; then nothing
/// is written.
Outcome receive(const ShelfOptions& options);

}  // namespace barwright::app
