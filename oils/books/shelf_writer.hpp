#pragma once

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "oils/books/shelf.hpp"

namespace barwright::oils {

/// A lot to be written into a shelf file, in the words the file shall hold.
struct NewLot {
  std::string oil;
  std::string have;  ///< "5 kg"
  std::string paid;  ///< "34.50 for 5 kg", or empty
  std::string supplier, lot, best_before, note;
  std::string certificate;  ///< the inside of the block: "ref: CA-17, iodine-value: 82 g I2/100 g"
  StockKind kind = StockKind::oil;
  std::string purity{};  ///< lye: "99 %", or the inside of the block: "stated: 90 %, most: 91 %"
};

/// What a lot shall hold from now on.
struct LotGrams {
  std::size_t lot = 0;  ///< index into Shelf::lots
  double grams = 0;
};

/// Each returns the shelf's text with that one thing changed: comments, order and everything else
/// stay byte for byte. The result is read again and compared before it is handed back. Errors:
/// InputError at file, line and column when the file is written in a way that cannot be changed
/// safely; the remedy says what to write by hand.
std::string with_grams(const std::string& text, const Shelf& shelf,
                       std::span<const LotGrams> changes);
/// The same with lots added behind the others, and how the file reads now.
std::pair<std::string, Shelf> with_lots(const std::string& text, const Shelf& shelf,
                                        std::span<const NewLot> lots);

/// Each checks what only the books ask of a shelf: no day outside 2000 to 2199; lots of one oil
/// that can be told apart. Errors: InputError at file, line and column.
void check_days(const std::string& text, const Shelf& shelf);
void check_lots_apart(const std::string& text, const Shelf& shelf);

/// Returns how a shelf's lot is called in messages: "lot M-77 of olive", "the olive without a lot
/// number".
std::string lot_words(const std::string& oil, const std::string& lot);

}  // namespace barwright::oils
