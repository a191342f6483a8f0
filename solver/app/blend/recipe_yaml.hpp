#pragma once

#include <span>
#include <string>

#include "solver/jobs/blend_job.hpp"
#include "solver/jobs/mannerly.hpp"

namespace barwright::app {

/// Returns a found blend as a recipe file that 'barwright weigh' reads; its shelf is named as seen
/// from the folder of `saved_as`, the manners that were in force are recorded.
std::string recipe_yaml(const jobs::BlendJob& job, const jobs::BlendResult& result,
                        const std::string& saved_as, std::span<const jobs::MannerTold> manners);

}  // namespace barwright::app
