#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "solver/explain/fixes.hpp"
#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// A fix as a brief can say it: figures rounded to what a maker writes, and weighed.
struct TriedWay {
  /// As found on the shares; `proved`: nothing opens the way that is milder by more than a tenth of
  /// what can be noticed.
  explain::Fix fix;
  /// The brief with it; nothing: no line of a brief says it (more of an oil to use, a swap's
  /// bench).
  std::optional<targets::Brief> brief;
  bool opens = false;  ///< a blend was found, weighed out, that keeps all of it
};

/// Returns the fixes as ways out of `no`, the job's answer, each tried by asking the job again.
/// Where the weighed blend misses by a hair what holds for its shares, the figure gives way a
/// little further; one that opens nothing even so, or only what cannot be weighed safely, is left
/// out. Where the options end first, the rest is handed back untried.
std::vector<TriedWay> written_ways(const BlendJob& job, const BlendResult& no,
                                   const std::vector<explain::Fix>& fixes,
                                   const optimise::SearchOptions& options);

/// Returns whether this search finds a blend that can be weighed; nothing: the options ended first.
std::optional<bool> opens(const std::function<BlendResult()>& find,
                          const optimise::SearchOptions& options);

/// Returns a share of whole steps in per cent, with as few decimals as still come to those steps.
double written_percent(int of_all, int all, bool floor);

}  // namespace barwright::jobs
