#include "solver/jobs/weighed_parts.hpp"

#include <algorithm>
#include <cmath>

#include "core/lye/superfat_levels.hpp"
#include "solver/formulate/verdict.hpp"
#include "solver/jobs/blend_pot.hpp"
#include "solver/jobs/sureness.hpp"
#include "solver/recipe/bar_settings.hpp"

namespace barwright::jobs {
namespace {

// Multiply-adds of weighing one blend, about; of a form, per oil.
constexpr std::uint64_t kWeighingWork = 20'000, kFormWork = 200, kSureFormWork = 20'000;
// The readings of a known bar take as long as about so many oils.
constexpr std::uint64_t kReadingsOils = 100;
// A superfat that moves no further than this moves no property by a hundredth of a noticeable step.
constexpr double kPlain = 1e-3;
// Of what a goal gives way by, a tenth of a noticeable step: a hundredth is not told apart.
constexpr double kAlike = 0.1;
// Of a distance: what of it counts once settings may move it (see Bounds below).
constexpr double kTaken = 0.02;
// Of a square's own unit (a noticeable step): a move too small to count.
constexpr double kSmallPull = 2e-3;
// A wish let out mostly by what the scales round off is no narrower in a narrower slice.
constexpr double kHelps = 0.5;

double widest(const std::vector<double>& slope) {
  const auto [least, most] = std::minmax_element(slope.begin(), slope.end());
  return slope.empty() ? 0 : *most - *least;
}

// The most that two forms of one measure differ by over all shares: linear parts differ most at an
// oil alone, a bend by its slopes, cap and weight. Guards are compared at each oil alone and at
// their mean, and what is seen is doubled (not proved: they are concave, and so are both).
double apart(const optimise::Form& a, const optimise::Form& b) {
  double out = 0;
  for (std::size_t i = 0; i < a.linear.size(); ++i)
    out = std::max(out, std::abs(a.linear[i] - b.linear[i] + a.constant - b.constant));
  for (std::size_t k = 0; k < std::min(a.kinks.size(), b.kinks.size()); ++k) {
    const optimise::Kink &p = a.kinks[k], &q = b.kinks[k];
    double reach = std::abs(p.cap), moved = std::abs(p.cap - q.cap);
    for (std::size_t i = 0; i < p.slope.size(); ++i) {
      reach = std::max(reach, std::abs(p.slope[i]));
      moved = std::max(moved, std::abs(p.slope[i] - q.slope[i]));
    }
    out += std::abs(p.weight - q.weight) * reach + std::abs(q.weight) * moved;
  }
  if (a.guards.empty()) return out;
  double seen = 0;
  std::vector<double> x(a.linear.size(), 1.0 / static_cast<double>(a.linear.size()));
  for (std::size_t i = 0; i <= x.size(); ++i) {
    seen = std::max(seen, std::abs(a.at(x) - b.at(x)));
    if (i == x.size()) break;
    std::fill(x.begin(), x.end(), 0.0);
    x[i] = 1;
  }
  return out + 2 * seen;
}

// The most that moving this much of the blend changes a form by; `moved` is the sum of all moves.
double moved_by(const optimise::Form& form, double moved) {
  double slope = widest(form.linear) / 2;
  for (const optimise::Kink& kink : form.kinks)
    slope += std::abs(kink.weight) * widest(kink.slope) / 2;
  for (const optimise::Guard& guard : form.guards)
    slope += std::abs(guard.weight) * guard.part->widest() / 2;
  return slope * moved;
}

// The job of the oils in use alone, for its wishes and the goals that settings move: rules on oils,
// and goals on what they cost or hold, are settled by the whole problem.
BlendJob with_oils_in_use(const BlendJob& job, std::span<const double> shares) {
  BlendJob out{job.brief, {}, job.yardstick, job.model, job.plain_bar, {}};
  out.candidates.currency = job.candidates.currency;
  for (std::size_t i = 0; i < shares.size(); ++i)
    if (shares[i] > 0) out.candidates.oils.push_back(job.candidates.oils[i]);
  out.brief.rules = {};
  using Kind = targets::Goal::Kind;
  for (auto& goal : out.brief.goals)
    if (goal.kind == Kind::use_up || goal.kind == Kind::cheapest) goal.kind = Kind::fewest_oils;
  return out;
}

class WeighedPart : public optimise::Part {
 public:
  WeighedPart(Weighing& weighing, const formulate::LyeSlice& slice);
  const optimise::Problem& problem() const override { return problem_; }
  bool keeps(std::span<const int> steps) const override;
  double worth(std::size_t goal, std::span<const int> steps) const override;
  bool exact(std::size_t goal) const override { return exact_[goal]; }
  optimise::Parts split() const override;
  std::uint64_t work() const override { return weighing_.work(); }

