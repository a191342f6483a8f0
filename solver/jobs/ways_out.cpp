#include "solver/jobs/ways_out.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "core/units/error.hpp"
#include "solver/explain/posed.hpp"
#include "solver/jobs/blend_pot.hpp"
#include "solver/jobs/weighed_parts.hpp"
#include "solver/optimise/checker.hpp"

namespace barwright::jobs {
namespace {

// A way out that only rounding closes opens within a few hundredths of a noticeable step.
constexpr double kHair = 0.01;
constexpr int kMostHairs = 32;
constexpr double kMargin = 0.05;           // noticeable steps: more than a superfat moves a wish by
constexpr double kAllOfIt = 1e4;           // noticeable steps: no wish is left
constexpr std::uint64_t kShortLook = 500;  // parts of a search
constexpr double kLastBits = 1e-9;         // no figure moves by them when it is rounded

// The changes as they are printed, back in the figures of measures and rules.
explain::Fix as_printed(const formulate::Formulation& of, explain::Fix fix) {
  for (explain::Change& change : fix.changes) {
    const formulate::Asked& wish = of.asked[static_cast<std::size_t>(change.wish)];
    change.to = change.what == explain::Change::What::rule
                    ? std::round(change.to)
                    : written_figure(wish, change) / wish.per_unit + wish.offset;
  }
  return fix;
}

// Puts the changes into a formulation of the job: its limits and rules, and what verdicts read.
void make(formulate::Formulation& out, const explain::Fix& fix) {
  out.problem = with_fix(out.problem, out.wishes, fix);
  for (const explain::Change& change : fix.changes) {
    const auto index = static_cast<std::size_t>(change.index);
    if (change.what == explain::Change::What::rule) {
      explain::Rule& rule = out.wishes.rules[index];
      rule.bound = static_cast<int>(change.to);
    } else if (index < out.wishes.measures.size()) {
      explain::Measure& measure = out.wishes.measures[index];
      (change.what == explain::Change::What::floor ? measure.low : measure.high) = change.to;
    }
  }
}

// Whether the blend that the fix was found with opens the way.
bool kept(const BlendJob& job, const BlendResult& no, const explain::Fix& fix) {
  return kept_as_weighed(whether_any(with_fix(job, no.formulation, fix)), no.assumed, fix.steps);
}

// Whether any blend does; it is then the fix's.
bool searched(const BlendJob& job, const BlendResult& no, explain::Fix& fix,
              const optimise::SearchOptions& options) {
  try {
    const BlendResult found = find_blend(whether_any(with_fix(job, no.formulation, fix)), options);
    if (!found.has_blend()) return false;
    if (found.formulation.problem.steps == no.formulation.problem.steps)
      fix.steps = found.answer.steps;
    return true;
  } catch (const core::Refusal&) {
    return false;
  }
}

bool opens(const BlendJob& job, const BlendResult& no, explain::Fix& fix,
           const optimise::SearchOptions& options) {
  return kept(job, no, fix) || searched(job, no, fix, options);
}

// Moves every figure on by so much, in noticeable steps; rules are whole and stay.
explain::Fix moved_on(const BlendResult& no, explain::Fix fix, double steps) {
  const auto all = explain::complete(no.formulation.problem, no.formulation.wishes);
  for (explain::Change& change : fix.changes) {
    if (change.what == explain::Change::What::rule) continue;
    const double by = steps * all.measures[static_cast<std::size_t>(change.index)].noticeable;
    change.to += change.what == explain::Change::What::floor ? -by : by;
  }
  fix.size += steps;
  return fix;
}

// Takes back what is not needed, by hairs: a figure's properties follow the superfat of each blend,
// which the search of the figure took for the same. What is left is the least, by weighing.
explain::Fix tightened(const BlendJob& job, const BlendResult& no, explain::Fix fix,
                       const optimise::SearchOptions& options) {
  const bool one_figure =
      fix.changes.size() == 1 && fix.changes.front().what != explain::Change::What::rule;
  for (int tries = 0; one_figure && fix.proved; ++tries) {
    explain::Fix less = moved_on(no, fix, -2 * kHair);
    if (less.size <= 0 || explain::out_of_time(options) || !opens(job, no, less, options)) break;
    less.proved = tries < kMostHairs;
    fix = std::move(less);
  }
  return fix;
}

// The wishes but those of a fix, held tighter by so many noticeable steps.
optimise::Problem tighter(const optimise::Problem& problem, const explain::Wishes& wishes,
                          const explain::Fix& fix, double steps) {
  const explain::Wishes all = explain::complete(problem, wishes);
  optimise::Problem out = problem;
  for (const explain::Measure& measure : all.measures) {
    const bool own =
        std::find(fix.wishes.begin(), fix.wishes.end(), measure.wish) != fix.wishes.end();
    const double margin = steps * measure.noticeable;
    if (own || measure.high - measure.low <= 2 * margin) continue;
    explain::add_range(out, measure, measure.low + margin, measure.high - margin);
  }
  return out;
}

// Asks again with the other wishes held tighter by a hair: the blend that has the figure which
// shares alone give may miss one of them at its own superfat.
std::optional<explain::Fix> with_a_margin(const BlendJob& job, const BlendResult& no,
                                          const explain::Fix& fix,
                                          const optimise::SearchOptions& options) {
  std::vector<optimise::Problem> problems;
  std::vector<explain::Posed> posed;
  problems.reserve(no.slices.size());
  for (const formulate::Formulation& slice : no.slices) {
    problems.push_back(tighter(slice.problem, slice.wishes, fix, kMargin));
    posed.push_back({&problems.back(), &slice.wishes});
  }
  for (explain::Fix& found : explain::find_fixes(posed, fix.wishes, options).fixes) {
    found.proved = false;
    for (int hairs = 0; hairs <= kMostHairs; hairs = std::max(1, 2 * hairs)) {
      explain::Fix more = moved_on(no, found, hairs * kHair);
      if (kept(job, no, more)) return more;
    }
  }
  return std::nullopt;
}

// Returns the fix as it opens the way, or nothing.
std::optional<explain::Fix> weighed(const BlendJob& job, const BlendResult& no, explain::Fix fix,
                                    const optimise::SearchOptions& options) {
  if (kept(job, no, fix)) return tightened(job, no, std::move(fix), options);
  if (auto sure = with_a_margin(job, no, fix, options)) {
    // What is known to open leaves a short look for less; the other wishes want their turn.
    optimise::SearchOptions look = options;
    if (look.most_nodes == 0 || look.most_nodes > kShortLook) look.most_nodes = kShortLook;
    return searched(job, no, fix, look) ? tightened(job, no, std::move(fix), options) : sure;
  }
  if (searched(job, no, fix, options)) return tightened(job, no, std::move(fix), options);
  fix.proved = false;
  const bool figures =
      std::any_of(fix.changes.begin(), fix.changes.end(),
                  [](const explain::Change& c) { return c.what != explain::Change::What::rule; });
  if (!figures) return std::nullopt;
  for (int hairs = 1; hairs <= kMostHairs && !explain::out_of_time(options); hairs *= 2) {
    explain::Fix more = moved_on(no, fix, hairs * kHair);
    if (opens(job, no, more, options)) return more;
  }
  return std::nullopt;
}

}  // namespace

double written_figure(const formulate::Asked& asked, const explain::Change& changed) {
  const bool floor = changed.what == explain::Change::What::floor;
  const double value = 100 * (changed.to - asked.offset) * asked.per_unit;
  const double hair = kLastBits * std::max(1.0, std::abs(value));
  const double figure = (floor ? std::floor(value + hair) : std::ceil(value - hair)) / 100;
  if (asked.compared) return figure;
  const bool in_hundred = asked.unit == "points" || asked.unit == "%";
  return std::clamp(figure, 0.0, in_hundred ? 100.0 : std::max(figure, 0.0));
}

double written_grams(const formulate::Asked& asked, const explain::Change& changed) {
  return std::ceil(changed.to * asked.per_unit - kLastBits);
}

BlendJob whether_any(BlendJob job) {
  job.brief.goals.clear();
  return job;
}

bool kept_as_weighed(const BlendJob& job, const formulate::Assumed& assumed,
                     const std::vector<int>& steps) {
  if (steps.size() != job.candidates.oils.size()) return false;
  try {
    formulate::Assumed at = assumed;
    at.held_back.clear();
    const std::vector<double> shares = formulation_of(job, at).problem.shares(steps);
    at.oil_grams = wanted_oils(job, shares);
    Weighing weighing(job, at);
    const Weighing::Weighed& weighed = weighing.at(steps);
    if (weighed.refused || !weighed.in_stock) return false;
    return weighing.judged_at(steps).keeps_wishes &&
           optimise::fits(weighing.formulated(weighed.settings).problem, steps);
  } catch (const core::Refusal&) {
    return false;
  }
}

BlendJob with_fix(const BlendJob& job, const formulate::Formulation& of, const explain::Fix& fix) {
  const explain::Fix printed = as_printed(of, fix);
  BlendJob out = job;
  for (const explain::Change& change : printed.changes) {
    if (change.what != explain::Change::What::rule) continue;
    const explain::Rule& rule = of.wishes.rules[static_cast<std::size_t>(change.index)];
    if (rule.kind != explain::RuleKind::oil_most) continue;
    // More of it than the shelf holds: then the shelf has to hold more.
    auto& stock = out.candidates.oils[static_cast<std::size_t>(rule.oil)].stock_grams;
    const formulate::Asked& wish = of.asked[static_cast<std::size_t>(change.wish)];
    if (stock && wish.unit == "g") stock = std::max(*stock, written_grams(wish, change));
  }
  out.more = [before = job.more, printed](formulate::Formulation& formulation,
                                          const formulate::Candidates& candidates,
                                          const formulate::Assumed& assumed) {
    if (before) before(formulation, candidates, assumed);
    make(formulation, printed);
  };
  return out;
}

WaysOut ways_out(const BlendJob& job, const BlendResult& no, std::span<const int> which,
                 const optimise::SearchOptions& options) {
  std::vector<explain::Posed> posed;
  for (const formulate::Formulation& slice : no.slices)
    posed.push_back({&slice.problem, &slice.wishes});
  WaysOut out;
  out.fixes = explain::find_fixes(posed, which, options);
  std::vector<explain::Fix> open;
  for (explain::Fix& fix : out.fixes.fixes) {
    const int wish = fix.wishes.front();
    if (auto found = weighed(job, no, std::move(fix), options)) {
      open.push_back(std::move(*found));
    } else {
      out.fixes.undecided.push_back(wish);
    }
  }
  std::stable_sort(open.begin(), open.end(),
                   [](const explain::Fix& a, const explain::Fix& b) { return a.size < b.size; });
  out.fixes.fixes = std::move(open);
  if (!out.fixes.fixes.empty()) return out;
  explain::Fix together = explain::joint_fix(posed, which, options);
  if (!together.steps.empty()) out.together = weighed(job, no, std::move(together), options);
  return out;
}

}  // namespace barwright::jobs
