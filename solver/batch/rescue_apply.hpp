#pragma once

#include "solver/batch/rescue_bench.hpp"

namespace barwright::batch {

/// Does to the batch what the slip says. Errors: SlipError when the line is in no part, in several,
/// may mean two things, or holds less than the slip takes; for a swap of what is not alike.
void apply(BenchState& bench, const Slip& slip);

/// Returns where a fat or acid of the part stands, by name (a synonym will do).
std::optional<std::size_t> find_fat(const BatchPlan& plan, const PartState& part,
                                    const std::string& name);

}  // namespace barwright::batch
