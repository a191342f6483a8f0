#include "solver/batch/rescue_slip.hpp"

#include <fmt/format.h>

#include <string_view>
#include <utility>

#include "core/units/format.hpp"
#include "core/units/number_text.hpp"
#include "core/units/quantity.hpp"

namespace barwright::batch {
namespace {

/// Returns where the words before a number that starts at `digit` end, signs refused; 0: none.
std::size_t name_end(const std::string& words, std::size_t digit, const char* example) {
  const std::size_t last = words.find_last_not_of(" .,", digit - 1);
  if (last == std::string::npos) return 0;
  static constexpr std::string_view kMinus = "\u2212";
  const std::string before = words.substr(0, last + 1);
  if (before.ends_with('-') || before.ends_with('+') || before.ends_with(kMinus)) {
    throw SlipError{
        fmt::format("'{}': a weight here has no sign. Say --too-much or --too-little, and the "
                    "figure plain, such as \"{}\".",
                    words, example)};
  }
  return last + 1;
}

Slip with_grams(Slip::Kind kind, const std::string& words) {
  Slip slip;
  slip.kind = kind;
  std::string wrong;
  // A name may hold a number ("vinegar 5 %"): the first one from which on it is a weight counts.
  for (std::size_t at = words.find_first_of("0123456789"); at != std::string::npos;
       at = words.find_first_of("0123456789", words.find_first_not_of("0123456789.,", at))) {
    if (at == 0) break;
    const std::size_t end = name_end(words, at, "NaOH 20 g");
    if (end == 0) break;
    std::size_t start = at;
    if (words[start - 1] == '.' || words[start - 1] == ',') --start;
    try {
      slip.grams = core::to_grams(core::parse_quantity(words.substr(start)));
      slip.line = words.substr(0, end);
      break;
    } catch (const core::UnitError& error) {
      if (wrong.empty()) wrong = fmt::format("'{}': {}. {}", words, error.what(), error.remedy());
    }
  }
  if (slip.line.empty()) {
    throw SlipError{
        wrong.empty() ? "'" + words + "': write what and how much, such as \"NaOH 20 g\"." : wrong};
  }
  if (!(slip.grams > 0)) throw SlipError{"'" + words + "': the weight must be above zero."};
  return slip;
}

}  // namespace

Slip forgotten(const std::string& words) {
  if (words.find_first_not_of(' ') == std::string::npos) {
    throw SlipError{"Say what was forgotten, such as --forgot \"castor\"."};
  }
  Slip slip;
  slip.line = words;
  return slip;
}

Slip too_much(const std::string& words) { return with_grams(Slip::Kind::too_much, words); }
Slip too_little(const std::string& words) { return with_grams(Slip::Kind::too_little, words); }

Slip swapped(const std::string& words) {
  Slip slip;
  for (const auto& [between, kind] :
       {std::pair<std::string_view, Slip::Kind>{" for ", Slip::Kind::instead},
        {" and ", Slip::Kind::exchanged}}) {
    const std::size_t at = words.find(between);
    if (at == std::string::npos || at == 0) continue;
    slip.kind = kind;
    slip.line = words.substr(0, at);
    slip.other = words.substr(at + between.size());
    if (!slip.other.empty()) return slip;
  }
  throw SlipError{
      "'" + words +
      "': write \"olive for coconut\" (olive went in where coconut belongs), or \"olive "
      "and coconut\" (each with the other's weight)."};
}

Slip other_strength(const std::string& words) {
  const std::string wrong = "'" + words +
                            "': write the alkali and its strength, between 50 and 100 %, such as "
                            "\"NaOH 97 %\".";
  const std::size_t digit = words.find_first_of("0123456789");
  if (digit == std::string::npos || digit == 0) throw SlipError{wrong};
  const std::size_t end = name_end(words, digit, "NaOH 97 %");
  const std::size_t sign = words.find('%');
  if (end == 0 || sign == std::string::npos ||
      words.find_first_not_of(' ', sign + 1) != std::string::npos) {
    throw SlipError{wrong};
  }
  Slip slip;
  slip.kind = Slip::Kind::strength;
  slip.line = words.substr(0, end);
  const std::string number = words.substr(digit, sign - digit);
  const char* last = number.data() + number.find_last_not_of(' ') + 1;
  const auto read = core::read_number(number.data(), last, slip.strength);
  slip.strength /= 100;
  if (read.ec != std::errc() || read.ptr != last || !(slip.strength >= 0.5 && slip.strength <= 1)) {
    throw SlipError{wrong};
  }
  return slip;
}

std::string happened(const Slip& slip) {
  switch (slip.kind) {
    case Slip::Kind::forgotten:
      return slip.line + " was forgotten";
    case Slip::Kind::too_much:
      return core::grams_text(slip.grams) + " too much " + slip.line;
    case Slip::Kind::too_little:
      return core::grams_text(slip.grams) + " too little " + slip.line;
    case Slip::Kind::instead:
      return slip.line + " went in where " + slip.other + " belongs, by its weight";
    case Slip::Kind::exchanged:
      return slip.line + " and " + slip.other + " went in with each other's weights";
    case Slip::Kind::strength:
      return "the " + slip.line + " is " + core::percent_text(slip.strength) + " strong";
  }
  return {};
}

}  // namespace barwright::batch
