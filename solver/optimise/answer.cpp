#include "solver/optimise/answer.hpp"

namespace barwright::optimise {

const char* word(Status status) {
  switch (status) {
    case Status::optimal:
      return "optimal";
    case Status::feasible:
      return "feasible";
    case Status::infeasible:
      return "infeasible";
    case Status::undecided:
      return "undecided";
  }
  return "undecided";
}

}  // namespace barwright::optimise
