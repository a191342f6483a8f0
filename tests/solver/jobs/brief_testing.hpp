#pragma once

#include <string>

#include "solver/jobs/blend_job_reader.hpp"

namespace barwright::testing {

/// Returns the job of a brief given as text, over the whole library.
jobs::BlendJob job_of(const std::string& brief);

}  // namespace barwright::testing
