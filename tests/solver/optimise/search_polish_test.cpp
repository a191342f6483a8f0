// A library's word is not taken: rubbish from a minimiser must not become an answer.

#include <catch2/catch.hpp>
#include <cmath>
#include <nlopt.hpp>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/polish.hpp"

using namespace barwright::optimise;

namespace {

// Nearest to 40 % of the first of two oils, the first at most 30 %.
Problem capped() {
  Problem p;
  p.oils = {{1, 100, false}, {1, 100, false}};
  p.limits = {{Form{0, {1, 0}, {}}, -kInfinity, 0.3, 0}};
  p.goals = {Goal{Form{0, {0, 0}, {}}, {{Form{0, {10, 0}, {}}, 4, 1}}, 0}};
  return p;
}

const std::vector<int> kBoth{0, 1};
const std::vector<double> kStart{0.1, 0.9};

}  // namespace

TEST_CASE("polish: SLSQP finds the best shares of a set", "[polish]") {
  const Problem p = capped();
  const auto shares = polish(p, p.goals[0], kBoth, kStart);
  REQUIRE(shares);
  CHECK((*shares)[0] == Approx(0.3).margin(1e-7));  // the cap: (3 - 4)^2 = 1
  CHECK(p.goals[0].at(*shares) == Approx(1).margin(1e-5));
  CHECK(check_shares(p, *shares).empty());
}

TEST_CASE("polish: what breaks a limit, the sum or the goal is turned away", "[polish]") {
  const Problem p = capped();
  const auto with = [&](std::vector<double> rubbish) {
    return polish(p, p.goals[0], kBoth, kStart,
                  [&](const PolishTask&, std::vector<double>& x) { x = rubbish; });
  };
  CHECK_FALSE(with({0.4, 0.6}));    // best of all, but over the cap
  CHECK_FALSE(with({0.3, 0.6}));    // does not add up
  CHECK_FALSE(with({0.05, 0.95}));  // worse than the start
  CHECK_FALSE(with({std::nan(""), 0.5}));
  CHECK_FALSE(with({-0.2, 1.2}));
  CHECK_FALSE(with({0.3}));  // not even the right length
  CHECK_FALSE(with({}));
  CHECK(with({0.25, 0.75}));  // honest work is taken
}

TEST_CASE("polish: COBYLA's success on limits that cannot both hold is not believed", "[polish]") {
  // a + b <= 0.5 and a + b >= 2 (in shares the sum is 1): COBYLA returns a success code all the
  // same.
  Problem p = capped();
  p.limits = {{Form{0, {1, 1}, {}}, -kInfinity, 0.5, 0}, {Form{0, {1, 1}, {}}, 2, kInfinity, 1}};
  bool claimed = false;
  const auto cobyla = [&](const PolishTask& task, std::vector<double>& x) {
    nlopt::opt method(nlopt::LN_COBYLA, unsigned(x.size()));
    method.set_lower_bounds(task.low);
    method.set_upper_bounds(task.high);
    using Function = std::function<double(std::span<const double>, std::span<double>)>;
    const auto call = [](const std::vector<double>& at, std::vector<double>&, void* data) {
      return (*static_cast<const Function*>(data))(at, {});
    };
    Function goal = task.goal;
    method.set_min_objective(call, &goal);
    std::vector<Function> limits = task.limits;
    for (Function& limit : limits) method.add_inequality_constraint(call, &limit, 1e-9);
    method.set_xtol_rel(1e-6);
    method.set_maxeval(500);
    double value = 0;
    claimed = method.optimize(x, value) > 0;
  };
  CHECK_FALSE(polish(p, p.goals[0], kBoth, kStart, cobyla));
  CHECK(claimed);  // NLopt 2.7.1, measured
}

TEST_CASE("polish: whole steps near shares, improved one step at a time", "[polish]") {
  const Problem p = capped();
  const auto accept = [&](std::span<const int> w) { return check_steps(p, w).empty(); };
  CHECK(to_steps(p, p.goals[0], std::vector<double>{0.2951, 0.7049}, accept) ==
        std::vector<int>{30, 70});
  CHECK(to_steps(p, p.goals[0], std::vector<double>{0.1, 0.9}, accept) == std::vector<int>{30, 70});
  CHECK(to_steps(p, p.goals[0], std::vector<double>{0.5, 0.9}, accept).empty());
}
