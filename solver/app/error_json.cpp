#include "solver/app/error_json.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "solver/app/edit_path.hpp"

namespace barwright::app {
namespace {

// The names a remedy offers: "Did you mean 'olive'? ...", "Say which is meant: 'a', 'b' or 'c'."
Json names_in(const std::string& remedy) {
  static constexpr std::array<std::string_view, 2> starts = {"Did you mean ",
                                                             "Say which is meant: "};
  Json out = Json::array();
  for (const auto start : starts) {
    const std::size_t found = remedy.find(start);
    if (found == std::string::npos) continue;
    const std::size_t from = found + start.size();
    const std::string list =
        remedy.substr(from, std::min(remedy.find("? ", from), remedy.find("; ", from)) - from);
    for (std::size_t at = 0; (at = list.find('\'', at)) != std::string::npos;) {
      const std::size_t end = list.find('\'', at + 1);
      if (end == std::string::npos) break;
      out.push_back(list.substr(at + 1, end - at - 1));
      at = end + 1;
    }
  }
  return out;
}

}  // namespace

Json error_json(const core::InputError& error) {
  Json out = error_json(error.message(), error.remedy());
  const core::Place& place = error.place();
  if (!place.file.empty()) out["file"] = place.file;
  if (place.line > 0) out["line"] = place.line;
  if (place.column > 0) out["column"] = place.column;
  if (!error.way().empty()) out["path"] = edit_path(error.way());
  return out;
}

Json error_json(const std::string& message, const std::string& remedy) {
  Json out = {{"file", nullptr}, {"line", nullptr}, {"column", nullptr}, {"path", nullptr}};
  out["message"] = message;
  out["remedy"] = remedy;
  out["suggestions"] = names_in(remedy);
  return out;
}

}  // namespace barwright::app
