#include "core/lye/dose.hpp"

#include <cmath>

#include "core/units/error.hpp"
#include "core/units/scale.hpp"

namespace barwright::core {

const char* word(DoseBasis basis) {
  switch (basis) {
    case DoseBasis::oils:
      return "oils";
    case DoseBasis::batter:
      return "batter";
    case DoseBasis::water:
      return "water";
  }
  return "";
}

double DoseMasses::of(DoseBasis basis) const {
  switch (basis) {
    case DoseBasis::oils:
      return oils;
    case DoseBasis::batter:
      return batter;
    case DoseBasis::water:
      return water;
  }
  return 0;
}

double dose_grams(double grams_per_kg, DoseBasis basis, const DoseMasses& masses) {
  if (!(grams_per_kg >= 0) || !std::isfinite(grams_per_kg)) {
    throw Refusal("A dose is not a number of grams per kg.", "Give 0 g per kg or more.");
  }
  return grams_per_kg * masses.of(basis) / 1000;
}

double scent_share(double scent_grams, double cured_grams) {
  const double total = scent_grams + cured_grams;
  return total > 0 ? scent_grams / total : 0;
}

double most_scent_grams(double cured_grams, double limit, double step) {
  if (!(limit >= 0 && limit <= 1)) {
    throw Refusal("A scent's limit is not a percentage of the bar.",
                  "Copy it from the maker's certificate, such as 2.1 %.");
  }
  if (limit == 1) return INFINITY;
  return rounded_down(cured_grams * limit / (1 - limit), step);
}

}  // namespace barwright::core
