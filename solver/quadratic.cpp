#include "solver/engine.hpp"
namespace barwright::solver {
std::unique_ptr<Engine> make_quadratic(const Relaxation& relaxation, const Region& region) {
  return make_simplex(relaxation, region);
}
}  // namespace barwright::solver
