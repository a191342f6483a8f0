#include "tests/solver/optimise/outside_cbc.hpp"

#include <coin/Cbc_C_Interface.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <stdexcept>
#include <string>

namespace barwright::testing {
namespace {

// Columns: w (n), z (n), then one d per kink of a concave floor.
struct Matrix {
  std::vector<std::vector<std::pair<int, double>>> columns;
  std::vector<double> low, high, cost, row_low, row_high;
  int column(double from, double to) {
    columns.emplace_back();
    low.push_back(from);
    high.push_back(to);
    cost.push_back(0);
    return int(columns.size()) - 1;
  }
  int row(double from, double to) {
    row_low.push_back(from);
    row_high.push_back(to);
    return int(row_low.size()) - 1;
  }
  void put(int r, int c, double v) {
    if (v != 0) columns[std::size_t(c)].push_back({r, v});
  }
};

}  // namespace

CbcAnswer solve_with_cbc(const optimise::Problem& problem, double time_limit) {
  const int n = int(problem.oils.size());
  const double per_step = 1.0 / problem.steps;
  Matrix m;
  for (const optimise::OilBounds& oil : problem.oils)
    m.column(0, oil.most >= oil.least ? std::min(oil.most, problem.steps) : 0);
  for (const optimise::OilBounds& oil : problem.oils) m.column(oil.must ? 1 : 0, 1);
  const int sum = m.row(problem.steps, problem.steps);
  const int count = m.row(0, problem.most_oils > 0 ? problem.most_oils : n);
  for (int i = 0; i < n; ++i) {
    const optimise::OilBounds& oil = problem.oils[std::size_t(i)];
    m.put(sum, i, 1);
    m.put(count, n + i, 1);
    const int above = m.row(0, optimise::kInfinity), below = m.row(-optimise::kInfinity, 0);
    m.put(above, i, 1);
    m.put(above, n + i, -oil.least);
    m.put(below, i, 1);
    m.put(below, n + i, -std::min(oil.most, problem.steps));
  }
  for (const optimise::Limit& limit : problem.limits) {
    const int r = m.row(limit.low - limit.form.constant, limit.high - limit.form.constant);
    for (int i = 0; i < n; ++i) m.put(r, i, limit.form.linear[std::size_t(i)] * per_step);
    for (const optimise::Kink& kink : limit.form.kinks) {
      if (kink.weight < 0 || limit.high < optimise::kInfinity)
        throw std::invalid_argument("outside check: kinks only on the concave side of a floor");
      const int d = m.column(-1e6, kink.cap), link = m.row(0, optimise::kInfinity);
      for (int i = 0; i < n; ++i) m.put(link, i, kink.slope[std::size_t(i)] * per_step);
      m.put(link, d, -1);
      m.put(r, d, kink.weight);
    }
  }
  const optimise::Goal& goal = problem.goals.at(0);
  if (!goal.form.is_linear() || !goal.pulls.empty())
    throw std::invalid_argument("outside check: a linear goal is needed");
  for (int i = 0; i < n; ++i) m.cost[std::size_t(i)] = goal.form.linear[std::size_t(i)] * per_step;

  std::vector<CoinBigIndex> start{0};
  std::vector<int> index;
  std::vector<double> value;
  for (const auto& column : m.columns) {
    for (const auto& [r, v] : column) {
      index.push_back(r);
      value.push_back(v);
    }
    start.push_back(CoinBigIndex(index.size()));
  }
  Cbc_Model* model = Cbc_newModel();
  Cbc_loadProblem(model, int(m.columns.size()), int(m.row_low.size()), start.data(), index.data(),
                  value.data(), m.low.data(), m.high.data(), m.cost.data(), m.row_low.data(),
                  m.row_high.data());
  for (int i = 0; i < 2 * n; ++i) Cbc_setInteger(model, i);
  Cbc_setParameter(model, "log", "0");
  Cbc_setParameter(model, "ratioGap", "0");
  Cbc_setParameter(model, "allowableGap", "0");
  Cbc_setParameter(model, "increment", "1e-9");
  Cbc_setParameter(model, "primalTolerance", "1e-9");
  Cbc_setParameter(model, "dualTolerance", "1e-9");
  Cbc_setParameter(model, "integerTolerance", "1e-9");
  if (time_limit > 0) Cbc_setParameter(model, "seconds", std::to_string(time_limit).c_str());
  CbcAnswer answer;
  const auto before = std::chrono::steady_clock::now();
  Cbc_solve(model);
  answer.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count();
  if (Cbc_isProvenOptimal(model)) {
    answer.said = CbcAnswer::Said::optimal;
    const double* v = Cbc_getColSolution(model);
    for (int i = 0; i < n; ++i) answer.steps.push_back(int(std::lround(v[i])));
    answer.value = goal.at(problem.shares(answer.steps));
  } else if (Cbc_isProvenInfeasible(model)) {
    answer.said = CbcAnswer::Said::infeasible;
  }
  Cbc_deleteModel(model);
  return answer;
}

}  // namespace barwright::testing
