#pragma once

#include <optional>
#include <string>
#include <vector>

namespace barwright::app {

/// A label's face, mm.
struct LabelSize {
  double width = 0, height = 0;
};

/// What is printed on a label, and how large.
struct PrintedLabel {
  LabelSize size;
  std::string name;
  std::vector<std::string> words;
  std::string ingredients, net_weight;
  double points = 0;  ///< of the letters, the name's half as large again
  int lines = 0;      ///< of the ingredients
};

/// Returns the size typed, such as "70 mm x 40 mm" or "70 x 40 mm". Errors: core::UnitError for no
/// size, or one below 15 mm or above 290 mm.
LabelSize label_size(const std::string& text);

/// Sets the largest letters, from 10 to 4 points, at which all of it fits by an ordinary
/// letter's width. Returns whether any do.
bool fit(PrintedLabel& label);

/// Returns a page with the label to size and, below it, a line of 50 mm to be measured on paper.
std::string page_label(const PrintedLabel& label);

}  // namespace barwright::app
