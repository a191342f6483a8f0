// The page of a look around, opened in headless Chromium: it stands alone, nothing overlaps or is
// cut off, nothing rests on colour, and it prints on A4 and Letter.
#include <catch2/catch.hpp>
#include <regex>

#include "browser.hpp"
#include "running.hpp"

using namespace barwright::tests;

namespace {

std::string page(const std::string& folder) {
  const Ran ran =
      run("barwright explore examples/spring-line.yaml --curve 'cost against hardness' --page " +
          folder + "/look.html");
  REQUIRE(ran.exit_code == 0);
  return slurp(folder + "/look.html");
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t found = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++found;
  return found;
}

}  // namespace

TEST_CASE("the page of a look around stands alone, its charts clear, without colour",
          "[explore][browser]") {
  const std::string folder = fresh_folder("explore-page");
  const std::string html = page(folder);
  for (const char* outside : {"http", "<script", "<link", "<img", "@import", "url("}) {
    INFO(outside);
    CHECK(html.find(outside) == std::string::npos);
  }
  CHECK(count(html, "<svg") == 5);  // two bars, two charts each, and what sureness costs
  for (const int width : {1000, 500}) {
    INFO(width);
    CHECK(layout_faults(html, folder, width) == "");
  }
  // Every point of a curve is a numbered row below it.
  CHECK(count(html, "<circle") > 20);
  CHECK(html.find("yard bar as sold</text>") != std::string::npos);
  CHECK(html.find("as planned for the whole range</text>") != std::string::npos);
  // One line per bar, told apart by dashes and shapes; its levels stand below it.
  CHECK(html.find("<h2>What sureness costs</h2>") != std::string::npos);
  CHECK(html.find("yard bar, more lather</text>") != std::string::npos);
  CHECK(count(html, "stroke-dasharray=\"7 4\"") == 2);  // the second bar, and its legend
  CHECK(html.find(">95 lots in 100</text>") != std::string::npos);
}

TEST_CASE("the page of a look around prints on A4 and Letter", "[explore][browser]") {
  const std::string folder = fresh_folder("explore-print");
  const std::string html = page(folder);
  // Laid out as on paper, in the width that A4 leaves between 15 mm margins: 180 mm, 680 px.
  std::string paper = html;
  const auto media = paper.find("@media print");
  REQUIRE(media != std::string::npos);
  paper.replace(media, 12, "@media all");
  const std::string faults = layout_faults(paper, folder, 680);
  CHECK(faults == "");
  const std::regex box(R"(/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\])");
  struct Paper {
    const char* size;
    double width, height;  // points
  };
  for (const auto& [size, width, height] :
       {Paper{"A4", 595.28, 841.89}, Paper{"letter", 612, 792}}) {  // ISO 216; ANSI A
    INFO(size);
    const std::string pdf = printed(html, folder, size);
    int pages = 0;
    for (std::sregex_iterator it(pdf.begin(), pdf.end(), box), end; it != end; ++it, ++pages) {
      CHECK(std::stod((*it)[1]) == Approx(width).margin(1));
      CHECK(std::stod((*it)[2]) == Approx(height).margin(1));
    }
    CHECK(pages >= 3);  // the plan, and a page at least for each bar
    CHECK(pages <= 9);
  }
}
