#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/chemistry/alkali.hpp"

namespace barwright::oils {

/// What a lot is for. Packaging is counted in pieces, all else weighed.
enum class StockKind { oil, lye, scent, colour, additive, packaging };

/// Every kind, in the order above.
inline constexpr std::array kStockKinds = {StockKind::oil,      StockKind::lye,
                                           StockKind::scent,    StockKind::colour,
                                           StockKind::additive, StockKind::packaging};

/// Returns the key a shelf writes before the name: "oil", "lye", ...
const char* word(StockKind kind);
/// Returns the kind of this word; nothing for another.
std::optional<StockKind> find_stock_kind(std::string_view word);
/// Returns all the words, in the order above.
std::vector<std::string> stock_kind_words();

/// Returns which alkali a maker's name means ("caustic soda", "KOH"); nothing for any other name,
/// and for one that may be either ("lye", "potash").
std::optional<core::Alkali> find_alkali(std::string_view name);
/// Returns what the books call what is no oil: "sodium hydroxide" for any name of it, else the name
/// as it is written.
std::string own_name(const std::string& name);
/// Returns whether a word counts pieces: none, "piece", "pieces" or "pcs".
bool counts_pieces(std::string_view unit);
/// Returns whether a name says lye, but not which: it must be asked for.
bool is_unclear_alkali(std::string_view name);

}  // namespace barwright::oils
