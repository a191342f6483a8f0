#pragma once

#include <vector>

#include "core/trade/claim_check.hpp"
#include "core/trade/label.hpp"
#include "solver/books/make_plan.hpp"

namespace barwright::books {

/// Returns the plan as a label sees it. Errors: none.
core::LabelRequest label_request(const MakePlan& plan, const oils::Library& library);

/// Returns what stands in a bar, for claims on it: fats with the library's tags, additions with
/// what their names say; `request` as the maker's own entry has changed it.
std::vector<core::InBar> in_bar(const MakePlan& plan, const core::LabelRequest& request,
                                const oils::Library& library);

}  // namespace barwright::books
