#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/units/error.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::oils {

/// Which column of a table of oils (a supplier's price list, a delivery note, a stock sheet) is
/// headed how. An empty heading stands for the usual one: "oil", "pack" or "have", "price" or
/// "paid", "lot", ...
struct ListColumns {
  std::string oil;           ///< heading of the product's column
  std::string pack;          ///< of the pack, any unit: "5 kg", "2 x 1 L", "11 lb"
  std::string price;         ///< of the price of one pack
  std::string price_per_kg;  ///< instead of `price`
  std::string count;         ///< of how many packs came; without it one
  std::string lot, best_before, supplier, note;
  std::string currency;                      ///< a label
  std::optional<double> tax;                 ///< fraction that comes on top of every price
  std::map<std::string, std::string> names;  ///< their name, folded -> ours

  /// Returns these columns, and where they say nothing `below`'s.
  ListColumns over(const ListColumns& below) const;
  /// Returns the headings stated, none of them empty.
  std::vector<std::string> headings() const;
};

/// One entry of a shelf's `lists:` block: how the tables of one supplier are to be read.
struct ListMapping {
  std::string name;   ///< the supplier, or what the maker calls it
  std::string files;  ///< "millbank-*.csv"; empty: recognised by its headings
  ListColumns columns;
  core::Place place;
};

/// Returns the entries of a `lists:` block. Errors: InputError at the node.
std::vector<ListMapping> read_list_mappings(const yaml::Node& node);

/// Takes one line "key: value" or "name THEIRS = OURS" of those above a table. Errors: InputError.
void take_list_line(const std::string& line, const core::Place& place, ListColumns& columns);

/// Returns whether a file's name (its folders do not count) fits a pattern in which '*' stands for
/// any letters.
bool fits_pattern(const std::string& path, const std::string& pattern);

}  // namespace barwright::oils
