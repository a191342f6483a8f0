#include "oils/books/price.hpp"

#include <fmt/format.h>

#include "core/units/number_text.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils {

namespace {

constexpr const char* kRemedy = "Write it as '34.50 for 5 kg' or '6.90 per kg'.";

/// The label a sign stands for, else the word itself.
std::string label(const std::string& word) {
  if (word == "\xE2\x82\xAC") return "EUR";
  if (word == "\xC2\xA3") return "GBP";
  if (word == "$") return "USD";
  return word;
}

}  // namespace

double read_price_per_kg(const yaml::Node& node, const std::string& currency,
                         const std::function<double(const std::string&)>& to_grams) {
  const std::string text = node.text();
  std::size_t split = text.find(" for ");
  std::string pack;
  if (split != std::string::npos) {
    pack = text.substr(split + 5);
  } else {
    split = text.find(" per ");
    if (split == std::string::npos)
      node.fail(fmt::format("'{}' does not say what that buys", text), kRemedy);
    pack = text.substr(split + 5);
    // "per kg" is per one kg; "per 100 g" says its own number.
    if (!pack.empty() && (pack[0] < '0' || pack[0] > '9')) pack.insert(0, "1 ");
  }
  const std::string money = yaml::trimmed(text.substr(0, split));
  const std::size_t first = money.find_first_of("0123456789");
  if (first == std::string::npos) node.fail(fmt::format("'{}' is no sum of money", money), kRemedy);
  const std::size_t end = money.find_first_not_of("0123456789.", first);
  const std::string number = money.substr(first, end == std::string::npos ? end : end - first);
  const std::string before = yaml::trimmed(money.substr(0, first));
  const std::string after = end == std::string::npos ? "" : yaml::trimmed(money.substr(end));
  double sum = 0;
  const auto read = core::read_number(number.data(), number.data() + number.size(), sum);
  if (read.ec != std::errc() || read.ptr != number.data() + number.size() ||
      (!after.empty() && after[0] == ','))
    node.fail(fmt::format("'{}' is no sum of money", money),
              "Write 1250.50: a full stop for the cents, nothing between thousands.");
  if (!before.empty() && !after.empty())
    node.fail(fmt::format("'{}' names a currency twice", money), kRemedy);
  const std::string named = label(before.empty() ? after : before);
  if (!named.empty() && named != label(currency)) {
    if (currency.empty())
      node.fail(fmt::format("the price is in {}, and this file states no currency", named),
                fmt::format("Write 'currency: {}' at the top.", named));
    node.fail(fmt::format("the price is in {}, the file's prices in {}", named, currency),
              fmt::format("Turn it into {}: no rate of exchange is known here.", currency));
  }
  if (named.empty() && currency.empty())
    node.fail("the price has no currency", "Write 'currency: EUR', or your own, at the top.");
  const double grams = to_grams(pack);
  if (grams <= 0) node.fail("the price is for nothing", kRemedy);
  return sum / grams * 1000;
}

}  // namespace barwright::oils
