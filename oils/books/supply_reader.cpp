#include "oils/books/supply_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/quantity.hpp"

namespace barwright::oils {

using yaml::Node;

namespace {

/// Returns the grams of what is no oil. Nothing is known of its density.
double plain_grams(const Node& node, const std::string& text, const std::string& name) {
  try {
    const core::Quantity quantity = core::parse_quantity(text);
    try {
      core::to_millilitres(quantity);
    } catch (const core::UnitError&) {
      return core::to_grams(quantity);
    }
    node.fail(fmt::format("'{}' of {} is no certain weight", text, name),
              "Weigh it, and give g or kg.");
  } catch (const core::UnitError& error) {
    node.fail(error.what(), error.remedy());
  }
}

double pieces(const Node& node, const std::string& text, const std::string& name) {
  try {
    const core::Quantity quantity = core::parse_quantity(text);
    if (counts_pieces(quantity.unit) && quantity.value >= 0 && quantity.value <= 1e6 &&
        quantity.value == std::floor(quantity.value))
      return quantity.value;
  } catch (const core::UnitError&) {  // told below
  }
  node.fail(fmt::format("'{}' is no whole number of {}", text, name),
            "Packaging is counted in pieces: 200, or '2 x 100'.");
}

}  // namespace

std::pair<double, std::string> packs(const Node& node) {
  const std::string text = node.text();
  const std::size_t x = text.find(" x ");
  if (x == std::string::npos) return {1, text};
  const std::string count = text.substr(0, x);
  if (count.empty() || count.size() > 6 ||
      count.find_first_not_of("0123456789") != std::string::npos)
    node.fail(fmt::format("'{}' is not a whole number of packs", count), "Write it as '2 x 5 kg'.");
  return {std::stoi(count), text.substr(x + 3)};  // digits alone, at most six
}

double one_pack(const Node& node, const std::string& text, StockKind kind,
                const std::string& name) {
  return kind == StockKind::packaging ? pieces(node, text, name) : plain_grams(node, text, name);
}

double counted(const Node& node, StockKind kind, const std::string& name) {
  const auto [count, each] = packs(node);
  return count * one_pack(node, each, kind, name);
}

core::Strength read_purity(const Node& node) {
  constexpr double kLeast = 0.8;
  const auto within = [](const Node& value) {
    const double out = value.fraction();
    if (out > 1 + 1e-9)
      value.fail("nothing is purer than 100 %", "Write what its label or certificate says.");
    if (out < kLeast)
      value.fail(
          fmt::format("an alkali of {} is a solution, or wet: its water is not reckoned with",
                      value.text()),
          "Keep dry alkali here, of 80 % or more.");
    return std::min(out, 1.0);
  };
  core::Strength out;
  if (!node.is_map()) {
    out.stated = within(node);
    return out;
  }
  node.only({"stated", "least", "most"});
  const Node stated = node.need("stated");
  out.stated = within(stated);
  if (const auto least = node.get("least")) out.least = within(*least);
  if (const auto most = node.get("most")) out.most = within(*most);
  if (out.least.value_or(out.stated) > out.stated || out.most.value_or(out.stated) < out.stated)
    stated.fail("what is stated lies outside the least and the most", "Correct one of them.");
  return out;
}

}  // namespace barwright::oils
