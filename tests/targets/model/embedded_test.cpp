#include "targets/embedded.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "oils/text/yaml.hpp"

using namespace barwright;

TEST_CASE("the model's data in the program is what the reader gives from the files",
          "[yaml-tree]") {
  REQUIRE(targets::embedded_files().size() == 9);
  for (const auto& file : targets::embedded_files()) {
    INFO(file.name);
    const auto read = oils::yaml::Document::from_text(std::string(file.text), "x");
    const auto tree = read.tree();
    CHECK(tree.words == file.tree.words);
    REQUIRE(tree.nodes.size() == file.tree.nodes.size());
    CHECK(std::equal(tree.nodes.begin(), tree.nodes.end(), file.tree.nodes.begin()));
  }
}
