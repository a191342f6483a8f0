// Every goal on every property at every sureness, over small briefs: each blend weighed and judged
// one by one beside the search.
#include <catch2/catch.hpp>

#include "core/units/error.hpp"
#include "targets/model/words.hpp"
#include "tests/solver/jobs/every_blend.hpp"

using namespace barwright;
using namespace barwright::jobs;
using barwright::testing::Question;
using barwright::testing::Uniform;
using optimise::Status;
using Kind = targets::Goal::Kind;
using Worths = std::vector<std::vector<double>>;

namespace {

// What nobody can tell apart in a goal; with what the house says it gives way by to a later one.
double alike(const targets::Goal& goal, bool gives) {
  switch (goal.kind) {
    case Kind::most:
    case Kind::least:
      return (gives ? 0.11 : 0.01) * targets::noticeable(goal.subject.property);
    case Kind::nearest:
      return (gives ? 0.1 : 1.0 / 30) + 0.01;
    case Kind::nearest_in_feel:
      return gives ? 0.11 : 0.01;
    default:
      return 1e-9;
  }
}

// The least a later goal can be among blends as good at every one before it.
double least_among(const Worths& all, std::size_t goal) {
  Worths left = all;
  for (std::size_t g = 0;; ++g) {
    double best = optimise::kInfinity;
    for (const auto& worths : left) best = std::min(best, worths[g]);
    if (g == goal) return best;
    std::erase_if(left, [&](const auto& worths) { return worths[g] > best + 1e-9; });
  }
}

struct Count {
  int found = 0, none = 0, refused = 0;
};

void compare(std::uint64_t seed, const Question& question, Count& count) {
  Uniform draw(seed);
  const BlendJob job = barwright::testing::drawn_job(draw, question);
  const Worths all = barwright::testing::every_kept(job);
  CAPTURE(seed, question.best, question.then, question.level, question.coarse, all.size());
  BlendResult result;
  try {
    result = find_blend(job, {});
  } catch (const core::Refusal& refusal) {
    INFO(refusal.what());
    CHECK(all.empty());
    ++count.refused;
    return;
  }
  CAPTURE(int(result.answer.status), result.answer.steps, result.answer.reason, result.passes);
  if (all.empty()) {
    CHECK(result.answer.status == Status::infeasible);
    ++count.none;
    return;
  }
  CHECK(result.answer.status == Status::optimal);
  REQUIRE(result.has_blend());
  const auto ours = barwright::testing::own_worths(job, result.answer.steps);
  REQUIRE(ours);
  ++count.found;
  const bool ties = job.candidates.oils.front().price_per_kg.has_value();
  for (std::size_t g = 0; g < job.brief.goals.size(); ++g) {
    const bool gives = ties || g + 1 < job.brief.goals.size();
    CAPTURE(g, (*ours)[g], least_among(all, g));
    CHECK((*ours)[g] <= least_among(all, g) + alike(job.brief.goals[g], gives));
  }
}

std::vector<std::string> goals_on_every_property() {
  std::vector<std::string> out;
  for (const auto property : targets::all_properties()) {
    if (!targets::PropertyModel::has_form(property)) continue;
    const std::string name(targets::name(property));
    out.push_back("most " + name);
    out.push_back("least " + name);
    out.push_back("{nearest to: {" + name + ": 45}}");
  }
  return out;
}

void walk(const std::string& level, int seeds) {
  Count count;
  std::uint64_t seed = 1;
  std::vector<Question> all;
  for (const std::string& goal : goals_on_every_property()) all.push_back({goal, "", level});
  for (const std::string goal : {"nearest in feel", "use up OIL", "fewest oils", "cheapest"})
    all.push_back({goal, "", level});
  all.push_back({"most hardness", "least quickness", level});
  all.push_back({"nearest in feel", "most keeping", level});
  all.push_back({"fewest oils", "most lather", level});
  all.push_back({"use up OIL", "nearest in feel", level});
  all.push_back({"least keeping", "use up OIL", level});
  for (Question question : all) {
    for (int k = 0; k < seeds; ++k) {
      question.coarse = k % 2 == 1;
      compare(seed++, question, count);
    }
  }
  WARN(level << ": " << count.found << " found, " << count.none << " none, " << count.refused
             << " refused");
  CHECK(count.found > int(all.size()) / 2);
}

}  // namespace

TEST_CASE("every goal at typical: the best of every blend weighed", "[superfat][goals]") {
  walk("typical", 4);
}

TEST_CASE("every goal at likely: the best of every blend weighed", "[superfat][goals]") {
  walk("likely", 2);
}

TEST_CASE("every goal at worst-case: the best of every blend weighed", "[superfat][goals]") {
  walk("worst-case", 2);
}
