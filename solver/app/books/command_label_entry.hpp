#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/trade/label.hpp"
#include "oils/text/yaml.hpp"
#include "solver/app/books/page_label.hpp"

namespace barwright::app {

/// What a maker enters for a label: names from suppliers' papers, allergens from the scent's
/// certificate, words meant for the wrapper.
struct LabelEntry {
  std::string file, name;
  std::optional<core::Custom> custom;
  std::optional<double> net_grams;
  std::map<std::string, std::string> names;  ///< addition -> name for the list
  std::vector<std::string> colourants;
  std::vector<std::string> scents;
  std::vector<core::Allergen> allergens;
  std::string words;
  std::vector<oils::yaml::Node>
      said;  ///< all that goes on the wrapper, where it stands: name, words
  std::optional<LabelSize> size;
  bool list_as_added = false;  ///< which list is printed; else as saponified
};

/// Returns the entry of a file:
///   label: yard bar
///   custom: eu                    # or us
///   net-weight: 100 g
///   names: {cracked juniper: Juniperus Communis Fruit}
///   colourants: [indigo powder]
///   scents: [fir and smoke]
///   allergens: {fir and smoke: {Limonene: 8 %, Linalool: 0.4 %}}
///   words: [gentle, made by hand]
///   size: 70 mm x 40 mm
///   list: as added                # or as saponified
/// Errors: InputError at file, line and column.
LabelEntry read_label_entry(const std::string& path);
LabelEntry read_label_entry_text(const std::string& text, const std::string& name);

}  // namespace barwright::app
