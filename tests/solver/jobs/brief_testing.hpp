#pragma once

#include <string>

#include "solver/jobs/blend_job_reader.hpp"

namespace barwright::solver::testing {

/// Returns the job of a brief given as text, over the whole library.
BlendJob job_of(const std::string& brief);

}  // namespace barwright::solver::testing
