#pragma once

#include <string>
#include <vector>

#include "oils/text/yaml_text.hpp"
#include "oils/text/yaml_tree.hpp"

namespace barwright::oils::yaml {

/// A tree with the memory it stands in.
struct ParsedTree {
  std::vector<TreeNode> nodes;
  std::string words;
};

/// Returns a file's tree. yaml-cpp reads the notation. Errors: InputError for what is not
/// well-formed, a second document, a key that stands twice, anchors, aliases and type tags.
ParsedTree parse(const SourceText& source);

/// Returns what an error calls such a node: "a list".
const char* words_for(Kind kind);

}  // namespace barwright::oils::yaml
