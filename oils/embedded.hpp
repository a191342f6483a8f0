#pragma once

#include <span>
#include <string_view>

#include "oils/text/yaml_tree.hpp"

namespace barwright::oils {

/// One data file as it stood in the source tree when the program was built.
struct EmbeddedFile {
  std::string_view name;  ///< file name without folder, e.g. "olive.yaml"
  std::string_view text;  ///< its bytes
  yaml::Tree tree = {};   ///< of a YAML file, parsed when the program was built
};

/// Returns the library's data files, sorted by name.
std::span<const EmbeddedFile> embedded_files();

}  // namespace barwright::oils
