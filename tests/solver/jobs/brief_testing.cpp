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

}  // namespace barwright::testing
