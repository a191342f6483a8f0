#include "solver/app/sheet/sheet_job.hpp"

#include <algorithm>

#include "solver/app/library.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/recipe/jar_notes.hpp"

namespace barwright::app {

batch::BatchPlan load_batch(const std::string& path, const CommonOptions& common) {
  const oils::Library library = load_library(common);
  return load_batch(path, library, jobs::shelf_of_brief(path, library));
}

batch::BatchPlan load_batch(const std::string& path, const oils::Library& library,
                            const std::optional<oils::Shelf>& shelf) {
  auto file = targets::read_batch(path, shelf ? shelf->library : library);
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
