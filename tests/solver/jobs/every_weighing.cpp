#include "tests/solver/jobs/every_weighing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"
#include "solver/recipe/bar_settings.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "targets/model/words.hpp"
#include "tests/solver/jobs/brief_testing.hpp"

namespace barwright::testing {
namespace {

constexpr double kHair = 0.01;  // of a noticeable step

const std::vector<std::string> kOils = {
    "olive",       "coconut",      "palm",    "palm kernel", "beef tallow",
    "shea butter", "cocoa butter", "castor",  "rice bran",   "high-oleic sunflower",
    "lard",        "sunflower",    "rapeseed"};
const std::vector<std::string> kProperties = {"hardness", "lather", "conditioning", "mildness",
                                              "thrift"};

// Made up and spread so that no two blends cost the same by chance.
double price_of(std::size_t place) {
  return 3.1 + 1.7 * double((place * 7) % 5) + 0.13 * double(place);
}

}  // namespace

std::string drawn_small_brief(Uniform& draw, const SmallBrief& kind) {
  std::vector<std::string> pool = kOils, names;
  while (int(names.size()) < kind.oils) {
    const auto at = std::size_t(draw.whole(0, int(pool.size()) - 1));
    names.push_back(pool[at]);
    pool.erase(pool.begin() + std::ptrdiff_t(at));
  }
  std::string out =
      "brief: small\noils-from: [" + fmt::format("{}", fmt::join(names, ", ")) + "]\n";
  out += "want:\n";
  std::vector<std::string> wished = kProperties;
  for (int k = 0; k < 2; ++k) {
    const auto at = std::size_t(draw.whole(0, int(wished.size()) - 1));
    const double low = kind.tight ? draw(45, 70) : draw(25, 50);
    out += fmt::format("  {}: at least {:.2f}\n", wished[at], low);
    wished.erase(wished.begin() + std::ptrdiff_t(at));
  }
  const int goal = draw.whole(0, 4);
  const auto property = kProperties[std::size_t(draw.whole(0, 4))];
  if (goal <= 1) out += "best: cheapest\n";
  if (goal == 2) out += "best: most " + property + "\n";
  if (goal == 3) out += "best: least " + property + "\n";
  if (goal == 4)
    out += fmt::format("best: {{nearest to: {{hardness: {:.1f}, lather: {:.1f}}}}}\n", draw(30, 60),
                       draw(30, 60));
  out += "limits: {steps: 5 %}\n";
  const int size = draw.whole(0, 3);
  const char* grams[] = {"800", "1000", "1400", "300"};
  const char* lye[] = {"1 g", "1 g", "1 g", "0.4 g"};
  const double floor = kind.may_be_low ? 0.5 * draw.whole(0, 5) : 0;
  out += fmt::format("lye: {{superfat: {{aim: 5 %, never-below: {} %}}}}\n", floor);
  out += fmt::format("make: {{oils: {} g}}\n", grams[size]);
  out += kind.scale.empty()
             ? fmt::format("scale: {{oils: 1 g, lye: {}}}\n", kind.coarse ? lye[size] : "0.1 g")
             : "scale: " + kind.scale + "\n";
  return out;
}

jobs::BlendJob small_job(std::uint64_t seed, const SmallBrief& kind) {
  Uniform draw(seed);
  // The reader leaves out oils without a price where the cost counts, so the goal comes after.
  std::string text = drawn_small_brief(draw, kind);
  const std::string cheapest = "best: cheapest\n";
  const auto at = text.find(cheapest);
  if (at != std::string::npos) text.erase(at, cheapest.size());
  jobs::BlendJob job = job_of(text);
  if (at != std::string::npos) {
    job.brief.goals.emplace_back();
    job.brief.goals.back().kind = targets::Goal::Kind::cheapest;
    job.brief.goals.back().written.text = "cheapest";
  }
  // Without prices no tie is broken by them: the first goal stands alone.
  if (at == std::string::npos) return job;
  for (std::size_t i = 0; i < job.candidates.oils.size(); ++i)
    job.candidates.oils[i].price_per_kg = price_of(i);
  job.candidates.currency = "EUR";
  return job;
}

std::optional<double> own_value(const jobs::BlendJob& job, const std::vector<int>& steps,
                                double oil_grams) {
  double all = 0;
  for (const int w : steps) all += w;
  std::vector<recipe::PotOil> oils;
  std::vector<std::size_t> used;
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (steps[i] > 0) used.push_back(i);
  std::stable_sort(used.begin(), used.end(),
                   [&](std::size_t a, std::size_t b) { return steps[a] > steps[b]; });
  for (const std::size_t i : used) {
    const double grams = steps[i] / all * oil_grams;
    oils.push_back({job.candidates.oils[i].for_lye(grams), grams});
  }
  core::Recipe recipe;
  try {
    recipe = core::weigh(recipe::recipe_request(oils, job.brief.lye, job.brief.scale, 0));
  } catch (const core::Refusal&) {
    return std::nullopt;
  }
  const targets::BarSettings settings = recipe::settings_of(recipe);
  std::vector<targets::Composition> parts;
  std::vector<double> by_steps, by_grams;
  for (std::size_t k = 0; k < used.size(); ++k) {
    parts.push_back(job.candidates.oils[used[k]].composition);
    by_steps.push_back(steps[used[k]] / all);
    by_grams.push_back(recipe.oils[k].grams / recipe.oils_grams);
  }
  const auto wished = targets::mix(parts, by_steps), weighed = targets::mix(parts, by_grams);
  for (const auto& wish : job.brief.wishes) {
    const auto property = wish.subject.property;
    const double low = wish.low->value, hair = kHair * targets::noticeable(property);
    const double grams = job.model.value(property, weighed, settings);
    if (grams >= low - 1e-9) continue;
    if (grams < low - hair || job.model.value(property, wished, settings) < low - 1e-9)
      return std::nullopt;
  }
  const auto& goal = job.brief.goals.front();
  using Kind = targets::Goal::Kind;
  double value = 0;
  if (goal.kind == Kind::cheapest) {
    for (std::size_t k = 0; k < used.size(); ++k) value += by_steps[k] * price_of(used[k]);
  } else if (goal.kind == Kind::nearest) {
    for (const auto& point : goal.points) {
      const auto property = point.subject.property;
      const double off = (job.model.value(property, wished, settings) - point.value) /
                         targets::noticeable(property);
      value += off * off;
    }
    value = std::sqrt(value);
  } else {
    value = job.model.value(goal.subject.property, wished, settings) *
            (goal.kind == Kind::most ? -1 : 1);
  }
  return value;
}

EveryWeighing weigh_every_blend(const jobs::BlendJob& job, double oil_grams) {
  const formulate::Formulation formulation =
      jobs::formulation_of(job, jobs::first_assumptions(job));
  const optimise::Problem& problem = formulation.problem;
  EveryWeighing out;
  std::vector<int> steps(problem.oils.size(), 0);
  const auto go = [&](const auto& self, std::size_t oil, int left) -> void {
    if (oil + 1 == steps.size()) {
      if (left > problem.oils[oil].most) return;
      steps[oil] = left;
      ++out.blends;
      const auto value = own_value(job, steps, oil_grams);
      if (value) ++out.kept;
      if (value && (!out.best || *value < *out.best)) {
        out.best = value;
        out.best_steps = steps;
      }
      return;
    }
    for (int w = 0; w <= std::min(left, problem.oils[oil].most); ++w) {
      steps[oil] = w;
      self(self, oil + 1, left - w);
    }
  };
  go(go, 0, problem.steps);
  return out;
}

}  // namespace barwright::testing
