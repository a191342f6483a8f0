// Whole briefs written in LP format and solved by CBC and GLPK, which share none of our code.
#include "solver/jobs/lp_question.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>

#include "solver/formulate/goal_search.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "tests/solver/formulate/sure_testing.hpp"
#include "tests/solver/optimise/outside_lp.hpp"

using namespace barwright;
using namespace barwright::formulate;
using namespace barwright::jobs;
using namespace barwright::optimise;
using barwright::testing::LpSolved;
using barwright::testing::Uniform;

namespace {

std::string pick(Uniform& draw, const std::vector<std::string>& words) {
  return words[std::size_t(draw.whole(0, int(words.size()) - 1))];
}

// A brief over the example shelf, its goal drawn from `goals`.
std::string drawn_brief(Uniform& draw, const std::vector<std::string>& goals) {
  const std::string examples = BARWRIGHT_SOURCE_DIR "/examples/";
  std::string out = "brief: drawn\noils-from: shelf\nshelf: " + examples +
                    "weighbridge-shelf.yaml\ncompared-with: " + examples + "yard-bar.yaml\nwant:\n";
  for (const char* property : {"hardness", "lather", "conditioning", "thrift"}) {
    if (draw() < 0.4) continue;
    out += fmt::format("  {}: at least {:.1f} {}\n", property, draw(0, 6),
                       draw() < 0.3 ? "above" : "below");
  }
  out += "  oil-cost: at most 9 EUR per kg\nbest: " + pick(draw, goals) + "\nlimits:\n";
  out += fmt::format("  oils: at most {}\n  steps: {} %\n  castor: {{least: 2 %, most: 8 %{}}}\n",
                     draw.whole(3, 6), draw() < 0.5 ? 2 : 5, draw() < 0.4 ? "" : ", always: no");
  if (draw() < 0.5) out += fmt::format("  coconut: {{most: {} %}}\n", draw.whole(20, 35));
  if (draw() < 0.3) out += "  not: beef tallow\n";
  out += fmt::format("make: {{oils: {} g}}\nscale: {{oils: {} g, lye: 0.1 g}}\n",
                     draw.whole(800, 2400), draw() < 0.3 ? 5 : 1);
  return out;
}

struct File {
  std::string path;
  File(const std::string& end, const std::string& text)
      : path(std::filesystem::temp_directory_path() /
             fmt::format("barwright-lp-{}.{}", getpid(), end)) {
    std::ofstream(path) << text;
  }
  ~File() { std::filesystem::remove(path); }
};

}  // namespace

TEST_CASE("seeded briefs: what CBC and GLPK find in the file is what a search of it finds",
          "[lp]") {
  int found = 0, none = 0, by_weighing = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Uniform draw(seed);
    const File brief(
        "yaml", drawn_brief(draw, {"cheapest", "most hardness", "most lather", "least conditioning",
                                   "use up olive", "fewest oils", "most keeping"}));
    const BlendJob job = read_blend_job(brief.path, barwright::testing::whole_library());
    const BlendResult result = find_blend(job, {});
    const File lp("lp", lp_of(job, result).text);
    const LpSolved cbc = barwright::testing::solve_lp_by_cbc(lp.path);
    const LpSolved glpk = barwright::testing::solve_lp_by_glpk(lp.path);
    CAPTURE(seed, int(result.answer.status), cbc.value, glpk.value);
    if (result.answer.status == Status::infeasible) {
      CHECK(cbc.said == LpSolved::Said::infeasible);
      CHECK(glpk.said == LpSolved::Said::infeasible);
      ++none;
      continue;
    }
    // The file speaks of one superfat and of blends in steps. Each blend's own superfat, and what
    // its grams come to, may make another the answer.
    Assumed own = result.assumed;
    own.held_back.clear();
    const Formulation question = formulation_of(job, own);
    const Answer paper = search_goals(question, {});
    if (result.has_blend() && result.answer.steps != paper.steps) ++by_weighing;
    if (paper.status == Status::infeasible) {
      CHECK(cbc.said == LpSolved::Said::infeasible);
      CHECK(glpk.said == LpSolved::Said::infeasible);
      continue;
    }
    REQUIRE(paper.status == Status::optimal);
    REQUIRE(cbc.said == LpSolved::Said::optimal);
    REQUIRE(glpk.said == LpSolved::Said::optimal);
    CHECK(cbc.value == Approx(glpk.value).margin(1e-6));
    const GoalValue& first = paper.goals.front();
    const Goal& goal = question.problem.goals.front();
    CAPTURE(first.value, first.bound, goal.give);
    const double near = 1e-6 * std::max(1.0, std::abs(cbc.value));
    CHECK(first.bound <= cbc.value + near);
    CHECK(cbc.value <= first.value + near);
    CHECK(first.value <= cbc.value + std::max(goal.give, goal.tie) + near);
    ++found;
  }
  CHECK(found > 20);
  CHECK(none > 5);
  CHECK(by_weighing > 0);
  CHECK(by_weighing < found / 4);
}

TEST_CASE("wishes held tighter against rounding are no part of the question", "[lp]") {
  Uniform draw(7);
  const File brief("held.yaml", drawn_brief(draw, {"most hardness"}));
  const BlendJob job = read_blend_job(brief.path, barwright::testing::whole_library());
  BlendResult result = find_blend(job, {});
  result.assumed.held_back.clear();
  const std::string asked = lp_of(job, result).text;
  result.assumed.held_back.assign(job.brief.wishes.size(), 0.25);
  CHECK(lp_of(job, result).text == asked);
}
