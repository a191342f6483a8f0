#include "targets/files/recipe_file.hpp"

#include <cmath>
#include <filesystem>

#include "targets/files/lye_file_reader.hpp"
#include "targets/files/make_size_reader.hpp"
#include "targets/files/oil_rules_reader.hpp"

namespace barwright::targets {

using oils::yaml::Document;
using oils::yaml::Node;

namespace {

RecipeFile read_root(const Node& root, const std::string& file, const Reading& reading) {
  RecipeFile recipe = read_recipe_node(root, reading);
  recipe.file = file;
  recipe.folder = reading.folder;
  return recipe;
}

}  // namespace

RecipeFile read_recipe_node(const Node& node, const Reading& reading) {
  RecipeFile recipe;
  recipe.lye.written = written(node);
  Block block(node);
  block.one_only({"oils", "make"});
  if (auto name = block.take({"recipe", "name"})) recipe.name = plain_text(*name);
  recipe.blend = read_blend(block.need("blend"), reading);
  if (auto lye = block.take("lye")) {
    recipe.lye = read_lye(*lye);
    for (const char* key : {"superfat", "concentration", "water-ratio", "water"})
      if (auto again = block.take(key))
        again->fail("'" + std::string(key) + "' stands beside the lye block",
                    "Write it inside 'lye:'.");
  } else {
    take_short_lye(block, recipe.lye);
  }
  if (auto make = block.take("make")) recipe.make = read_make(*make);
  if (auto oils = block.take("oils")) {
    MakeSize make;
    make.oils_grams = above_zero(oils->grams(), *oils, "the mass of oils");
    make.written = written(*oils);
    recipe.make = make;
  }
  if (auto scale = block.take("scale")) recipe.scale = read_scale(*scale);
  if (auto shelf = block.take("shelf")) recipe.shelf = file_name(*shelf, reading);
  if (auto note = block.take("note")) recipe.note = plain_text(*note);
  // What was in force when a brief found it: a record, which nothing is reckoned from.
  if (auto manners = block.take("manners"))
    for (const Node& name : list_of(*manners)) plain_text(name);
  block.done();
  if (recipe.blend.grams > 0 && recipe.make && recipe.make->oils_grams &&
      std::abs(*recipe.make->oils_grams - recipe.blend.grams) > 1e-6 * recipe.blend.grams)
    recipe.make->written.fail("the blend's weights add to " + figure(recipe.blend.grams) +
                                  " g, not " + figure(*recipe.make->oils_grams) + " g",
                              "Leave this out, or write the blend in percent.");
  return recipe;
}

RecipeFile read_recipe(const std::string& path, const oils::Library& library) {
  const Document document = Document::from_file(path);
  return read_root(document.root(), path,
                   {library, std::filesystem::path(path).parent_path().string()});
}

RecipeFile read_recipe_text(const std::string& text, const std::string& name,
                            const std::string& folder, const oils::Library& library) {
  const Document document = Document::from_text(text, name);
  return read_root(document.root(), name, {library, folder});
}

}  // namespace barwright::targets
