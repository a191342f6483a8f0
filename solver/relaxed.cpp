#include "solver/relaxed.hpp"

#include <algorithm>
#include <cmath>

#include "solver/bound.hpp"
#include "solver/engine.hpp"

namespace barwright::solver {

Relaxed relaxed(const Problem& problem, const Goal& goal) {
  Relaxed out;
  const Relaxation relaxation(problem, goal, {}, false);
  const Region region(problem, relaxation);
  if (region.is_void()) {
    out.empty = true;
    return out;
  }
  const auto engine = make_simplex(relaxation, region);
  engine->load({}, -1);
  const Outcome outcome = engine->solve(kInfinity);
  Bound bound;
  if (outcome == Outcome::empty && proves_empty(region, engine->multipliers(), bound)) {
    out.empty = true;
    return out;
  }
  LinearGoal linear;
  linear.constant = relaxation.constant;
  linear.constant_size = std::abs(relaxation.constant);
  linear.cost = relaxation.cost;
  for (const double c : linear.cost) linear.cost_size = std::max(linear.cost_size, std::abs(c));
  bound_linear(region, linear, engine->multipliers(), bound);
  out.bound = bound.value;
  const auto point = engine->point();
  out.point.assign(point.begin(), point.begin() + std::ptrdiff_t(problem.oils.size()));
  return out;
}

}  // namespace barwright::solver
