// The optimiser in another trade: the cheapest ration for laying hens. Every figure is invented for
// this example; feed nobody by it. Uses solver/optimise by its headers and links nothing else of
// barwright. Every ration in these steps is counted as well, so that the answer is known.

#include <array>
#include <cmath>
#include <cstdio>
#include <vector>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/search.hpp"

namespace {

using namespace barwright::optimise;

constexpr std::size_t kFeeds = 6;
constexpr std::array<const char*, kFeeds> kNames = {"maize",          "wheat",     "soya meal",
                                                    "sunflower meal", "limestone", "plant oil"};
const std::vector<double> kPrice = {0.24, 0.22, 0.46, 0.27, 0.08, 1.10};  // per kg
const std::vector<double> kProtein = {8.5, 11.5, 46, 32, 0, 0};           // %
const std::vector<double> kEnergy = {13.8, 12.7, 9.6, 7.2, 0, 36};        // MJ/kg
const std::vector<double> kFibre = {2.3, 2.6, 5.0, 21, 0, 0};             // %
const std::vector<double> kCalcium = {0.02, 0.05, 0.3, 0.4, 38, 0};       // %

Problem ration() {
  Problem problem;
  problem.steps = 50;  // of 2 % each
  problem.oils = {{1, 50}, {1, 50}, {1, 50}, {2, 8}, {1, 50}, {1, 4}};
  problem.most_oils = 5;
  problem.limits = {{weighted_sum(kProtein), 16.5},
                    {weighted_sum(kEnergy), 11.2},
                    {weighted_sum(kFibre), -kInfinity, 5.0},
                    {weighted_sum(kCalcium), 3.6, 4.4}};
  problem.goals = {{weighted_sum(kPrice), {}}};
  return problem;
}

// Counts every ration from feed `at` on; returns the least price of those that fit.
double cheapest(const Problem& problem, std::vector<int>& steps, std::size_t at, int left) {
  if (at + 1 == kFeeds) {
    steps[at] = left;
    return fits(problem, steps) ? problem.goals[0].at(problem.shares(steps)) : kInfinity;
  }
  double least = kInfinity;
  for (steps[at] = 0; steps[at] <= left && steps[at] <= problem.oils[at].most; ++steps[at])
    least = std::fmin(least, cheapest(problem, steps, at + 1, left - steps[at]));
  return least;
}

}  // namespace

int main() {
  const Problem problem = ration();
  const Answer answer = search(problem);
  std::printf("%s: %s\n", word(answer.status), answer.reason.c_str());
  if (answer.status != Status::optimal) return 1;
  for (std::size_t i = 0; i < kFeeds; ++i)
    if (answer.steps[i] > 0) std::printf("%5d %%  %s\n", 2 * answer.steps[i], kNames[i]);
  std::vector<int> steps(kFeeds, 0);
  const double counted = cheapest(problem, steps, 0, problem.steps);
  std::printf("%.4f per kg; the cheapest of all rations counted: %.4f\n", answer.goals[0].value,
              counted);
  return std::abs(answer.goals[0].value - counted) < 1e-9 ? 0 : 1;
}
