#include "solver/app/print/chart.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "browser.hpp"
#include "running.hpp"

using namespace barwright;
using namespace barwright::tests;

TEST_CASE("numbers of crowded points keep clear of each other and of the points",
          "[chart][browser]") {
  app::Chart steep{"steep", "across", "up", {}, {}}, crowded = steep, flat = steep;
  for (int k = 0; k < 21; ++k) {
    steep.points.emplace_back(2 + 0.01 * k, std::exp(0.3 * k));  // a wall at the end
    crowded.points.emplace_back(3 + 0.02 * (k % 7), 1.8 + 0.004 * k);
    flat.points.emplace_back(0.35 * k, 1.5);
  }
  crowded.points.emplace_back(9, 4);  // all the others in one corner
  crowded.marks.push_back({app::ChartMark::Shape::square, "yard bar as sold", 3.06, 1.84});
  crowded.marks.push_back({app::ChartMark::Shape::triangle, "as planned", 3.1, 1.86});
  std::string page = "<!doctype html><html><head><meta charset=\"utf-8\"></head><body>";
  for (const auto* chart : {&steep, &crowded, &flat}) page += app::svg(*chart);
  CHECK(layout_faults(page + "</body></html>", fresh_folder("chart"), 800) == "");
}

TEST_CASE("an axis begins at nothing only where the figures come near it", "[chart]") {
  const auto has = [](const app::Chart& chart, const std::string& tick) {
    return app::svg(chart).find(">" + tick + "</text>") != std::string::npos;
  };
  CHECK(has({"", "", "", {{1, 0.3}, {2, 2.0}}, {}}, "0.0"));
  CHECK_FALSE(has({"", "", "", {{11, 8}, {12, 9}}, {}}, "0.0"));
  // A mark is within the axes too.
  CHECK(
      has({"", "", "", {{11, 8}, {12, 9}}, {{app::ChartMark::Shape::square, "now", 11, 0}}}, "0"));
}
