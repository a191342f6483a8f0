#include "targets/files/recipe_file.hpp"

#include <cmath>
#include <filesystem>

#include "targets/files/lye_file_reader.hpp"
#include "targets/files/make_size_reader.hpp"
#include "targets/files/oil_rules_blend.hpp"
#include "targets/files/oil_rules_reader.hpp"
#include "targets/files/workshop.hpp"

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
  block.read({"recipe", "name"}, [&](const Node& name) { recipe.name = plain_text(name); });
  block.need("blend", [&](const Node& blend) { recipe.blend = read_blend(blend, reading); });
  if (block.has("lye")) {
    block.read("lye", [&](const Node& lye) { recipe.lye = read_lye(lye); });
    for (const char* key : {"superfat", "concentration", "water-ratio", "water"})
      block.read(key, [&](const Node& again) {
        again.fail("'" + std::string(key) + "' stands beside the lye block",
                   "Write it inside 'lye:'.");
      });
  } else {
    take_short_lye(block, recipe.lye);
  }
  block.read("make", [&](const Node& make) { recipe.make = read_make(make, reading.folder); });
  block.read("oils", [&](const Node& oils) {
    MakeSize make;
    make.oils_grams = above_zero(oils.grams(), oils, "the mass of oils");
    make.written = written(oils);
    recipe.make = make;
  });
  block.read("scale", [&](const Node& scale) { recipe.scale = read_scale(scale); });
  block.read("shelf", [&](const Node& shelf) { recipe.shelf = file_name(shelf, reading); });
  block.read("packed-in", [&](const Node& packed) { recipe.packed_in = read_packed_in(packed); });
  block.read("note", [&](const Node& note) { recipe.note = plain_text(note); });
  // What was in force when a brief found it: a record, which nothing is reckoned from.
  block.read("manners", [&](const Node& manners) {
    for (const Node& name : list_of(manners)) plain_text(name);
  });
  block.done();
  const auto workshop = workshop_in(reading.folder);
  fill_from(workshop, recipe.lye);
  fill_from(workshop, recipe.scale);
  if (workshop && !recipe.shelf) recipe.shelf = workshop->shelf;
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
