#pragma once

#include "solver/app/json.hpp"
#include "solver/jobs/mannerly.hpp"

namespace barwright::app {

/// Returns the manners in force and what became of each.
Json json_manners(const jobs::MannersTold& told);

}  // namespace barwright::app
