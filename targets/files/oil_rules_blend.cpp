#include "targets/files/oil_rules_blend.hpp"

#include <fmt/format.h>

#include <cmath>

#include "oils/text/yaml_text.hpp"
#include "targets/files/oil_rules_reader.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

OilName read_oil(const Node& node, const Reading& reading) {
  return read_oil(node, node.text(), 0, reading);
}

OilName read_oil(const Node& node, std::string_view text, std::size_t offset,
                 const Reading& reading) {
  const std::string name = yaml::trimmed(text);
  if (const oils::Oil* oil = reading.library.find(name)) return {oil->name, written(node)};
  const bool several = !reading.library.meant_by(name).empty();
  node.fail_at(offset,
               several ? "'" + name + "' may mean several oils" : "unknown oil '" + name + "'",
               reading.library.remedy_for(name));
}

namespace {

/// Shares a maker wrote add up to 100 % when the decimals written do, not just nearly.
constexpr double kShareSum = 1e-9;

std::string off_by(double sum) {
  const double miss = sum - 1;
  return percent(std::abs(miss)) + (miss > 0 ? " too much" : " short of 100 %");
}

}  // namespace

Blend read_blend(const Node& node, const Reading& reading) {
  Blend blend;
  blend.place = node.place();
  const auto entries = node.entries();
  if (entries.empty()) node.fail("the blend is empty", "Name its oils, such as {olive: 100 %}.");

  std::optional<std::size_t> rest;
  std::optional<Node> first_grams, first_share;
  double shares = 0;
  core::Faults::each(entries, [&](const auto& entry) {
    const auto& [key, value] = entry;
    BlendOil oil{read_oil(key, reading), 0, 0};
    for (const BlendOil& other : blend.oils)
      if (other.oil.name == oil.oil.name)
        key.fail("'" + key.text() + "' is the same oil as '" + other.oil.written.text + "'",
                 fmt::format("That stands at line {}, column {}. Add the two together.",
                             other.oil.written.place.line, other.oil.written.place.column));
    if (value.is_null())
      key.fail("'" + key.text() + "' has no share", "Write its share, such as 20 %.");
    const std::string word = folded_text(value);
    if (word == "rest" || word == "the rest") {
      if (rest) value.fail("a second oil takes the rest", "Give one of the two a share.");
      rest = blend.oils.size();
    } else {
      const core::Quantity quantity = value.quantity();
      if (quantity.unit == "%" || quantity.unit.empty() || quantity.unit == "percent") {
        oil.share = value.fraction();
        shares += oil.share;
        if (!first_share) first_share = value;
      } else {
        oil.grams = value.grams();
        blend.grams += oil.grams;
        if (!first_grams) first_grams = value;
      }
      above_zero(oil.share + oil.grams, value, "the share of an oil");
    }
    blend.oils.push_back(oil);
  });

  if (first_grams && first_share)
    first_grams->fail("'" + first_grams->text() + "' is a weight beside shares in percent",
                      "Write the whole blend in percent, or all of it by weight.");
  if (rest && first_grams)
    blend.oils[*rest].oil.written.fail("the rest of a blend by weight is not known",
                                       "Write its weight, or the blend in percent.");
  if (first_grams) {
    for (BlendOil& oil : blend.oils) oil.share = oil.grams / blend.grams;
    return blend;
  }
  if (rest) {
    if (shares >= 1 - kShareSum)
      blend.oils[*rest].oil.written.fail(
          "nothing is left for the rest: the others add to " + percent(shares),
          "Lower a share, or take this oil out.");
    blend.oils[*rest].share = 1 - shares;
    return blend;
  }
  if (std::abs(shares - 1) > kShareSum)
    node.fail("the shares add to " + percent(shares) + ", " + off_by(shares),
              "Change a share, or let one oil say 'rest'.");
  // The last ulp away: what follows may rely on a sum of 1.
  for (BlendOil& oil : blend.oils) oil.share /= shares;
  return blend;
}

OilsFrom read_oils_from(const Node& node, const Reading& reading) {
  OilsFrom from;
  from.written = written(node);
  core::Faults::each(list_of(node), [&](const Node& item) {
    const std::string text = plain_text(item);
    const std::string word = yaml::folded(text);
    const auto ends = [&](std::string_view end) { return text.ends_with(end); };
    if (word == "shelf" || word == "the shelf") {
      from.shelf = true;
    } else if (word == "library" || word == "the library") {
      from.library = true;
    } else if (ends(".yaml") || ends(".yml")) {
      from.shelves.push_back(file_name(item, reading));
    } else if (text.find('/') != std::string::npos || ends(".csv")) {
      if (from.price_list)
        item.fail("a second price list", "Name one price list; put both in one file.");
      from.price_list = file_name(item, reading);
    } else {
      if (reading.library.find(text) == nullptr && reading.library.meant_by(text).empty())
        item.fail("'" + text + "' is neither an oil nor a place oils come from",
                  "Write shelf, library, a price list's file, or a list such as [shelf, shea "
                  "butter]. " +
                      reading.library.remedy_for(text));
      const OilName oil = read_oil(item, reading);
      for (const OilName& other : from.named)
        if (other.name == oil.name)
          item.fail("'" + text + "' stands in the list a second time", "Take one out.");
      from.named.push_back(oil);
    }
  });
  return from;
}

}  // namespace barwright::targets
