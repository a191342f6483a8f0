#include "solver/app/sheet/sheet_job.hpp"

#include "solver/app/library.hpp"
#include "solver/jobs/blend_job_reader.hpp"

namespace barwright::app {

batch::BatchPlan load_batch(const std::string& path, const CommonOptions& common) {
  const oils::Library library = load_library(common);
  const auto shelf = jobs::shelf_of_brief(path, library);
  auto file = targets::read_batch(path, shelf ? shelf->library : library);
  return batch::plan_batch(std::move(file), library, shelf);
}

}  // namespace barwright::app
