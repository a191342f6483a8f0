#pragma once

#include <functional>
#include <span>
#include <vector>

#include "solver/problem.hpp"

namespace barwright::solver {

/// Whether two candidates have the same figures in every limit and goal: two lots of one oil.
bool interchangeable(const Problem& problem, int a, int b);

/// Moves what the blend holds of an oil to an earlier interchangeable one, wholly where that fits,
/// else as much as fits: fewer oils, then earlier ones. Values of limits and goals stay as they
/// are. Every change is asked of `accept`.
std::vector<int> prefer_earlier(const Problem& problem, std::vector<int> steps,
                                const std::function<bool(std::span<const int>)>& accept);

}  // namespace barwright::solver
