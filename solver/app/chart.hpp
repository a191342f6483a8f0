#pragma once

#include <string>
#include <utility>
#include <vector>

namespace barwright::app {

/// A line of points joined, every point marked; no meaning rests on colour.
struct Chart {
  std::string title;
  std::string x_words, y_words;
  std::vector<std::pair<double, double>> points;
};

/// Returns the chart as an <svg> element, 520 by 320, black on white, text as text.
std::string svg(const Chart& chart);

/// Returns text safe inside HTML and SVG.
std::string escaped(const std::string& text);

}  // namespace barwright::app
