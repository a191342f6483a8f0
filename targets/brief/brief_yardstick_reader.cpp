#include "targets/brief/brief_yardstick_reader.hpp"

#include <filesystem>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/brief/brief_yardstick.hpp"
#include "targets/files/recipe_file.hpp"
#include "targets/model/yardstick.hpp"

namespace barwright::targets {

using oils::yaml::Node;

namespace {

void set_recipe(Yardstick& yardstick, const RecipeFile& recipe, const Node& node) {
  if (!recipe.name.empty()) yardstick.name = recipe.name;
  yardstick.blend = recipe.blend;
  yardstick.superfat = recipe.lye.superfat;
  yardstick.concentration = recipe.lye.concentration;
  if (recipe.lye.alkali == LyeWish::Alkali::potassium) yardstick.koh_share = 1;
  if (recipe.lye.koh_share) {
    if (recipe.lye.koh_basis != LyeWish::KohBasis::moles)
      node.fail("a yardstick's potash is counted by moles", "Write 'by: moles' in its alkali.");
    yardstick.koh_share = recipe.lye.koh_share;
  }
}

bool names_a_file(const std::string& text) {
  return text.find('/') != std::string::npos || text.ends_with(".yaml") || text.ends_with(".yml");
}

void set_file(Yardstick& yardstick, const Node& node, const Reading& reading) {
  const FileName file = file_name(node, reading);
  if (!std::filesystem::exists(file.path))
    node.fail("there is no file '" + file.path + "'",
              "Check the name; it is looked for from the folder of this file.");
  yardstick.file = file.path;
  yardstick.name = std::filesystem::path(file.path).stem().string();
  try {
    set_recipe(yardstick, read_recipe(file.path, reading.library), node);
  } catch (core::InputError& error) {
    error.add_context("in the recipe that " + node.place().file + ":" +
                      std::to_string(node.place().line) + " compares with");
    throw;
  }
}

}  // namespace

std::string find_shipped(std::string_view words) {
  for (const ShippedYardstick& shipped : shipped_yardsticks())
    if (oils::yaml::folded(shipped.name) == oils::yaml::folded(words)) return shipped.name;
  return {};
}

core::Remedy shipped_remedy(std::string_view words) {
  std::vector<std::string> known;
  for (const ShippedYardstick& shipped : shipped_yardsticks()) known.push_back(shipped.name);
  return oils::yaml::nearest_and_known(words, known);
}

Yardstick read_yardstick(const Node& node, const Reading& reading) {
  Yardstick yardstick;
  yardstick.written = written(node);
  if (node.is_scalar()) {
    const std::string text = plain_text(node);
    if (names_a_file(text)) {
      set_file(yardstick, node, reading);
    } else {
      yardstick.shipped = find_shipped(text);
      if (yardstick.shipped.empty())
        node.fail("no shipped yardstick is called '" + text + "'",
                  shipped_remedy(text) + " Or name a recipe's file, or write {blend: {...}}.");
      yardstick.name = yardstick.shipped;
    }
    return yardstick;
  }
  Block block(node);
  const auto name = block.take("name");
  if (auto recipe = block.take("recipe")) {
    set_file(yardstick, *recipe, reading);
    block.done();
  } else {
    block.one_only({"blend", "recipe"});
    block.settle();
    yardstick.name = "the bar in the hand";
    set_recipe(yardstick, read_recipe_node(node, reading), node);
  }
  if (name) yardstick.name = plain_text(*name);
  return yardstick;
}

}  // namespace barwright::targets
