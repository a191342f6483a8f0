#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/chemistry/alkali.hpp"

namespace barwright::oils {

/// What a lot is for. Packaging is counted in pieces, all else weighed.
enum class StockKind { oil, lye, scent, colour, additive, packaging };

/// Returns the key a shelf writes before the name: "oil", "lye", ...
const char* word(StockKind kind);
/// Returns the kind of this word; nothing for another.
std::optional<StockKind> find_stock_kind(std::string_view word);
/// Returns all the words, in the order above.
std::vector<std::string> stock_kind_words();

/// Returns which alkali a maker's name means ("caustic soda", "KOH"); nothing for any other name,
/// and for one that may be either ("lye", "potash").
std::optional<core::Alkali> find_alkali(std::string_view name);
/// Returns whether a name says lye, but not which: it must be asked for.
bool is_unclear_alkali(std::string_view name);

}  // namespace barwright::oils
