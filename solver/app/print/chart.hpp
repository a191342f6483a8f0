#pragma once

#include <string>
#include <utility>
#include <vector>

namespace barwright::app {

/// A bar beside the line: a square or a triangle, its words in the legend.
struct ChartMark {
  enum class Shape { square, triangle };
  Shape shape = Shape::square;
  std::string words;
  double x = 0, y = 0;
};

/// One of several lines that a chart tells apart by dashes and shapes, its words in the legend.
struct ChartLine {
  std::string words;
  std::vector<std::pair<double, double>> points;
};

/// A line of points joined, every point numbered as in the table below it; no meaning rests on
/// colour.
struct Chart {
  std::string title;
  std::string x_words, y_words;
  std::vector<std::pair<double, double>> points;
  std::vector<ChartMark> marks;
  std::vector<ChartLine> lines = {};
  std::vector<std::string> x_names = {};  ///< stand at x = 0, 1, ...; empty: x is a figure
};

/// Returns the chart as an <svg> element, 640 wide, black on white, text as text: numbers of points
/// and marks keep clear of each other.
std::string svg(const Chart& chart);

}  // namespace barwright::app
