#include "tests/solver/jobs/brief_testing.hpp"

#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "tests/solver/formulate/sure_testing.hpp"

namespace barwright::testing {

jobs::BlendJob job_of(const std::string& brief) {
  const auto path = std::filesystem::temp_directory_path() /
                    ("barwright-brief-" + std::to_string(getpid()) + ".yaml");
  std::ofstream(path) << brief;
  jobs::BlendJob job = jobs::read_blend_job(path.string(), whole_library());
  std::filesystem::remove(path);
  return job;
}

std::optional<jobs::BlendJob> rewritten(const jobs::BlendJob& job, const formulate::Formulation& of,
                                        const explain::Fix& fix, double tighter) {
  jobs::BlendJob out = job;
  for (const explain::Change& change : fix.changes) {
    const formulate::Asked& asked = of.asked[std::size_t(change.wish)];
    if (asked.wish < 0 || change.what != explain::Change::What::floor) return std::nullopt;
    out.brief.wishes[std::size_t(asked.wish)].low = {jobs::written_figure(asked, change) + tighter,
                                                     0};
  }
  return out;
}

}  // namespace barwright::testing
