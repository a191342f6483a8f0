#include "tests/solver/jobs/every_blend.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/formulate/verdict.hpp"
#include "solver/recipe/bar_settings.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "targets/model/feel.hpp"
#include "targets/model/words.hpp"
#include "tests/solver/jobs/brief_testing.hpp"

namespace barwright::testing {
namespace {

using jobs::BlendJob;
using Kind = targets::Goal::Kind;

constexpr int kParts = 10;  // steps of 10 %
constexpr double kOils = 1000;

const std::vector<std::string> kPool = {"olive",       "coconut",     "palm",
                                        "beef tallow", "shea butter", "cocoa butter",
                                        "castor",      "rice bran",   "high-oleic sunflower",
                                        "lard",        "sunflower",   "rapeseed",
                                        "palm kernel", "avocado",     "hempseed"};

}  // namespace

BlendJob drawn_job(Uniform& draw, const Question& question) {
  std::vector<std::string> pool = kPool, names;
  // Lots take long to judge, and noes are judged many times.
  const std::size_t oils = question.tight && question.level != "typical" ? 3 : 4;
  while (names.size() < oils) {
    const auto at = std::size_t(draw.whole(0, int(pool.size()) - 1));
    names.push_back(pool[at]);
    pool.erase(pool.begin() + std::ptrdiff_t(at));
  }
  const auto named = [&](std::string goal) {
    const auto at = goal.find("OIL");
    if (at != std::string::npos) goal.replace(at, 3, names[1]);
    return goal;
  };
  std::string out = fmt::format("brief: small\noils-from: [{}]\n", fmt::join(names, ", "));
  out +=
      "compared-with: {name: a common bar, superfat: 5 %, blend: {olive: 40 %, palm: 30 %, "
      "coconut: 25 %, castor: 5 %}}\nwant:\n";
  const char* const wishes[] = {"hardness", "lather", "conditioning", "keeping", "mildness"};
  const int first = draw.whole(0, 4);
  out += question.tight ? fmt::format("  {}: at least {:.1f}\n", wishes[first], draw(30, 55))
                        : fmt::format("  {}: at least {:.1f}\n", wishes[first], draw(10, 30));
  out += fmt::format("  {}: no more than {:.1f} below\n", wishes[(first + 1) % 5],
                     question.tight ? draw(1, 6) : draw(8, 24));
  if (question.best != "cheapest") out += "best: " + named(question.best) + "\n";
  if (!question.then.empty()) out += "then: " + named(question.then) + "\n";
  out += "limits: {steps: 10 %";
  // So that wishes collide with each other and not with what is usual.
  if (question.tight)
    for (const std::string& name : names) out += ", " + name + ": {most: 100 %}";
  out += "}\nsureness: " + question.level + "\n";
  const bool low = question.coarse;
  out += fmt::format("lye: {{superfat: {{aim: {} %, never-below: {} %}}}}\n", low ? 4 : 5,
                     low ? 2 : 0);
  out += fmt::format("make: {{oils: {} g}}\nscale: {{oils: 1 g, lye: {}}}\n", kOils,
                     question.coarse ? "1 g" : "0.1 g");
  BlendJob job = job_of(out);
  if (question.best != "cheapest") return job;
  // The reader leaves out oils without a price where the cost counts, so the goal comes after.
  job.brief.goals.insert(job.brief.goals.begin(), targets::Goal{});
  job.brief.goals.front().written.text = "cheapest";
  for (std::size_t i = 0; i < job.candidates.oils.size(); ++i)
    job.candidates.oils[i].price_per_kg = 3.1 + 1.7 * double((i * 7) % 5) + 0.13 * double(i);
  job.candidates.currency = "EUR";
  return job;
}

namespace {

struct Bar {
  targets::Composition composition;
  targets::BarSettings settings;
};

// A goal of typical lots, on the maker's scale, the less the better: the property model alone.
double own_worth(const BlendJob& job, const targets::Goal& goal, const std::vector<double>& shares,
                 const Bar& bar) {
  switch (goal.kind) {
    case Kind::cheapest: {
      double cost = 0;
      for (std::size_t i = 0; i < shares.size(); ++i)
        cost += shares[i] * *job.candidates.oils[i].price_per_kg;
      return cost;
    }
    case Kind::most:
    case Kind::least:
      return (goal.kind == Kind::most ? -1 : 1) *
             job.model.value(goal.subject.property, bar.composition, bar.settings);
    case Kind::nearest: {
      double sum = 0;
      for (const auto& point : goal.points) {
        const auto p = point.subject.property;
        const targets::PropertyForm form = job.model.form(p, bar.settings);
        const double wanted =
            point.value + (point.compared ? job.model.value(p, job.yardstick->composition,
                                                            job.yardstick->settings)
                                          : 0);
        const double here = job.model.value(p, bar.composition, bar.settings);
        const double off = (form.inverse(here) - form.inverse(wanted)) /
                           (form.inverse(wanted + targets::noticeable(p)) - form.inverse(wanted));
        sum += off * off;
      }
      return std::sqrt(sum);
    }
    case Kind::nearest_in_feel:
      return targets::feel_gap(job.model, bar.composition, bar.settings, job.yardstick->composition,
                               job.yardstick->settings)
          .total;
    case Kind::use_up:
      for (std::size_t i = 0; i < shares.size(); ++i)
        if (job.candidates.oils[i].oil.name == goal.oil) return -100 * shares[i];
      return 0;
    case Kind::fewest_oils:
      return double(std::count_if(shares.begin(), shares.end(), [](double x) { return x > 0; }));
    default:
      throw std::logic_error("no such goal here");
  }
}

}  // namespace

std::optional<std::vector<double>> own_worths(const BlendJob& job, const std::vector<int>& steps) {
  std::vector<std::size_t> used;
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (steps[i] > 0) used.push_back(i);
  std::stable_sort(used.begin(), used.end(),
                   [&](std::size_t a, std::size_t b) { return steps[a] > steps[b]; });
  std::vector<recipe::PotOil> oils;
  BlendJob of_these{job.brief, {}, job.yardstick, job.model, job.plain_bar, {}};
  of_these.candidates.currency = job.candidates.currency;
  std::vector<double> whole, by_steps;
  for (const int w : steps) whole.push_back(double(w) / kParts);
  for (const std::size_t i : used) {
    oils.push_back({job.candidates.oils[i].for_lye(whole[i] * kOils), whole[i] * kOils});
    of_these.candidates.oils.push_back(job.candidates.oils[i]);
    by_steps.push_back(whole[i]);
  }
  core::Recipe recipe;
  try {
    recipe = core::weigh(recipe::recipe_request(oils, job.brief.lye, job.brief.scale, 0));
  } catch (const core::Refusal&) {
    return std::nullopt;
  }
  formulate::Assumed own;
  own.oil_grams = recipe.oils_grams;
  own.settings = recipe::settings_of(recipe);
  std::vector<double> by_grams;
  for (const auto& oil : recipe.oils) by_grams.push_back(oil.grams / recipe.oils_grams);
  const bool typical = job.brief.sureness == targets::Sureness::typical;
  for (auto& goal : of_these.brief.goals)
    if (goal.kind == Kind::use_up) goal.kind = Kind::fewest_oils;  // told from the shares
  const formulate::Formulation here = jobs::formulation_of(of_these, own);
  for (const auto& verdict : formulate::judge(here, by_grams, by_steps))
    if (verdict.missed != 0) return std::nullopt;
  const Bar bar{formulate::mixed(of_these.candidates.oils, by_steps), own.settings};
  std::vector<double> out;
  for (std::size_t g = 0; g < job.brief.goals.size(); ++g) {
    const targets::Goal& goal = job.brief.goals[g];
    const bool of_lots = !typical && (goal.kind == Kind::most || goal.kind == Kind::least);
    const optimise::Goal& put = here.problem.goals[g];
    out.push_back(of_lots ? put.placed(put.at(by_steps)) : own_worth(job, goal, whole, bar));
  }
  return out;
}

std::vector<std::vector<double>> every_kept(const BlendJob& job) {
  std::vector<std::vector<double>> out;
  std::vector<int> steps(job.candidates.oils.size(), 0);
  const optimise::Problem problem = jobs::formulation_of(job, jobs::first_assumptions(job)).problem;
  const auto go = [&](const auto& self, std::size_t oil, int left) -> void {
    if (oil + 1 == steps.size()) {
      if (left > problem.oils[oil].most) return;
      steps[oil] = left;
      if (auto worths = own_worths(job, steps)) out.push_back(std::move(*worths));
      return;
    }
    for (int w = 0; w <= std::min(left, problem.oils[oil].most); ++w) {
      steps[oil] = w;
      self(self, oil + 1, left - w);
    }
  };
  go(go, 0, kParts);
  return out;
}

}  // namespace barwright::testing
