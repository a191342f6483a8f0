#include "solver/app/sheet/sheet_job.hpp"

#include <algorithm>

#include "solver/app/library.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/recipe/jar_notes.hpp"
#include "solver/recipe/recipe_of_file.hpp"
#include "solver/recipe/sizing.hpp"
#include "targets/files/recipe_file.hpp"

namespace barwright::app {

batch::BatchPlan load_batch(const std::string& path, const CommonOptions& common) {
  const oils::Library library = load_library(common);
  return load_batch(path, library, jobs::shelf_of_brief(path, library));
}

namespace {

/// The oils of a plain recipe at its own size, g: what 'weigh' makes of it, not sized anew.
double oils_of_recipe(const std::string& path, const oils::Library& library,
                      const std::optional<oils::Shelf>& shelf) {
  const auto recipe = targets::read_recipe(path, library);
  const auto make = recipe::size_of(recipe);
  double grams = 0;
  for (const auto& oil :
       recipe::recipe_of_file(recipe, make, library, shelf ? &*shelf : nullptr, recipe::bars(make))
           .request.oils)
    grams += oil.grams;
  return grams;
}

}  // namespace

batch::BatchPlan load_batch(const std::string& path, const oils::Library& library,
                            const std::optional<oils::Shelf>& shelf) {
  auto file = targets::read_batch(path, shelf ? shelf->library : library);
  if (file.recipe)
    file.make->oils_grams = oils_of_recipe(path, shelf ? shelf->library : library, shelf);
  auto plan = batch::plan_batch(std::move(file), library, shelf);
  if (const std::string words = workshop_words(path); !words.empty())
    plan.notes.push_back({core::Severity::note, words});
  if (!shelf) return plan;
  for (const auto& part : plan.parts) {
    for (auto& note : recipe::jar_notes(part.recipe, *shelf)) {
      const bool said = std::any_of(plan.notes.begin(), plan.notes.end(),
                                    [&](const auto& other) { return other.text == note.text; });
      if (!said) plan.notes.push_back(std::move(note));
    }
  }
  return plan;
}

}  // namespace barwright::app
