#pragma once

#include "solver/optimise/relaxation/engine.hpp"

namespace barwright::optimise {

/// Dual simplex for a linear goal.
std::unique_ptr<Engine> make_simplex(const Relaxation& relaxation, const Region& region);

}  // namespace barwright::optimise
