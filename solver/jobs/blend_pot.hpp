#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "core/lye/recipe.hpp"
#include "solver/formulate/lye_slice.hpp"
#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// Returns the oils of a blend, largest share first: the order in which they are weighed.
std::vector<std::size_t> used_oils(std::span<const double> shares);

/// Returns what is asked of core::weigh for a blend of these shares and so many grams of oils.
core::RecipeRequest request_for(const BlendJob& job, std::span<const double> shares,
                                double oil_grams);

/// Returns the oils the maker's size needs with this blend, g, in whole steps of the oils scale
/// (and of the blend, where its steps are grams). A blend that is not safe has a size all the same.
double wanted_oils(const BlendJob& job, std::span<const double> shares);

/// Returns the job with every figure of its oils certain, a fine scale for them and no floor under
/// the worst case: any blend of it can be weighed, waxes apart.
BlendJob without_doubt(const BlendJob& job);

/// Returns what the lye of this job's batches of `oil_grams` is reckoned from. Errors: Refusal of
/// the lye engine where not even one oil alone can be weighed.
formulate::LyeGround lye_ground_of(const BlendJob& job, const optimise::Problem& problem,
                                   double oil_grams);

/// Weighs the blend of result.answer at the size assumed, and puts in what follows from its grams.
/// Errors: Refusal.
void weigh_blend(const BlendJob& job, BlendResult& result);

/// Returns every wish judged at the weighed recipe's own settings and size.
std::vector<formulate::Verdict> judge_recipe(const BlendJob& job, const BlendResult& result,
                                             std::span<const double> in_steps);

/// Returns whether the grams of an oil are more than may be used of it.
bool over_stock(const BlendJob& job, const BlendResult& result);

/// Returns the answer's shares in steps, one per candidate.
std::vector<double> shares_of(const formulate::Formulation& formulation,
                              const optimise::Answer& answer);

bool any_missed(const std::vector<formulate::Verdict>& verdicts);

}  // namespace barwright::jobs
