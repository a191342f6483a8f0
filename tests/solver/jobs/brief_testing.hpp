#pragma once

#include <optional>
#include <string>

#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/ways_out.hpp"

namespace barwright::testing {

/// Returns the job of a brief given as text, over the whole library.
jobs::BlendJob job_of(const std::string& brief);

/// Returns the job with its wish at the figure of a way out, as a maker would write it, and so much
/// tighter; nothing: a rule's way, or a ceiling's.
std::optional<jobs::BlendJob> rewritten(const jobs::BlendJob& job, const formulate::Formulation& of,
                                        const explain::Fix& fix, double tighter);

}  // namespace barwright::testing
