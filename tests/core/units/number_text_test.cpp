// What stands in for std::to_chars and std::from_chars gives their bytes.
#include "core/units/number_text.hpp"

#include <bit>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

using namespace barwright::core;

namespace {

// Any bits at all, figures as makers write them, and the powers of two, where digits are rarest.
std::vector<double> numbers() {
  std::vector<double> out = {0.0,
                             -0.0,
                             0.1,
                             1.0,
                             100,
                             1e5,
                             123456,
                             1e21,
                             1e22,
                             1e23,
                             1e-4,
                             1e-5,
                             1e-7,
                             0.00025,
                             5e-324,
                             1.5e300,
                             2.5,
                             1e100,
                             -3.25,
                             1200000,
                             12345678901234567890.0,
                             0.30000000000000004,
                             std::numeric_limits<double>::max(),
                             std::numeric_limits<double>::min()};
  std::mt19937_64 bits(7);
  for (int i = 0; i < 40000; ++i) {
    const double any = std::bit_cast<double>(bits());
    if (std::isfinite(any)) out.push_back(any);
    const double whole = static_cast<double>(bits() % 10000000);
    out.push_back(whole / std::pow(10.0, static_cast<double>(bits() % 7)));
  }
  for (int power = -1000; power <= 1000; ++power) out.push_back(std::ldexp(1.0, power));
  return out;
}

}  // namespace

TEST_CASE("numbers are written alike by the standard library and by what stands in for it") {
  std::vector<std::string> wrong;
  for (const double number : numbers()) {
    const int decimals = static_cast<int>(std::bit_cast<std::uint64_t>(number) % 12);
    if (number_text(number) != portable::number_text(number) ||
        number_text(number, decimals) != portable::number_text(number, decimals))
      wrong.push_back(number_text(number) + " | " + portable::number_text(number));
  }
  CHECK(wrong == std::vector<std::string>{});
}

TEST_CASE("numbers are read alike by the standard library and by what stands in for it") {
  std::vector<std::string> texts = {
      "",         " 1",   "+1",    "-1",    "-",     ".",      ".5",     "5.",       "1.5e3", "1e",
      "1e+",      "1e-2", "1E2x",  "0x10",  "1e999", "1e-999", "-1e999", "0e999",    "inf",   "nan",
      "infinity", "12,5", "1.2.3", "00012", "1_0",   "--1",    "-.5",    "4.9e-324", "1e-320"};
  for (const double number : numbers()) texts.push_back(number_text(number) + " g");
  std::vector<std::string> wrong;
  for (const auto& text : texts) {
    double one = -7, other = -7;
    const char* last = text.data() + text.size();
    const auto read = read_number(text.data(), last, one);
    const auto again = portable::read_number(text.data(), last, other);
    if (read.ec != again.ec || read.ptr != again.ptr ||
        std::bit_cast<std::uint64_t>(one) != std::bit_cast<std::uint64_t>(other))
      wrong.push_back(text);
  }
  CHECK(wrong == std::vector<std::string>{});
}
