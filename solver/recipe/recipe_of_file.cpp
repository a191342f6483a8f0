#include "solver/recipe/recipe_of_file.hpp"

#include "solver/recipe/recipe_request.hpp"
#include "solver/recipe/sizing.hpp"

namespace barwright::recipe {
namespace {

std::vector<PotOil> oils_at(const targets::RecipeFile& file, double oil_grams,
                            const oils::Library& library, const oils::Shelf* shelf) {
  std::vector<PotOil> out;
  for (const auto& part : file.blend.oils) {
    const double grams = part.share * oil_grams;
    out.push_back(
        {shelf != nullptr ? shelf->figures_for(part.oil.name, grams) : *library.find(part.oil.name),
         grams});
  }
  return out;
}

}  // namespace

std::optional<targets::MakeSize> size_of(const targets::RecipeFile& file) {
  auto make = file.make;
  if (!make && file.blend.grams > 0) {
    make.emplace();
    make->oils_grams = file.blend.grams;
  }
  return make;
}

FileRecipe recipe_of_file(const targets::RecipeFile& file,
                          const std::optional<targets::MakeSize>& make,
                          const oils::Library& library, const oils::Shelf* shelf, int bars) {
  FileRecipe out;
  out.request = sized(
      [&](double oil_grams) {
        return recipe_request(oils_at(file, oil_grams, library, shelf), file.lye, file.scale, bars);
      },
      make);
  double grams = 0;
  for (const auto& oil : out.request.oils) grams += oil.grams;
  for (auto& oil : oils_at(file, grams, library, shelf)) out.kinds.push_back(std::move(oil.oil));
  return out;
}

}  // namespace barwright::recipe
