#include "solver/app/sheet/sheet_mark.hpp"

#include "oils/files/safe_file.hpp"
#include "solver/app/sheet/json_sheet.hpp"

namespace barwright::app {
namespace {

/// What is no part of the recipe: what the shelf holds, and words, which follow what is shown.
bool beside(const std::string& key) {
  for (const char* each : {"on_shelf_grams", "notes", "practice", "remark", "sign", "behaves"}) {
    if (key == each) return true;
  }
  return false;
}

Json bare(const Json& json, const std::string& under) {
  if (json.is_array()) {
    Json out = Json::array();
    for (const Json& item : json.items()) out.push_back(bare(item, under));
    return out;
  }
  if (!json.is_object()) return json;
  Json out = Json::object();
  for (std::size_t i = 0; i < json.items().size(); ++i) {
    const std::string& key = json.keys()[i];
    if (!beside(key) && !(under == "clock" && key == "what")) out[key] = bare(json.items()[i], key);
  }
  return out;
}

}  // namespace

std::string sheet_mark(const batch::BatchPlan& plan, const batch::BatchTimes& times) {
  return oils::mark_of(bare(sheet_object(plan, times), {}).dump(0)).substr(0, 8);
}

}  // namespace barwright::app
