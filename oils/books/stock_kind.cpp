#include "oils/books/stock_kind.hpp"

#include <algorithm>

#include "oils/records/library.hpp"

namespace barwright::oils {
namespace {

bool stands_in(std::string_view name, std::initializer_list<std::string_view> names) {
  const std::string folded = folded_name(name);
  return std::find(names.begin(), names.end(), folded) != names.end();
}

}  // namespace

const char* word(StockKind kind) {
  switch (kind) {
    case StockKind::oil:
      return "oil";
    case StockKind::lye:
      return "lye";
    case StockKind::scent:
      return "scent";
    case StockKind::colour:
      return "colour";
    case StockKind::additive:
      return "additive";
    case StockKind::packaging:
      return "packaging";
  }
  return "";
}

std::optional<StockKind> find_stock_kind(std::string_view wanted) {
  for (const StockKind kind : kStockKinds) {
    if (wanted == word(kind)) return kind;
  }
  return std::nullopt;
}

std::vector<std::string> stock_kind_words() {
  std::vector<std::string> out;
  for (const StockKind kind : kStockKinds) out.emplace_back(word(kind));
  return out;
}

// Common practice of the trade, no source. "Potash" is left out: it names the carbonate too.
std::optional<core::Alkali> find_alkali(std::string_view name) {
  if (stands_in(name, {"sodium hydroxide", "naoh", "caustic soda", "soda lye"}))
    return core::Alkali::sodium_hydroxide;
  if (stands_in(name, {"potassium hydroxide", "koh", "caustic potash", "potash lye"}))
    return core::Alkali::potassium_hydroxide;
  return std::nullopt;
}

std::string own_name(const std::string& name) {
  const auto alkali = find_alkali(name);
  return alkali ? core::name(*alkali) : name;
}

bool counts_pieces(std::string_view unit) {
  return unit.empty() || unit == "piece" || unit == "pieces" || unit == "pcs";
}

bool is_unclear_alkali(std::string_view name) {
  return stands_in(name, {"lye", "caustic", "potash", "alkali", "hydroxide"});
}

}  // namespace barwright::oils
