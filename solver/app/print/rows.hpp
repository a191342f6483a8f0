#pragma once

#include <string>
#include <vector>

namespace barwright::app {

/// A table as text and page both show it: the first row heads the columns; `align` as in Screen.
struct Rows {
  std::string align;
  std::vector<std::vector<std::string>> rows;
  bool empty() const { return rows.size() < 2; }
};

}  // namespace barwright::app
