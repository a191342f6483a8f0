#include "solver/app/sheet/vessel.hpp"

#include <fmt/format.h>

#include "oils/books/stock_kind.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {

void Vessel::add(const std::string& name, double weight, const std::string& beside, bool danger) {
  total_ += weight;
  const bool alkali = oils::find_alkali(name).has_value();
  table_.lines.push_back({name, alkali ? lye_grams(weight, step_) : grams(weight, step_),
                          grams(total_, step_), beside, danger});
}

std::string left_words(const core::Forgotten& one) {
  if (one.nothing_left) return "no fat left: burns";
  if (one.superfat < 0) return "LYE LEFT OVER: burns, do not use";
  if (one.lye_heavy) return at_worst(one.superfat, one.worst) + ": burns, do not use";
  return fmt::format("superfat {}", percent(one.superfat));
}

}  // namespace barwright::app
