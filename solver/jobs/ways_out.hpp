#pragma once

#include <span>

#include "solver/explain/fixes.hpp"
#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// Returns the figure of a changed end as a maker writes it, in Asked::unit: two decimals, towards
/// the loose side, so that the figure printed opens the way.
double written_figure(const formulate::Asked& asked, const explain::Change& changed);

/// Returns how much of an oil there has to be, whole g; the wish counts in g.
double written_grams(const formulate::Asked& asked, const explain::Change& changed);

/// Returns the job with a fix made to its brief, at the figures that are printed. `of` is the
/// formulation that the fix speaks of.
BlendJob with_fix(const BlendJob& job, const formulate::Formulation& of, const explain::Fix& fix);

/// Returns the job without its goals: whether there is a blend at all is a quicker question than
/// which is the best.
BlendJob whether_any(BlendJob job);

/// Returns whether a blend, weighed, keeps every wish, rule and stock of a job and gets a safe lye.
/// A "no" is no proof: the same wishes may be kept by another.
bool kept_as_weighed(const BlendJob& job, const formulate::Assumed& assumed,
                     const std::vector<int>& steps);

/// Ways out of a brief for which no blend fits, each followed to the letter, weighed and judged.
struct WaysOut {
  explain::Fixes fixes;
  std::optional<explain::Fix> together;  ///< where no single wish opens the way
};

/// Returns the ways out of `no`, a result without a blend, by changes to these wishes. What does
/// not open as it is printed is moved on by hundredths of a noticeable step until it does (then no
/// longer `proved` the least), or left out. Errors: as find_blend.
WaysOut ways_out(const BlendJob& job, const BlendResult& no, std::span<const int> which,
                 const optimise::SearchOptions& options);

}  // namespace barwright::jobs
