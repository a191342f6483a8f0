#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "core/units/number_text.hpp"

// The program never sets a locale, so that the C library's full stop is a full stop.
namespace barwright::core::portable {
namespace {

constexpr int kMostDigits = 17;  // enough for every double to read back as itself

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Digits and the power of ten of the first of them: 1250 is {"125", 3}.
struct Decimal {
  std::string digits;
  int exponent = 0;
};

// One more in the last digit of "d.ddde+xx"; nothing where it would carry beyond the first digit.
std::string one_more(std::string text) {
  for (std::size_t at = text.find('e'); at-- > 0;) {
    if (text[at] == '.') continue;
    if (text[at] != '9') {
      ++text[at];
      return text;
    }
    text[at] = '0';
  }
  return {};
}

// Returns the fewest digits that read back as a finite value above zero. Above a power of two the
// numbers stand twice as far apart as below: there the next digits up may do where the nearest
// fail.
std::string fewest_digits(double value) {
  int power = 0;
  const bool power_of_two = std::frexp(value, &power) == 0.5;
  std::array<char, 40> buffer{};
  for (int digits = 1;; ++digits) {
    (void)std::snprintf(buffer.data(), buffer.size(), "%.*e", digits - 1, value);
    if (digits == kMostDigits || std::strtod(buffer.data(), nullptr) == value) return buffer.data();
    if (!power_of_two) continue;
    const std::string above = one_more(buffer.data());
    if (!above.empty() && std::strtod(above.c_str(), nullptr) == value) return above;
  }
}

Decimal shortest(double value) {
  const std::string text = fewest_digits(value);
  const std::size_t e = text.find('e');
  Decimal out{text.substr(0, e), std::atoi(text.c_str() + e + 1)};
  if (out.digits.size() > 1) out.digits.erase(1, 1);  // the full stop
  while (out.digits.size() > 1 && out.digits.back() == '0') out.digits.pop_back();
  return out;
}

std::string scientific(const Decimal& number) {
  std::string out = number.digits.substr(0, 1);
  if (number.digits.size() > 1) out += "." + number.digits.substr(1);
  const int power = std::abs(number.exponent);
  out += number.exponent < 0 ? "e-" : "e+";
  if (power < 10) out += '0';
  return out + std::to_string(power);
}

// Where all digits stand left of the full stop, the number's own digits are written, not noughts.
std::string plain(const Decimal& number, double value) {
  const int whole = number.exponent + 1;  // digits left of the full stop
  const int count = static_cast<int>(number.digits.size());
  if (whole <= 0) return "0." + std::string(static_cast<std::size_t>(-whole), '0') + number.digits;
  if (whole >= count) return number_text(value, 0);
  return std::string(number.digits).insert(static_cast<std::size_t>(whole), ".");
}

}  // namespace

std::string number_text(double value) {
  if (std::isnan(value)) return std::signbit(value) ? "-nan" : "nan";
  const std::string sign = std::signbit(value) ? "-" : "";
  value = std::abs(value);
  if (std::isinf(value)) return sign + "inf";
  if (value == 0) return sign + "0";
  const Decimal number = shortest(value);
  const std::string one = scientific(number);
  // Whether plain is no longer is counted with noughts, as the standard library counts.
  const int count = static_cast<int>(number.digits.size());
  const int whole = number.exponent + 1;
  const int length = whole <= 0 ? 2 - whole + count : whole >= count ? whole : count + 1;
  return sign + (length <= static_cast<int>(one.size()) ? plain(number, value) : one);
}

std::string number_text(double value, int decimals) {
  std::array<char, 640> buffer{};  // 309 digits before the full stop, 300 behind it
  const int size = std::snprintf(buffer.data(), buffer.size(), "%.*f", decimals, value);
  return {buffer.data(), static_cast<std::size_t>(size)};
}

std::from_chars_result read_number(const char* first, const char* last, double& value) {
  const char* at = first;
  const auto digits = [&] {
    const char* from = at;
    while (at != last && is_digit(*at)) ++at;
    return at - from;
  };
  if (at != last && *at == '-') ++at;
  auto count = digits();
  if (at != last && *at == '.') {
    ++at;
    count += digits();
  }
  if (count == 0) return {first, std::errc::invalid_argument};
  if (at != last && (*at == 'e' || *at == 'E')) {
    const char* mark = at++;
    if (at != last && (*at == '-' || *at == '+')) ++at;
    if (digits() == 0) at = mark;
  }
  const double read = std::strtod(std::string(first, at).c_str(), nullptr);
  const std::string written(first, at);
  const bool nought = written.substr(0, written.find_first_of("eE")).find_first_of("123456789") ==
                      std::string::npos;
  if (std::isinf(read) || (read == 0 && !nought)) return {at, std::errc::result_out_of_range};
  value = read;
  return {at, std::errc{}};
}

}  // namespace barwright::core::portable
