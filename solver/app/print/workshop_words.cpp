#include "solver/app/print/workshop_words.hpp"

#include <filesystem>
#include <utility>

#include "oils/text/workshop_place.hpp"
#include "oils/text/yaml.hpp"
#include "solver/app/print/screen.hpp"
#include "targets/files/workshop.hpp"

namespace barwright::app {

core::Units units_of(const CommonOptions& options, const std::string& file) {
  if (options.units == "oz") return core::Units::ounces;
  if (options.units == "g") return core::Units::grams;
  const auto workshop = targets::workshop_beside(file);
  return workshop ? workshop->units.value_or(core::Units::grams) : core::Units::grams;
}

std::string workshop_words(const std::string& file) {
  std::error_code none;
  if (!file.empty() && !std::filesystem::is_regular_file(file, none)) return {};
  const auto workshop = targets::workshop_beside(file);
  if (!workshop) return {};
  // A brief on the command line says nothing of these, and has no shelf.
  const auto document =
      file.empty() ? oils::yaml::Document::from_text("brief: typed\nshelf: none\n", "typed")
                   : oils::yaml::Document::from_file(file);
  const std::string taken = targets::taken_from(*workshop, document.root());
  if (taken.empty()) return {};
  return "From " + std::string(oils::kWorkshopFile) + ": " + taken + ".";
}

std::string shelf_words(const std::string& named) {
  if (!named.empty()) return {};
  const auto workshop = targets::workshop_in(".");
  return workshop && workshop->shelf ? "From " + std::string(oils::kWorkshopFile) + ": shelf."
                                     : std::string();
}

Outcome with_workshop(Outcome answer, const CommonOptions& options, const std::string& file) {
  return with_words(std::move(answer), options.json, workshop_words(file));
}

Outcome with_sentence(Outcome answer, bool json, const std::string& words, const std::string& key,
                      Json value) {
  if (words.empty() || answer.text.empty()) return answer;
  if (json) {
    if (auto object = Json::parse(answer.text)) {
      (*object)[key] = std::move(value);
      answer.text = object->dump(2) + "\n";
    }
    return answer;
  }
  Screen screen(false);
  screen.sentence(words);
  answer.text += screen.text();
  return answer;
}

Outcome with_words(Outcome answer, bool json, const std::string& words) {
  return with_sentence(std::move(answer), json, words, "workshop", words);
}

}  // namespace barwright::app
