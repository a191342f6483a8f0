// The page of a swap in headless Chromium: the screen's words and warnings, with a chart.
#include <catch2/catch.hpp>

#include "browser.hpp"
#include "running.hpp"

using namespace barwright::tests;

TEST_CASE("the page of a swap stands alone, is clear on screen and paper, and warns",
          "[swap][browser]") {
  const std::string folder = fresh_folder("swap-page");
  REQUIRE(
      run("barwright swap examples/butter-out.yaml --page " + folder + "/swap.html").exit_code ==
      0);
  const std::string html = slurp(folder + "/swap.html");
  for (const char* outside : {"http", "<script", "<link", "<img", "@import", "url("}) {
    INFO(outside);
    CHECK(html.find(outside) == std::string::npos);
  }
  for (const char* text :
       {"<svg", "<h2>THE BLEND", "DANGER", "LYE LEFT OVER", "never water onto alkali",
        "Eyes: rinse at once", "Superfat 6 %; between", "safety assessment"}) {
    INFO(text);
    CHECK(html.find(text) != std::string::npos);
  }
  CHECK(layout_faults(html, folder, 1000) == "");
  std::string paper = html;
  paper.replace(paper.find("@media print"), 12, "@media all");
  CHECK(layout_faults(paper, folder, 680) == "");  // A4 between its margins
}
