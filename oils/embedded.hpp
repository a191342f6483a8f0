#pragma once

#include <span>
#include <string_view>

namespace barwright::oils {

/// One data file as it stood in the source tree when the program was built.
struct EmbeddedFile {
  std::string_view name;  ///< file name without folder, e.g. "olive.yaml"
  std::string_view text;  ///< its bytes
};

/// Returns the library's data files, sorted by name.
std::span<const EmbeddedFile> embedded_files();

}  // namespace barwright::oils
