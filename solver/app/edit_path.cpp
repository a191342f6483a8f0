#include "solver/app/edit_path.hpp"

#include <algorithm>

namespace barwright::app {

std::string edit_path(const std::string& way) {
  std::string out;
  for (std::size_t at = 0; at < way.size();) {
    const std::size_t end = std::min(way.size(), way.find(" > ", at));
    const std::string key = way.substr(at, end - at);
    if (!out.empty()) out += '.';
    out += key.find('.') == std::string::npos ? key : '"' + key + '"';
    at = end + 3;
  }
  return out;
}

std::string edit_path(const oils::yaml::Node& node) {
  return node ? edit_path(node.path()) : std::string();
}

}  // namespace barwright::app
