#pragma once

#include "solver/jobs/report/why_not.hpp"

namespace barwright::jobs {

/// Finds which oils of the library, a pack of each bought, open the way where nothing fits; those
/// that open it weighed out go into `no`.
void find_what_to_buy(const BlendJob& job, const BlendResult& result, const oils::Library& library,
                      const optimise::SearchOptions& options, No& no);

}  // namespace barwright::jobs
