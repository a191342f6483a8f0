#include "oils/books/stock_kind.hpp"

#include <algorithm>
#include <array>

#include "oils/records/library.hpp"

namespace barwright::oils {
namespace {

constexpr std::array kKinds = {StockKind::oil,    StockKind::lye,      StockKind::scent,
                               StockKind::colour, StockKind::additive, StockKind::packaging};

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
  for (const StockKind kind : kKinds) {
    if (wanted == word(kind)) return kind;
  }
  return std::nullopt;
}

std::vector<std::string> stock_kind_words() {
  std::vector<std::string> out;
  for (const StockKind kind : kKinds) out.emplace_back(word(kind));
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

bool is_unclear_alkali(std::string_view name) {
  return stands_in(name, {"lye", "caustic", "potash", "alkali", "hydroxide"});
}

}  // namespace barwright::oils
