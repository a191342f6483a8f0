#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace barwright::core {

/// A number with the unit a maker wrote beside it, e.g. {2600, "g"}. A bare number has unit "".
struct Quantity {
  double value = 0;
  std::string unit;
};

/// The international avoirdupois pound and ounce, g (exact: 0.45359237 kg by definition, 1959).
inline constexpr double kGramsPerPound = 453.59237;
inline constexpr double kGramsPerOunce = kGramsPerPound / 16;

/// Thrown by the functions below; the reader turns it into an InputError with a place.
/// `remedy` says what is allowed.
class UnitError : public std::runtime_error {
 public:
  UnitError(const std::string& message, std::string remedy);
  const std::string& remedy() const { return remedy_; }

 private:
  std::string remedy_;
};

/// Returns number and unit of a text such as "2600 g", "5%", "1 1/2 lb", "36 h". Errors: no number,
/// NaN, infinity.
Quantity parse_quantity(std::string_view text);

/// Each returns the quantity in the unit its name states. Errors: missing unit, wrong dimension.
double to_grams(const Quantity& quantity);        ///< g, kg, mg, oz, lb
double to_millilitres(const Quantity& quantity);  ///< mL, L, cL, fl oz (US), gal (US)...
double to_grams(const Quantity& quantity, double density_g_per_ml);  ///< mass, or volume by density
double to_millimetres(const Quantity& quantity);                     ///< mm, cm, m, in
double to_celsius(const Quantity& quantity);                         ///< C, F (a temperature)
double to_fraction(const Quantity& quantity);  ///< "5 %" -> 0.05; ppm; a bare number is an error
double to_hours(const Quantity& quantity);     ///< min, h, days, weeks

}  // namespace barwright::core
