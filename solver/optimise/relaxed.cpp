#include "solver/optimise/relaxed.hpp"

#include <algorithm>
#include <cmath>

#include "solver/optimise/relaxation/bound.hpp"
#include "solver/optimise/relaxation/engine.hpp"
#include "solver/optimise/relaxation/simplex.hpp"

namespace barwright::optimise {
namespace {

// Of planes: more rounds, and nearer ones, tighten a bound that need not be tight.
constexpr int kMostRounds = 30;
constexpr double kBroken = 1e-4;

}  // namespace

Relaxed relaxed(const Problem& problem, const Goal& goal, Allowance* allowance) {
  Relaxed out;
  const Relaxation relaxation(problem, goal, {}, false);
  Region region(problem, relaxation);
  if (region.is_void()) {
    out.empty = true;
    return out;
  }
  const auto engine = make_simplex(relaxation, region);
  struct Charged {
    const Engine& engine;
    Allowance* allowance;
    std::uint64_t planes = 0;
    ~Charged() {
      if (allowance != nullptr) allowance->spend(engine.work() + planes);
    }
  } charged{*engine, allowance};
  engine->load({}, -1);
  Bound bound;
  // Concave parts are followed by planes where the point breaks them: any number of them is sound.
  for (int round = 0;; ++round) {
    const Outcome outcome = engine->solve(kInfinity);
    if (outcome == Outcome::empty && proves_empty(region, engine->multipliers(), bound)) {
      out.empty = true;
      return out;
    }
    if (outcome != Outcome::solved || round == kMostRounds) break;
    charged.planes += relaxation.planes_work();
    const auto planes = relaxation.violated_planes(engine->point(), kBroken, kBroken);
    if (planes.empty()) break;
    for (const Row& plane : planes) {
      region.rows.push_back(plane.a);
      region.row_low.push_back(plane.low);
      region.row_high.push_back(plane.high);
    }
    engine->rows_added();
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

}  // namespace barwright::optimise
