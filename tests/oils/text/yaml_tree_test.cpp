// The data files are parsed when the program is built: what stands in it must be what the reader
// gives from the files' text, and a fault must be told at the same place in the same words.
#include <algorithm>
#include <catch2/catch.hpp>
#include <span>
#include <string>

#include "core/units/error.hpp"
#include "oils/embedded.hpp"
#include "oils/text/yaml.hpp"

using namespace barwright;
using oils::yaml::Document;
using oils::yaml::Node;

namespace barwright::oils::additives {
std::span<const EmbeddedFile> embedded_files();
}

namespace {

void check_same(std::span<const oils::EmbeddedFile> files) {
  for (const auto& file : files) {
    INFO(file.name);
    const Document read = Document::from_text(std::string(file.text), "x");
    const auto tree = read.tree();
    CHECK(tree.words == file.tree.words);
    REQUIRE(tree.nodes.size() == file.tree.nodes.size());
    CHECK(std::equal(tree.nodes.begin(), tree.nodes.end(), file.tree.nodes.begin()));
  }
}

std::string told(const Node& node, std::size_t offset) {
  try {
    node.fail_at(offset, "wrong", "mend it");
  } catch (const core::InputError& error) {
    return error.what();
  }
}

// Every node below this one in both: the same path, place and words of a fault.
void check_faults(const Node& a, const Node& b, int& seen) {
  ++seen;
  CHECK(a.path() == b.path());
  CHECK(told(a, 1) == told(b, 1));
  if (a.is_list()) {
    const auto in_a = a.items(), in_b = b.items();
    for (std::size_t i = 0; i < in_a.size(); ++i) check_faults(in_a[i], in_b[i], seen);
  } else if (a.is_map()) {
    const auto in_a = a.entries(), in_b = b.entries();
    for (std::size_t i = 0; i < in_a.size(); ++i) {
      check_faults(in_a[i].first, in_b[i].first, seen);
      check_faults(in_a[i].second, in_b[i].second, seen);
    }
  }
}

}  // namespace

TEST_CASE("the data in the program is what the reader gives from the files", "[yaml-tree]") {
  REQUIRE(oils::embedded_files().size() > 80);
  check_same(oils::embedded_files());
  check_same(oils::additives::embedded_files());
}

TEST_CASE("a fault in the program's own data is told as one in a file", "[yaml-tree]") {
  for (const auto& file : oils::embedded_files()) {
    if (file.name != "olive.yaml" && file.name != "tags.yaml") continue;
    const auto read = Document::from_text(std::string(file.text), "library/x.yaml");
    const auto kept = Document::from_tree(file.tree, file.text, "library/x.yaml");
    int seen = 0;
    check_faults(read.root(), kept.root(), seen);
    CHECK(seen > 50);
  }
}
