#pragma once

#include <string>

#include "solver/books/make_plan.hpp"

namespace barwright::books {

/// Returns the plan of a batch file of one or more parts. Errors: InputError, Refusal.
MakePlan batch_plan(const std::string& path, const oils::Library& library, const oils::Shelf* shelf,
                    int bars);

}  // namespace barwright::books
