#include "tests/solver/optimise/outside_lp.hpp"

#include <coin/Cbc_C_Interface.h>
#include <glpk.h>

namespace barwright::testing {

LpSolved solve_lp_by_cbc(const std::string& file) {
  LpSolved out;
  Cbc_Model* model = Cbc_newModel();
  Cbc_setLogLevel(model, 0);
  if (Cbc_readLp(model, file.c_str()) == 0) {
    for (const auto& [name, setting] :
         {std::pair{"ratioGap", "0"}, {"allowableGap", "0"}, {"increment", "1e-9"}}) {
      Cbc_setParameter(model, name, setting);
    }
    Cbc_solve(model);
    if (Cbc_isProvenOptimal(model) != 0) {
      out = {LpSolved::Said::optimal, Cbc_getObjValue(model)};
    } else if (Cbc_isProvenInfeasible(model) != 0) {
      out.said = LpSolved::Said::infeasible;
    }
  }
  Cbc_deleteModel(model);
  return out;
}

LpSolved solve_lp_by_glpk(const std::string& file) {
  LpSolved out;
  glp_term_out(GLP_OFF);
  glp_prob* problem = glp_create_prob();
  if (glp_read_lp(problem, nullptr, file.c_str()) == 0) {
    glp_iocp how;
    glp_init_iocp(&how);
    how.presolve = GLP_ON;
    how.mir_cuts = GLP_ON;
    const int error = glp_intopt(problem, &how);
    const int status = glp_mip_status(problem);
    if (error == 0 && status == GLP_OPT) {
      out = {LpSolved::Said::optimal, glp_mip_obj_val(problem)};
    } else if (error == GLP_ENOPFS || (error == 0 && status == GLP_NOFEAS)) {
      out.said = LpSolved::Said::infeasible;
    }
  }
  glp_delete_prob(problem);
  return out;
}

}  // namespace barwright::testing
