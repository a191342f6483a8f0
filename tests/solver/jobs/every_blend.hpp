#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/jobs/blend_job.hpp"
#include "tests/solver/optimise/instances.hpp"

namespace barwright::testing {

/// What a drawn brief of three or four oils in steps of 10 % asks for. "OIL" in a goal is one of
/// its oils.
struct Question {
  std::string best, then, level;
  bool coarse = false;  ///< a lye scale of 1 g, and a worst case that raises some superfats
  bool tight = false;   ///< wishes that few blends keep, or none
};

/// Returns the job of a drawn brief for 1000 g of oils; where it asks for the cheapest, priced.
jobs::BlendJob drawn_job(Uniform& draw, const Question& question);

/// Returns what a blend in whole steps is worth at each of the brief's goals at its own superfat,
/// on the maker's scale, the less the better; nothing: refused by the lye engine, or a wish is not
/// kept. Typical lots: by core::weigh and the property model alone.
std::optional<std::vector<double>> own_worths(const jobs::BlendJob& job,
                                              const std::vector<int>& steps);

/// Returns that of every blend that is kept.
std::vector<std::vector<double>> every_kept(const jobs::BlendJob& job);

}  // namespace barwright::testing
