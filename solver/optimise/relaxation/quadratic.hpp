#pragma once

#include "solver/optimise/relaxation/engine.hpp"

namespace barwright::optimise {

/// Active sets for a convex curved goal.
std::unique_ptr<Engine> make_quadratic(const Relaxation& relaxation, const Region& region);

}  // namespace barwright::optimise
