#pragma once

#include <functional>
#include <span>
#include <vector>

#include "solver/optimise/problem.hpp"

namespace barwright::optimise {

/// Whether two candidates have the same figures in every limit and goal: two lots of one oil.
bool interchangeable(const Problem& problem, int a, int b);

/// Returns, per oil, the one that need not be in unless this one is, or -1: an interchangeable oil
/// whose range of steps lies within this one's. Whatever blend uses only the follower, uses the
/// leader as well. Leaders and followers form chains; pinned oils are in none.
std::vector<int> followers(const Problem& problem);

/// Returns the step between the values the goal can take on whole steps, or 0 when there is none to
/// speak of: prices are written in cents, and the shares add up to 1, so that the goal moves by the
/// greatest common divisor of the prices' differences per step. Linear goals only.
double granule(const Problem& problem, const Goal& goal);

/// Moves what the blend holds of an oil to an earlier interchangeable one, wholly where that fits,
/// else as much as fits: fewer oils, then earlier ones. Values of limits and goals stay as they
/// are. Every change is asked of `accept`.
std::vector<int> prefer_earlier(const Problem& problem, std::vector<int> steps,
                                const std::function<bool(std::span<const int>)>& accept);

}  // namespace barwright::optimise
