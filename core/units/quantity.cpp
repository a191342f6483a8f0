#include "core/units/quantity.hpp"

#include <array>
#include <cmath>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "core/units/number_text.hpp"

namespace barwright::core {

namespace {

enum class Dimension { mass, volume, length, temperature, fraction, time };

struct Unit {
  std::string_view word;  ///< lower case, no full stops
  Dimension dimension;
  double factor;  ///< to g, mL, mm, fraction, h; temperatures are handled apart
};

// Definitions, exact: inch 25.4 mm, US gallon 231 cubic inches, imperial gallon 4.54609 L.
constexpr double kUsFluidOunce = 29.5735295625;
constexpr double kImperialFluidOunce = 28.4130625;

constexpr std::array kUnits = std::to_array<Unit>({
    {"g", Dimension::mass, 1},
    {"gram", Dimension::mass, 1},
    {"grams", Dimension::mass, 1},
    {"gramme", Dimension::mass, 1},
    {"grammes", Dimension::mass, 1},
    {"kg", Dimension::mass, 1000},
    {"kilo", Dimension::mass, 1000},
    {"kilos", Dimension::mass, 1000},
    {"kilogram", Dimension::mass, 1000},
    {"kilograms", Dimension::mass, 1000},
    {"mg", Dimension::mass, 0.001},
    {"oz", Dimension::mass, kGramsPerOunce},
    {"ounce", Dimension::mass, kGramsPerOunce},
    {"ounces", Dimension::mass, kGramsPerOunce},
    {"lb", Dimension::mass, kGramsPerPound},
    {"lbs", Dimension::mass, kGramsPerPound},
    {"pound", Dimension::mass, kGramsPerPound},
    {"pounds", Dimension::mass, kGramsPerPound},
    {"ml", Dimension::volume, 1},
    {"millilitre", Dimension::volume, 1},
    {"millilitres", Dimension::volume, 1},
    {"milliliter", Dimension::volume, 1},
    {"milliliters", Dimension::volume, 1},
    {"cl", Dimension::volume, 10},
    {"l", Dimension::volume, 1000},
    {"litre", Dimension::volume, 1000},
    {"litres", Dimension::volume, 1000},
    {"liter", Dimension::volume, 1000},
    {"liters", Dimension::volume, 1000},
    {"fl oz", Dimension::volume, kUsFluidOunce},
    {"us fl oz", Dimension::volume, kUsFluidOunce},
    {"fluid ounce", Dimension::volume, kUsFluidOunce},
    {"fluid ounces", Dimension::volume, kUsFluidOunce},
    {"imp fl oz", Dimension::volume, kImperialFluidOunce},
    {"imperial fl oz", Dimension::volume, kImperialFluidOunce},
    {"gal", Dimension::volume, 128 * kUsFluidOunce},
    {"us gal", Dimension::volume, 128 * kUsFluidOunce},
    {"gallon", Dimension::volume, 128 * kUsFluidOunce},
    {"gallons", Dimension::volume, 128 * kUsFluidOunce},
    {"imp gal", Dimension::volume, 160 * kImperialFluidOunce},
    {"imperial gal", Dimension::volume, 160 * kImperialFluidOunce},
    {"cup", Dimension::volume, 8 * kUsFluidOunce},
    {"cups", Dimension::volume, 8 * kUsFluidOunce},
    {"tbsp", Dimension::volume, kUsFluidOunce / 2},
    {"tablespoon", Dimension::volume, kUsFluidOunce / 2},
    {"tablespoons", Dimension::volume, kUsFluidOunce / 2},
    {"tsp", Dimension::volume, kUsFluidOunce / 6},
    {"teaspoon", Dimension::volume, kUsFluidOunce / 6},
    {"teaspoons", Dimension::volume, kUsFluidOunce / 6},
    {"mm", Dimension::length, 1},
    {"cm", Dimension::length, 10},
    {"m", Dimension::length, 1000},
    {"in", Dimension::length, 25.4},
    {"inch", Dimension::length, 25.4},
    {"inches", Dimension::length, 25.4},
    {"c", Dimension::temperature, 1},
    {"f", Dimension::temperature, 1},
    {"%", Dimension::fraction, 0.01},
    {"percent", Dimension::fraction, 0.01},
    {"per cent", Dimension::fraction, 0.01},
    {"ppm", Dimension::fraction, 1e-6},
    {"min", Dimension::time, 1.0 / 60},
    {"minute", Dimension::time, 1.0 / 60},
    {"minutes", Dimension::time, 1.0 / 60},
    {"h", Dimension::time, 1},
    {"hour", Dimension::time, 1},
    {"hours", Dimension::time, 1},
    {"day", Dimension::time, 24},
    {"days", Dimension::time, 24},
    {"week", Dimension::time, 168},
    {"weeks", Dimension::time, 168},
});

constexpr std::string_view kBlanks = " \t\n\r";
bool is_blank(char c) { return kBlanks.find(c) != std::string_view::npos; }
constexpr std::string_view kDigits = "0123456789";
constexpr std::string_view kNoBreakSpace = "\xC2\xA0";

/// Lower case, single spaces, no full stops, degree signs and "deg" taken off.
std::string folded(std::string_view unit) {
  std::string out;
  for (std::size_t i = 0; i < unit.size(); ++i) {
    const auto two = unit.substr(i, 2);
    const char c = unit[i];
    const bool wide = two == kNoBreakSpace;
    if (two == "\xC2\xB0" || two == "\xC2\xBA") {  // degree sign, and the ordinal typed for it
      ++i;
    } else if (wide || is_blank(c)) {
      if (wide) ++i;
      if (!out.empty() && !out.ends_with(' ')) out += ' ';
    } else if (c != '.') {
      out += (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  if (out.ends_with(' ')) out.pop_back();
  for (const std::string_view prefix : {"degrees ", "degree ", "deg "}) {
    if (out.starts_with(prefix)) out.erase(0, prefix.size());
  }
  if (out == "celsius" || out == "centigrade") return "c";
  if (out == "fahrenheit") return "f";
  return out;
}

const Unit* find_unit(std::string_view unit) {
  const std::string word = folded(unit);
  for (const auto& known : kUnits) {
    if (known.word == word) return &known;
  }
  return nullptr;
}

std::string shown(const Quantity& quantity) {
  std::string out = number_text(quantity.value);
  if (!quantity.unit.empty()) out += " " + quantity.unit;
  return out;
}

struct Reader {
  std::string_view text;
  std::size_t at = 0;

  std::string_view rest() const { return text.substr(at); }
  void skip() {
    while (!done()) {
      if (is_blank(text[at])) {
        ++at;
      } else if (rest().starts_with(kNoBreakSpace)) {
        at += kNoBreakSpace.size();
      } else {
        break;
      }
    }
  }
  bool done() const { return rest().empty(); }
};

[[noreturn]] void fail(std::string_view text, const std::string& why) {
  throw UnitError(why + " in '" + std::string(text) + "'",
                  "Write a number and its unit, such as 2600 g, 5 %, 1 1/2 lb or 36 h.");
}

/// A vulgar fraction sign at the reader, e.g. the half sign; 0 when there is none.
double fraction_sign(Reader& reader) {
  const auto two = reader.rest().substr(0, 2);
  double value = 0;
  if (two == "\xC2\xBC") value = 0.25;
  if (two == "\xC2\xBD") value = 0.5;
  if (two == "\xC2\xBE") value = 0.75;
  if (value > 0) reader.at += 2;
  return value;
}

/// A plain decimal at the reader.
std::optional<double> decimal(Reader& reader) {
  const auto rest = reader.rest();
  if (rest.find_first_of(".0123456789") != 0) return std::nullopt;  // no sign, "inf", "nan"
  double value{};
  const auto result = read_number(rest.data(), rest.data() + rest.size(), value);
  if (result.ec == std::errc::result_out_of_range) fail(reader.text, "a number out of range");
  if (result.ec != std::errc{}) return std::nullopt;
  reader.at += static_cast<std::size_t>(result.ptr - rest.data());
  return value;
}

/// "1", "1.5", "1/2", "1 1/2"; nothing when no number stands here.
std::optional<double> number(Reader& reader) {
  reader.skip();
  if (const double sign = fraction_sign(reader); sign > 0) return sign;
  auto value = decimal(reader);
  if (!value) return std::nullopt;
  if (reader.rest().starts_with(',')) {
    // 1,500 g is fifteen hundred to one reader and one and a half to the next.
    throw UnitError("a comma in the number '" + std::string(reader.text) + "'",
                    "Write 1500 or 1.5: a full stop for decimals, nothing between thousands.");
  }
  const auto over = [&](double top) {
    ++reader.at;
    reader.skip();
    const double bottom = decimal(reader).value_or(0);
    if (bottom == 0) fail(reader.text, "an unfinished fraction");
    return top / bottom;
  };
  Reader ahead = reader;
  ahead.skip();
  if (ahead.rest().starts_with('/') && ahead.rest().find_first_of(kDigits) == 1) {
    reader = ahead;
    return over(*value);
  }
  if (const double sign = fraction_sign(ahead); sign > 0) {
    reader = ahead;
    return *value + sign;
  }
  if (const auto top = decimal(ahead)) {
    if (ahead.rest().starts_with('/') && *value == std::trunc(*value)) {
      reader = ahead;
      return *value + over(*top);
    }
    fail(reader.text, "two numbers side by side");
  }
  return value;
}

double converted(const Quantity& quantity, Dimension dimension, const char* what,
                 const std::string& allowed) {
  if (!std::isfinite(quantity.value)) {
    throw UnitError("not a finite number for " + std::string(what), allowed);
  }
  if (quantity.unit.empty()) {
    throw UnitError("'" + shown(quantity) + "' has no unit; " + what + " is wanted", allowed);
  }
  const Unit* unit = find_unit(quantity.unit);
  if (unit == nullptr) {
    throw UnitError("unknown unit '" + quantity.unit + "' in '" + shown(quantity) + "'", allowed);
  }
  if (unit->dimension != dimension) {
    throw UnitError("'" + shown(quantity) + "' is not " + what, allowed);
  }
  return quantity.value * unit->factor;
}

double not_negative(double value, const Quantity& quantity, const char* what,
                    const std::string& allowed) {
  if (value < 0) {
    throw UnitError("'" + shown(quantity) + "': " + what + " cannot be below zero", allowed);
  }
  return value;
}

constexpr const char* kMassAllowed = "Give a weight in g, kg, mg, oz or lb.";
constexpr const char* kVolumeAllowed =
    "Give a volume in mL, cL, L, fl oz (US), imperial fl oz or gal (US).";

}  // namespace

UnitError::UnitError(const std::string& message, std::string remedy)
    : std::runtime_error(message), remedy_(std::move(remedy)) {}

Quantity parse_quantity(std::string_view text) {
  Reader reader{text};
  reader.skip();
  const bool minus = reader.rest().starts_with('-');
  if (minus || reader.rest().starts_with('+')) ++reader.at;
  const double sign = minus ? -1 : 1;
  auto value = number(reader);
  if (!value) fail(text, "no number");

  // One pair of number and unit, or several of weight: "3 lb 4 oz".
  std::vector<Quantity> parts;
  for (;;) {
    reader.skip();
    std::string unit(reader.rest().substr(0, reader.rest().find_first_of(kDigits)));
    reader.at += unit.size();
    unit.erase(unit.find_last_not_of(kBlanks) + 1);
    parts.push_back({*value, unit});
    if (reader.done()) break;
    value = number(reader);
    if (!value) fail(text, "no number");
  }
  if (parts.size() == 1) {
    const auto& only = parts.front();
    if (!std::isfinite(only.value)) fail(text, "no finite number");
    return {sign * only.value, only.unit};
  }
  double grams = 0;
  double last = INFINITY;
  for (const auto& part : parts) {
    const Unit* unit = find_unit(part.unit);
    if (unit == nullptr || unit->dimension != Dimension::mass || unit->factor >= last) {
      fail(text, "several numbers that do not make one weight");
    }
    last = unit->factor;
    grams += part.value * unit->factor;
  }
  return {sign * grams, "g"};
}

double to_grams(const Quantity& quantity) {
  const Unit* unit = find_unit(quantity.unit);
  if (unit != nullptr && unit->dimension == Dimension::volume) {
    throw UnitError("'" + shown(quantity) + "' is a volume; a weight is wanted",
                    "Weigh it and give g, kg, oz or lb, or state its density.");
  }
  return not_negative(converted(quantity, Dimension::mass, "a weight", kMassAllowed), quantity,
                      "a weight", kMassAllowed);
}

double to_millilitres(const Quantity& quantity) {
  const Unit* unit = find_unit(quantity.unit);
  if (unit != nullptr && unit->factor == kGramsPerOunce) {
    throw UnitError("'" + shown(quantity) + "': ounces of weight, or fluid ounces?",
                    "Write fl oz (US, 29.57 mL) or imperial fl oz (28.41 mL) for a volume.");
  }
  return not_negative(converted(quantity, Dimension::volume, "a volume", kVolumeAllowed), quantity,
                      "a volume", kVolumeAllowed);
}

double to_grams(const Quantity& quantity, double density_g_per_ml) {
  const Unit* unit = find_unit(quantity.unit);
  if (unit == nullptr || unit->dimension != Dimension::volume) return to_grams(quantity);
  if (!(density_g_per_ml > 0) || !std::isfinite(density_g_per_ml)) {
    throw UnitError("no usable density for '" + shown(quantity) + "'",
                    "Weigh it, or state its density in g per mL.");
  }
  return to_millilitres(quantity) * density_g_per_ml;
}

double to_millimetres(const Quantity& quantity) {
  const char* allowed = "Give a length in mm, cm, m or in.";
  return not_negative(converted(quantity, Dimension::length, "a length", allowed), quantity,
                      "a length", allowed);
}

double to_celsius(const Quantity& quantity) {
  const char* allowed = "Give a temperature in C or F, such as 38 C.";
  const double value = converted(quantity, Dimension::temperature, "a temperature", allowed);
  const double celsius = folded(quantity.unit) == "f" ? (value - 32) * 5 / 9 : value;
  if (celsius < -273.15) {
    throw UnitError("'" + shown(quantity) + "' is below absolute zero", allowed);
  }
  return celsius;
}

double to_fraction(const Quantity& quantity) {
  return converted(quantity, Dimension::fraction, "a percentage",
                   "Write the percent sign, such as 5 %, or ppm.");
}

double to_hours(const Quantity& quantity) {
  const char* allowed = "Give a time in min, h, days or weeks.";
  return not_negative(converted(quantity, Dimension::time, "a time", allowed), quantity, "a time",
                      allowed);
}

}  // namespace barwright::core
