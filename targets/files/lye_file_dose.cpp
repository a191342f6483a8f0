#include "targets/files/lye_file_dose.hpp"

#include <fmt/format.h>

#include "core/units/quantity.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/files/lye_file_reader.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

namespace {

constexpr const char* kDoseForms =
    "Write what it counts on: '20 g per kg oils', '2 % of oils', '3 g per bar' or '6 g in all'.";

/// "sodium lactate syrup 60 %": the strength at the end comes off.
void split_strength(const Node& key, Addition& addition) {
  const std::string text = yaml::trimmed(key.text());
  if (!text.ends_with('%')) return;
  std::size_t cut = text.find_last_of(' ');
  if (cut != std::string::npos && text.substr(cut + 1) == "%")
    cut = cut == 0 ? std::string::npos : text.find_last_of(' ', cut - 1);
  if (cut == std::string::npos || cut == 0) return;
  Phrase phrase(key, std::string_view(text).substr(cut + 1), cut + 1);
  const double strength = phrase.fraction();
  phrase.end({}, "Write the strength at the end, such as 60 %.");
  if (!(strength > 0 && strength <= 1))
    key.fail_at(cut + 1, "a strength of " + percent(strength) + " cannot be",
                "Write more than 0 %, at most 100 %.");
  addition.strength = strength;
  addition.name = yaml::trimmed(std::string_view(text).substr(0, cut));
}

Addition read_addition(const Node& key, const Node& value, PlainGrams plain) {
  Addition addition;
  addition.name = yaml::trimmed(key.text());
  addition.written = written(key, value);
  split_strength(key, addition);
  if (value.is_null()) key.fail("'" + key.text() + "' has no amount", kDoseForms);
  addition.dose = read_dose(value, plain);
  return addition;
}

/// 1 or 3 for a teaspoon or a tablespoon, 0 for other words.
double teaspoons_in(const std::string& unit) {
  const std::string word = yaml::folded(unit);
  for (const char* one : {"tsp", "teaspoon", "teaspoons"})
    if (word == one) return 1;
  for (const char* three : {"tbsp", "tablespoon", "tablespoons"})
    if (word == three) return 3;
  return 0;
}

}  // namespace

Dose read_dose(const Node& node, PlainGrams plain) {
  Dose dose;
  dose.written = written(node);
  Phrase phrase(node);
  if (phrase.done()) node.fail("the amount is missing", kDoseForms);
  const std::size_t start = phrase.mark();
  phrase.number();
  const std::string unit = phrase.word();
  phrase.back(start);
  if (unit == "%" || unit == "percent") {
    dose.value = phrase.fraction();
    if (phrase.take_any({"of the oils", "of oils", "of the oil", "oils"}))
      dose.basis = Basis::of_oils;
    else if (phrase.take_any({"of the water", "of water", "of the lye water"}))
      dose.basis = Basis::of_water;
    else
      phrase.fail("'" + node.text() + "': of what?", kDoseForms);
    if (dose.value > 1) node.fail(percent(dose.value) + " cannot be", "Write at most 100 %.");
  } else {
    if (const double spoon = teaspoons_in(unit); spoon > 0) {
      dose.teaspoons = true;
      dose.value = spoon * phrase.number();
      phrase.skip();
    } else {
      dose.value = phrase.grams();
    }
    const double per_pound = 1000 / core::kGramsPerPound;
    if (phrase.take_any(
            {"per pound of batter", "per lb of batter", "per lb batter", "per pound batter"})) {
      dose.basis = Basis::per_kg_batter;
      dose.value *= per_pound;
    } else if (phrase.take_any({"per pound of oils", "per lb of oils", "per lb oils",
                                "per pound oils", "per pound", "per lb"})) {
      dose.basis = Basis::per_kg_oils;
      dose.value *= per_pound;
    } else if (phrase.take_any({"per kg of batter", "per kg batter"})) {
      dose.basis = Basis::per_kg_batter;
    } else if (phrase.take_any({"per kg of oils", "per kg oils", "per kg of oil", "per kg"})) {
      dose.basis = Basis::per_kg_oils;
    } else if (phrase.take_any({"per bar", "a bar", "each bar"})) {
      dose.basis = Basis::per_bar;
    } else if (!phrase.take_any({"in all", "total", "per batch", "in total"}) &&
               plain == PlainGrams::need_basis) {
      node.fail("'" + node.text() + "': for the whole batch, per bar or per kg of oils?",
                kDoseForms);
    }
  }
  phrase.end(
      {"per", "kg", "lb", "pound", "oils", "batter", "bar", "in", "all", "total", "of", "water"},
      kDoseForms);
  above_zero(dose.value, node, "an amount");
  return dose;
}

std::vector<Addition> read_additions(const Node& node, PlainGrams plain) {
  std::vector<Addition> additions;
  const auto read = [&](const Node& item) {
    if (!item.is_map())
      item.fail("'" + (item.is_scalar() ? item.text() : std::string("this")) + "' has no amount",
                "Write it with its amount, such as {charcoal: 1.1 g}.");
    Block block(item);
    const auto when = block.take("when");
    const auto total = block.take("total");
    const auto lye = block.take("lye");
    const auto frozen = block.take("frozen");
    const auto spoon = block.take("spoon-weighs");
    const bool whole = total && total->yes_no();
    const auto named = block.take_rest();
    if (named.empty())
      item.fail("no name with an amount stands here", "Write one, such as {charcoal: 1.1 g}.");
    core::Faults::each(named, [&](const auto& entry) {
      const auto& [key, value] = entry;
      Addition addition = read_addition(key, value, whole ? PlainGrams::are_total : plain);
      if (whole && addition.dose.basis != Basis::total)
        total->fail("'total: yes' beside '" + value.text() + "'", "Keep one of the two.");
      if (when) addition.when = plain_text(*when);
      if (frozen) addition.frozen = frozen->yes_no();
      if (spoon) {
        addition.spoon_grams = above_zero(spoon->grams(), *spoon, "a spoonful");
        if (!addition.dose.teaspoons)
          spoon->fail("'spoon-weighs' beside a dose that is not in spoons",
                      "Write the dose such as '1 tsp per kg oils', or take this out.");
      }
      if (lye)
        addition.lye_corrected = choice<bool>(
            *lye, {{"corrected", true}, {"superfat rises", false}, {"as it is", false}});
      additions.push_back(std::move(addition));
    });
    block.done();
  };
  core::Faults::each(list_of(node), read);
  return additions;
}

}  // namespace barwright::targets
