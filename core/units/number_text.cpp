#include "core/units/number_text.hpp"

#include <array>
#include <cmath>
#include <version>

namespace barwright::core {

#ifdef __cpp_lib_to_chars

std::string number_text(double value) {
  std::array<char, 32> buffer{};
  return {buffer.data(), std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr};
}

std::string number_text(double value, int decimals) {
  std::array<char, 640> buffer{};
  return {buffer.data(), std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                       std::chars_format::fixed, decimals)
                             .ptr};
}

std::from_chars_result read_number(const char* first, const char* last, double& value) {
  double out = 0;
  const auto read = std::from_chars(first, last, out);
  if (read.ec != std::errc{}) return read;
  if (!std::isfinite(out)) return {first, std::errc::invalid_argument};  // "inf", "nan"
  value = out;
  return read;
}

#else

std::string number_text(double value) { return portable::number_text(value); }

std::string number_text(double value, int decimals) {
  return portable::number_text(value, decimals);
}

std::from_chars_result read_number(const char* first, const char* last, double& value) {
  return portable::read_number(first, last, value);
}

#endif

}  // namespace barwright::core
