#pragma once

#include "core/trade/label.hpp"
#include "solver/books/make_plan.hpp"

namespace barwright::books {

/// Returns the plan as a label sees it. Errors: none.
core::LabelRequest label_request(const MakePlan& plan, const oils::Library& library);

}  // namespace barwright::books
