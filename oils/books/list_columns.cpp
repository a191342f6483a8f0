#include "oils/books/list_columns.hpp"

#include <array>
#include <filesystem>

#include "core/units/quantity.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils {
namespace {

struct Heading {
  const char* key;
  std::string ListColumns::*member;
};
constexpr std::array kHeadings = {Heading{"oil", &ListColumns::oil},
                                  Heading{"pack", &ListColumns::pack},
                                  Heading{"have", &ListColumns::pack},
                                  Heading{"price", &ListColumns::price},
                                  Heading{"paid", &ListColumns::price},
                                  Heading{"price-per-kg", &ListColumns::price_per_kg},
                                  Heading{"count", &ListColumns::count},
                                  Heading{"lot", &ListColumns::lot},
                                  Heading{"best-before", &ListColumns::best_before},
                                  Heading{"supplier", &ListColumns::supplier},
                                  Heading{"note", &ListColumns::note},
                                  Heading{"currency", &ListColumns::currency}};

std::optional<double> rate_of_tax(const std::string& text) {
  try {
    const double rate = core::to_fraction(core::parse_quantity(text));
    if (rate >= 0 && rate < 1) return rate;
  } catch (const core::UnitError&) {  // no rate
  }
  return std::nullopt;
}

ListMapping read_mapping(const yaml::Node& name, const yaml::Node& block) {
  ListMapping out;
  out.name = name.text();
  out.place = name.place();
  std::vector<std::string> allowed = {"files", "tax", "names"};
  for (const auto& heading : kHeadings) allowed.emplace_back(heading.key);
  block.only(allowed);
  if (const auto node = block.get("files")) {
    out.files = yaml::trimmed(node->text());
    if (out.files.empty() || out.files.find('/') != std::string::npos)
      node->fail("'" + node->text() + "' is no name of a file", "Write it as 'millbank-*.csv'.");
  }
  for (const auto& heading : kHeadings) {
    const auto node = block.get(heading.key);
    if (!node) continue;
    std::string& value = out.columns.*heading.member;
    if (!value.empty())
      node->fail(std::string("'") + heading.key + "' says again what stands above",
                 "Keep one of the two.");
    value = yaml::trimmed(node->text());
    if (value.empty()) node->fail("no heading stands here", "Write it as the table's first line.");
  }
  if (!out.columns.price.empty() && !out.columns.price_per_kg.empty())
    block.need("price-per-kg")
        .fail("'price' and 'price-per-kg' both stand here",
              "Keep the column that the prices are to be taken from.");
  if (const auto node = block.get("tax")) {
    out.columns.tax = rate_of_tax(node->text());
    if (!out.columns.tax) node->fail("'" + node->text() + "' is no rate of tax", "Write 7 %.");
  }
  if (const auto node = block.get("names")) {
    for (const auto& [theirs, ours] : node->entries())
      out.columns.names[yaml::folded(theirs.text())] = yaml::trimmed(ours.text());
  }
  if (out.files.empty() && out.columns.headings().empty())
    name.fail("'" + out.name + "' does not say which tables it is for",
              "Name their headings ('oil: Product'), or their files ('files: millbank-*.csv').");
  return out;
}

}  // namespace

ListColumns ListColumns::over(const ListColumns& below) const {
  ListColumns out = *this;
  // The price is in one column: a nearer word on either leaves the farther one out.
  const bool priced = !price.empty() || !price_per_kg.empty();
  for (const auto& heading : kHeadings) {
    std::string& value = out.*heading.member;
    const bool of_price =
        heading.member == &ListColumns::price || heading.member == &ListColumns::price_per_kg;
    if (value.empty() && !(of_price && priced)) value = below.*heading.member;
  }
  if (!out.tax) out.tax = below.tax;
  out.names.insert(below.names.begin(), below.names.end());
  return out;
}

std::vector<std::string> ListColumns::headings() const {
  std::vector<std::string> out;
  for (const auto* text :
       {&oil, &pack, &price, &price_per_kg, &count, &lot, &best_before, &supplier, &note}) {
    if (!text->empty()) out.push_back(*text);
  }
  return out;
}

std::vector<ListMapping> read_list_mappings(const yaml::Node& node) {
  std::vector<ListMapping> out;
  for (const auto& [name, block] : node.entries()) out.push_back(read_mapping(name, block));
  return out;
}

void take_list_line(const std::string& line, const core::Place& place, ListColumns& columns) {
  const std::string text = yaml::trimmed(line);
  if (text.empty()) return;
  const auto wrong = [&](const std::string& message) {
    throw core::InputError(place, message,
                           "Known are 'oil: HEADING', 'pack: HEADING', 'price: HEADING', "
                           "'price-per-kg: HEADING', 'count', 'lot', 'best-before', 'supplier', "
                           "'note', 'currency: EUR', 'tax: 20 %' and 'name THEIRS = OURS'; other "
                           "lines begin with '##'.",
                           line);
  };
  if (text.starts_with("name ")) {
    const auto equals = text.find('=');
    if (equals == std::string::npos) wrong("'" + text + "' names no oil");
    columns.names[yaml::folded(text.substr(5, equals - 5))] =
        yaml::trimmed(text.substr(equals + 1));
    return;
  }
  const auto colon = text.find(':');
  if (colon == std::string::npos) wrong("'" + text + "' is no line we know");
  const std::string key = yaml::folded(text.substr(0, colon));
  const std::string value = yaml::trimmed(text.substr(colon + 1));
  if (key == "tax") {
    columns.tax = rate_of_tax(value);
    if (!columns.tax) wrong("'" + value + "' is no rate of tax");
    return;
  }
  for (const auto& heading : kHeadings) {
    if (key != yaml::folded(heading.key)) continue;
    columns.*heading.member = value;
    return;
  }
  wrong("'" + key + "' is no key of a price list");
}

bool fits_pattern(const std::string& path, const std::string& pattern) {
  const std::string name = std::filesystem::path(path).filename().string();
  std::size_t n = 0, p = 0, star = std::string::npos, mark = 0;
  while (n < name.size()) {
    if (p < pattern.size() && pattern[p] == '*') {
      star = p++;
      mark = n;
    } else if (p < pattern.size() && pattern[p] == name[n]) {
      ++p, ++n;
    } else if (star != std::string::npos) {  // let the last star take one letter more
      p = star + 1;
      n = ++mark;
    } else {
      return false;
    }
  }
  while (p < pattern.size() && pattern[p] == '*') ++p;
  return p == pattern.size();
}

}  // namespace barwright::oils
