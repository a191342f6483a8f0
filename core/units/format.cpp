#include "core/units/format.hpp"

#include <cmath>

#include "core/units/number_text.hpp"
#include "core/units/weight_text.hpp"

namespace barwright::core {

std::string fixed(double value, int decimals) {
  if (!std::isfinite(value)) return "not a number";
  std::string out = number_text(value, decimals);
  if (out[0] == '-' && out.find_first_not_of("-0.") == std::string::npos) out.erase(0, 1);
  return out;
}

std::string percent_text(double fraction, int decimals) {
  return fixed(100 * fraction, decimals) + " %";
}

std::string grams_text(double grams) {
  constexpr double kFine = 0.1;  // g: a sentence says no more than a lye scale shows
  if (shown_units() == Units::ounces)
    return weight_text(grams, kFine, Units::ounces, Rounding::nearest);
  std::string out = fixed(grams, 3);
  while (out.back() == '0') out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out + " g";
}

}  // namespace barwright::core
