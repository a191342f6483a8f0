#pragma once

#include "solver/jobs/swap/swap_job.hpp"

namespace barwright::jobs {

/// Throws an InputError where shelves, prices and the saving asked for are not in one currency: no
/// rate of exchange is known here.
void check_currency(const targets::SwapBrief& brief, const SwapSources& sources);

/// Returns the oils a swap may take: those of the recipe and those it may use, as they are held,
/// priced as they are bought again. Errors: InputError where a saving is asked for and an oil of
/// the recipe has no price.
formulate::Candidates swap_candidates(const targets::SwapBrief& brief, const oils::Library& library,
                                      const SwapSources& sources);

}  // namespace barwright::jobs