 private:
  bool surely_keeps(std::span<const double> shares) const;

  bool split_helps_;  ///< where lots count, putting a slice anew takes long
  Weighing& weighing_;
  formulate::LyeSlice slice_;
  formulate::SettingsBox box_;
  optimise::Problem problem_;  ///< let out: every blend of the slice that is kept fits
  std::vector<optimise::Limit>
      strict_;  ///< of the maker's wishes: what is kept here is kept anyhow
  std::vector<bool> exact_;
  std::vector<optimise::Goal> goals_;  ///< at the slice's middle
};

// The same problem with one setting moved to either end of its box.
using Ends = std::vector<std::vector<formulate::Formulation>>;

// The most that something differs by when every setting may move: each at its worse end.
double over(const Ends& ends, const std::function<double(const formulate::Formulation&)>& differs) {
  double sum = 0;
  for (const auto& of_one : ends) {
    double most = 0;
    for (const formulate::Formulation& end : of_one) most = std::max(most, differs(end));
    sum += most;
  }
  return sum;
}

// The most that the forms of one of the brief's wishes, or of what was added to it, differ by.
double wish_apart(const formulate::Formulation& a, const formulate::Formulation& b, int wish) {
  double most = 0;
  for (std::size_t l = 0; l < std::min(a.problem.limits.size(), b.problem.limits.size()); ++l) {
    const optimise::Limit &p = a.problem.limits[l], &q = b.problem.limits[l];
    if (p.wish >= 0 && a.asked[static_cast<std::size_t>(p.wish)].wish == wish)
      most = std::max(most, apart(p.form, q.form));
  }
  return most;
}

// Lets a goal down by as much as settings can take from its worth. A square (f + e)^2 with |e| <= d
// is at least (1 - t) f^2 - (1/t - 1) d^2 for every t in (0, 1): 2 f e >= -t f^2 - e^2 / t.
bool let_down(optimise::Goal& goal, std::size_t g, const formulate::Formulation& middle,
              const Ends& ends) {
  const optimise::Goal& here = middle.problem.goals[g];
  const double form = over(ends, [&](const formulate::Formulation& end) {
    return apart(here.form, end.problem.goals[g].form);
  });
  std::vector<double> pulls;
  double largest = 0;
  for (std::size_t k = 0; k < goal.pulls.size(); ++k) {
    pulls.push_back(over(ends, [&](const formulate::Formulation& end) {
      const optimise::Pull& pull = end.problem.goals[g].pulls[k];
      return apart(here.pulls[k].form, pull.form) + std::abs(here.pulls[k].point - pull.point);
    }));
    largest = std::max(largest, pulls[k] * std::sqrt(goal.pulls[k].weight));
  }
  const bool small = !goal.scale.place && goal.pulls.empty() ? form <= kAlike * goal.give
                                                             : form == 0 && largest <= kSmallPull;
  if (small) return true;
  goal.form.constant -= form;
  for (std::size_t k = 0; k < pulls.size(); ++k) {
    goal.form.constant -= goal.pulls[k].weight * (1 / kTaken - 1) * pulls[k] * pulls[k];
    goal.pulls[k].weight *= 1 - kTaken;
  }
  return false;
}

WeighedPart::WeighedPart(Weighing& weighing, const formulate::LyeSlice& slice)
    : split_helps_(!weighing.sure()),
      weighing_(weighing),
      slice_(slice),
      box_(formulate::settings_box(weighing.ground(), slice, weighing.assumed().settings)) {
  const targets::BarSettings middle = box_.middle();
  const formulate::Formulation here = weighing.formulated(middle);
  // Each setting at its ends, the others in the middle: every property moves one way in each. Taken
  // for typical lots; what is sure of a property moves with it, and is given twice as much room
  // (judgement: lots take a share of it, and readings differ in how soon free fat softens).
  const double room = weighing.sure() ? 2 : 1;
  const formulate::Formulation typical = weighing.sure() ? weighing.typical(middle) : here;
  Ends ends;
  const auto at_ends = [&](double targets::BarSettings::*what) {
    ends.emplace_back();
    for (const double value : {box_.low.*what, box_.high.*what}) {
      if (std::abs(value - middle.*what) < 1e-9) continue;
      targets::BarSettings settings = middle;
      settings.*what = value;
      ends.back().push_back(weighing.typical(settings));
    }
  };
  at_ends(&targets::BarSettings::superfat);
  at_ends(&targets::BarSettings::lye_concentration);
  problem_ = here.problem;
  goals_ = problem_.goals;
  const formulate::LyeGround& ground = weighing.ground();
  // Rounding moves each line, and the total with it.
  const double moved = 2.02 * ground.most_lines * ground.rounded_by / ground.oil_grams;
  std::map<int, double> off;
  for (optimise::Limit& limit : problem_.limits) {
    if (limit.wish < 0) continue;
    const int wish = here.asked[static_cast<std::size_t>(limit.wish)].wish;
    if (wish < 0) continue;
    if (!off.contains(wish))
      off[wish] = room * over(ends, [&](const formulate::Formulation& end) {
                    return wish_apart(typical, end, wish);
                  });
    optimise::Limit strict = limit;
    strict.low += off[wish];
    strict.high -= off[wish];
    strict_.push_back(std::move(strict));
    const double rounding = moved_by(limit.form, moved), out = off[wish] + rounding;
    split_helps_ = split_helps_ || off[wish] > kHelps * rounding;
    limit.low -= out;
    limit.high += out;
  }
  for (std::size_t g = 0; g < problem_.goals.size(); ++g)
    exact_.push_back(weighing.sure() || let_down(problem_.goals[g], g, here, ends));
  for (optimise::Limit& limit : formulate::lye_limits(ground, slice))
    problem_.limits.push_back(std::move(limit));
}

bool WeighedPart::surely_keeps(std::span<const double> shares) const {
  return std::all_of(strict_.begin(), strict_.end(), [&](const optimise::Limit& limit) {
    const double value = limit.form.at(shares);
    return value >= limit.low && value <= limit.high;
  });
}

bool WeighedPart::keeps(std::span<const int> steps) const {
  Weighing::Weighed& weighed = weighing_.at(steps);
  if (weighed.refused || !weighed.in_stock) return false;
  if (weighed.level != slice_.level || !slice_.holds(weighed.need)) return false;
  if (!box_.has(weighed.settings)) weighing_.met_outside();
  return surely_keeps(weighed.shares) || weighing_.judged_at(steps).keeps_wishes;
}

double WeighedPart::worth(std::size_t goal, std::span<const int> steps) const {
  if (exact_[goal]) return goals_[goal].at(problem_.shares(steps));
  return weighing_.judged_at(steps).worths[goal];
}

optimise::Parts WeighedPart::split() const {
  optimise::Parts out;
  if (!split_helps_) return out;
  for (const formulate::LyeSlice& half : formulate::halves(weighing_.ground(), slice_))
    out.push_back(std::make_shared<WeighedPart>(weighing_, half));
  return out;
}

}  // namespace

Weighing::Weighing(const BlendJob& job, formulate::Assumed assumed)
    : job_(job), assumed_(std::move(assumed)), sure_(asks_for_sureness(job.brief)) {
  assumed_.held_back.clear();
  if (sure_) {
    typical_ = at_level(job, {targets::Sureness::typical});
    typical_->more = {};  // speaks of this job's own wishes, and not of lots
  }
  // Bounds of oils alone: without what `more` may change of them, no wish need be put for them.
  targets::Brief rules = job.brief;
  rules.wishes.clear();
  rules.goals.clear();
  formulate::Formulation bare =
      job.more ? formulation_of(job, assumed_)
               : formulate::formulate(rules, job.candidates, {}, job.model, assumed_, {});
  if (!job.more && job.manners) job.manners(bare, job.candidates, assumed_);
  const optimise::Problem& problem = bare.problem;
  steps_ = problem.steps;
  ground_ = lye_ground_of(job_, problem, assumed_.oil_grams);
  slices_ = formulate::lye_slices(ground_, problem);
}

bool Weighing::plain() const {
  if (!ground_.fixed || slices_.size() != 1 || slices_.front().level != 0) return false;
  const formulate::SettingsBox box =
      formulate::settings_box(ground_, slices_.front(), assumed_.settings);
  return box.high.superfat - box.low.superfat <= kPlain;
}

formulate::Formulation Weighing::of(const BlendJob& job, const targets::BarSettings& settings) {
  formulate::Assumed at = assumed_;
  at.settings = settings;
  formulate::Formulation out = formulation_of(job, at);
  const std::uint64_t oils = out.problem.oils.size();
  work_ += (sure_ ? kSureFormWork * (oils + kReadingsOils) : kFormWork * oils) *
           (out.problem.limits.size() + out.problem.goals.size());
  return out;
}

Weighing::Weighed& Weighing::at(std::span<const int> steps) {
  const auto [place, fresh] =
      weighed_.try_emplace(std::vector<int>(steps.begin(), steps.end()), Weighed{});
  Weighed& out = place->second;
  if (!fresh) return out;
  work_ += kWeighingWork;
  std::vector<double> shares(steps.size());
  for (std::size_t i = 0; i < steps.size(); ++i) shares[i] = static_cast<double>(steps[i]) / steps_;
  core::Recipe recipe;
  try {
    recipe = core::weigh(request_for(job_, shares, assumed_.oil_grams));
  } catch (const core::Refusal& refusal) {
    if (!refusal_) refusal_ = refusal;
    return out;
  }
  out.refused = false;
  out.settings = recipe::settings_of(recipe);
  out.shares.assign(steps.size(), 0.0);
  out.need = ground_.other_need;
  const auto used = used_oils(shares);
  for (std::size_t line = 0; line < used.size(); ++line) {
    const auto& oil = recipe.oils.at(line);
    out.shares[used[line]] = oil.grams / recipe.oils_grams;
    out.need += oil.grams * oil.saponification_value.typical / 1000 / core::kKohMolarMass;
    const auto& stock = job_.candidates.oils[used[line]].stock_grams;
    if (stock && oil.grams > *stock + 1e-6) out.in_stock = false;
  }
  double dosed = 0;
  for (const auto& line : recipe.alkali)
    dosed += line.exact_grams * line.purity / core::molar_mass(line.alkali);
  const double aim = 1 - (dosed - ground_.corrected) / out.need;
  const auto levels = core::superfat_levels(ground_.settings.superfat);
  const auto nearest = std::min_element(levels.begin(), levels.end(), [&](double a, double b) {
    return std::abs(a - aim) < std::abs(b - aim);
  });
  out.level = static_cast<std::size_t>(nearest - levels.begin());
  return out;
}

const Weighing::Weighed& Weighing::judged_at(std::span<const int> steps) {
  Weighed& out = at(steps);
  if (out.judged) return out;
  const std::vector<double> whole = in_steps_of(steps);
  // The oils in use alone make the same blend, and forms over few oils take little.
  const bool few = !job_.more && std::none_of(job_.brief.goals.begin(), job_.brief.goals.end(),
                                              [](const targets::Goal& goal) {
                                                return goal.kind == targets::Goal::Kind::weighted;
                                              });
  std::optional<BlendJob> in_use;
  std::vector<double> shares = out.shares, in_steps = whole;
  if (few) {
    in_use = with_oils_in_use(job_, whole);
    shares.clear();
    in_steps.clear();
    for (std::size_t i = 0; i < whole.size(); ++i) {
      if (!(whole[i] > 0)) continue;
      shares.push_back(out.shares[i]);
      in_steps.push_back(whole[i]);
    }
  }
  const formulate::Formulation own = of(few ? *in_use : job_, out.settings);
  const auto kept = [&](std::span<const double> by) {
    const auto verdicts = formulate::judge(own, by, in_steps);
    return std::all_of(verdicts.begin(), verdicts.end(),
                       [](const formulate::Verdict& verdict) { return verdict.missed == 0; });
  };
  out.judged = true;
  out.keeps_wishes = kept(shares);
  if (!out.keeps_wishes && kept(in_steps)) rounding_broke_ = true;
  for (const optimise::Goal& goal : own.problem.goals) out.worths.push_back(goal.at(in_steps));
  return out;
}

std::vector<double> Weighing::in_steps_of(std::span<const int> steps) const {
  std::vector<double> shares;
  for (const int w : steps) shares.push_back(static_cast<double>(w) / steps_);
  return shares;
}

optimise::Parts weighed_parts(Weighing& weighing) {
  optimise::Parts out;
  for (const formulate::LyeSlice& slice : weighing.slices())
    out.push_back(std::make_shared<WeighedPart>(weighing, slice));
  return out;
}

}  // namespace barwright::jobs
