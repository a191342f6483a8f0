#pragma once

#include <string>

#include "core/lye/batch_pot.hpp"
#include "solver/app/sheet/sheet_lines.hpp"

namespace barwright::app {

/// Lines into one vessel that stays on the scale, with the running total beside each.
class Vessel {
 public:
  Vessel(SheetTable& table, double step) : table_(table), step_(step) {}
  /// Adds a line of `weight` g.
  void add(const std::string& name, double weight, const std::string& beside = {},
           bool danger = false);

 private:
  SheetTable& table_;
  double step_;
  double total_ = 0;
};

/// Returns what is left in the pot when a line is forgotten, in words.
std::string left_words(const core::Forgotten& one);

}  // namespace barwright::app
