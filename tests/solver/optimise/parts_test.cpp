// Parts whose blends are judged one by one: the best of those kept, by counting every blend.
#include "solver/optimise/parts.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "solver/optimise/checker.hpp"
#include "tests/solver/optimise/instances.hpp"

using namespace barwright::optimise;
using barwright::testing::Uniform;

namespace {

// Between `from` and `to` steps of the first oil; some blends are not kept, and a blend is worth up
// to `above` more than the form says, both by a hash of its steps.
class Hashed : public Part {
 public:
  Hashed(const Problem& whole, int from, int to, double above)
      : whole_(whole), problem_(whole), from_(from), to_(to), above_(above) {
    Limit limit;
    limit.form.linear.assign(whole.oils.size(), 0.0);
    limit.form.linear[0] = whole.steps;
    limit.low = from;
    limit.high = to;
    problem_.limits.push_back(limit);
  }
  const Problem& problem() const override { return problem_; }
  bool keeps(std::span<const int> steps) const override {
    return steps[0] >= from_ && steps[0] <= to_ && hash(steps) % 3 != 0;
  }
  double worth(std::size_t goal, std::span<const int> steps) const override {
    return whole_.goals[goal].at(whole_.shares(steps)) + above_ * double(hash(steps) % 100) / 100;
  }
  bool exact(std::size_t) const override { return above_ == 0; }
  Parts split() const override {
    if (from_ == to_) return {};
    const int middle = (from_ + to_) / 2;
    return {std::make_shared<Hashed>(whole_, from_, middle, above_),
            std::make_shared<Hashed>(whole_, middle + 1, to_, above_)};
  }
  std::uint64_t work() const override { return 0; }
  static unsigned hash(std::span<const int> steps) {
    unsigned h = 17;
    for (const int w : steps) h = h * 31 + unsigned(w) * 2654435761U;
    return h >> 7;
  }

 private:
  const Problem& whole_;
  Problem problem_;
  int from_, to_;
  double above_;
};

Problem drawn(Uniform& draw) {
  Problem problem;
  problem.steps = 20;
  problem.oils.assign(4, {.least = 1, .most = 20});
  Goal goal;
  Limit limit;
  for (int i = 0; i < 4; ++i) {
    goal.form.linear.push_back(draw(0, 10));
    limit.form.linear.push_back(draw(0, 10));
  }
  limit.low = draw(3, 8);
  problem.limits.push_back(limit);
  problem.goals.push_back(goal);
  return problem;
}

}  // namespace

TEST_CASE("over parts the best kept blend is found, and none where none is kept", "[search]") {
  int found = 0, none = 0;
  for (std::uint64_t seed = 1; seed <= 120; ++seed) {
    Uniform draw(seed);
    const Problem problem = drawn(draw);
    const double above = seed % 2 ? 0 : 0.4;
    const Hashed all(problem, 0, 20, above);
    double best = kInfinity;
    for (int a = 0; a <= 20; ++a)
      for (int b = 0; a + b <= 20; ++b)
        for (int c = 0; a + b + c <= 20; ++c) {
          const std::vector<int> steps = {a, b, c, 20 - a - b - c};
          if (fits(problem, steps) && all.keeps(steps)) best = std::min(best, all.worth(0, steps));
        }
    const Parts parts = {std::make_shared<Hashed>(problem, 0, 9, above),
                         std::make_shared<Hashed>(problem, 10, 20, above)};
    const Answer answer = search_parts(parts, {});
    CAPTURE(seed, best, int(answer.status));
    if (best == kInfinity) {
      CHECK(answer.status == Status::infeasible);
      ++none;
      continue;
    }
    REQUIRE(answer.status == Status::optimal);
    CHECK(answer.goals[0].value == Approx(best).margin(1e-6));
    CHECK(answer.goals[0].bound <= best + 1e-9);
    CHECK(all.worth(0, answer.steps) == Approx(best).margin(1e-6));
    ++found;
  }
  CHECK(found > 80);
  CHECK(none > 3);
}
