#include "solver/app/error_json.hpp"

#include "solver/app/edit_path.hpp"

namespace barwright::app {
Json error_json(const core::InputError& error) {
  Json out = error_json(error.message(), error.remedy(), error.suggestions());
  const core::Place& place = error.place();
  if (!place.file.empty()) out["file"] = place.file;
  if (place.line > 0) out["line"] = place.line;
  if (place.column > 0) out["column"] = place.column;
  if (!error.way().empty()) out["path"] = edit_path(error.way());
  return out;
}

Json errors_json(const core::InputError& error) {
  Json list = Json::array();
  list.push_back(error_json(error));
  for (const core::InputError& other : error.also()) list.push_back(error_json(other));
  return list;
}

Json error_json(const std::string& message, const std::string& remedy,
                const std::vector<std::string>& suggestions) {
  Json out = {{"file", nullptr}, {"line", nullptr}, {"column", nullptr}, {"path", nullptr}};
  out["message"] = message;
  out["remedy"] = remedy;
  out["suggestions"] = Json(suggestions);
  return out;
}

Json errors_json(const std::string& message, const std::string& remedy,
                 const std::vector<std::string>& suggestions) {
  Json list = Json::array();
  list.push_back(error_json(message, remedy, suggestions));
  return list;
}

}  // namespace barwright::app
