#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "running.hpp"

namespace barwright::tests {

inline Ran run_barwright(const std::string& arguments) { return run("barwright " + arguments); }

inline std::string towpath() {
  return std::string(BARWRIGHT_SOURCE_DIR) + "/examples/towpath-batch.yaml";
}

/// Writes the example with one text replaced and returns its path.
inline std::string changed(const std::string& name, const std::string& from,
                           const std::string& to) {
  std::string text = slurp(towpath());
  const auto at = text.find(from);
  if (at == std::string::npos) return "no such text: " + from;
  text.replace(at, from.size(), to);
  const std::string path = fresh_folder("sheet-" + name) + "/batch.yaml";
  spill(path, text);
  return path;
}

}  // namespace barwright::tests
