#pragma once

#include <string>

namespace barwright::testing {

/// What an outside solver made of an LP file that it read with its own reader.
struct LpSolved {
  enum class Said { optimal, infeasible, other } said = Said::other;
  double value = 0;  ///< of the goal
};

/// COIN-OR's CBC.
LpSolved solve_lp_by_cbc(const std::string& file);
/// GNU's GLPK.
LpSolved solve_lp_by_glpk(const std::string& file);

}  // namespace barwright::testing
