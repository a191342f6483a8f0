#pragma once

#include "core/lye/dose.hpp"
#include "solver/batch/batch_plan.hpp"

namespace barwright::batch {

/// Returns an addition weighed out by what its dose counts on, in steps of the lye scale where the
/// maker did not write grams; doses by the spoon by their stated or marked weight. Errors:
/// InputError for a dose per bar where bars are not known, for a spoonful nobody knows the weight
/// of.
WeighedAddition weighed(const BatchPlan& batch, const targets::Addition& addition,
                        const core::DoseMasses& masses, int bars);

}  // namespace barwright::batch
