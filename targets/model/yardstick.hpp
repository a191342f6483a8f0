#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "oils/records/library.hpp"
#include "targets/model/model.hpp"

namespace barwright::targets {

/// A plain bar we ship to compare with.
struct ShippedYardstick {
  std::string name;                                   ///< "all-olive"
  std::string description;                            ///< one line
  std::vector<std::pair<std::string, double>> blend;  ///< library name, share (0..1) of the oils
  BarSettings settings;
  std::vector<core::Place> places;  ///< of each oil's name, for errors
};

/// Returns the yardsticks compiled into the program, in file order.
const std::vector<ShippedYardstick>& shipped_yardsticks();

/// Reads yardsticks from a text; `file` stands for it in errors. Errors: core::InputError, also
/// when shares do not sum to 100 %.
std::vector<ShippedYardstick> read_yardsticks(const std::string& text, const std::string& file);
std::vector<ShippedYardstick> read_yardsticks(const oils::yaml::Document& document);  ///< the same

/// Returns the shipped yardstick of this name, or null.
const ShippedYardstick* find_yardstick(std::string_view name);

/// Returns its composition. Errors: core::InputError when the library lacks an oil.
Composition composition(const ShippedYardstick& yardstick, const oils::Library& library);

}  // namespace barwright::targets
