#include "solver/jobs/manners_told.hpp"

#include <algorithm>

#include "core/units/error.hpp"
#include "solver/formulate/manners.hpp"
#include "solver/jobs/mannerly.hpp"
#include "solver/optimise/within.hpp"

namespace barwright::jobs {
namespace {

using Kind = targets::Manner::Kind;
using Kept = std::vector<formulate::KeptManner>;

// Parts of the tree and work for one question beside the search itself.
constexpr std::uint64_t kNodes = 20000, kWork = 150'000'000;
// What a coarser step is priced against, %.
constexpr double kUsualStep = 1;

class Teller {
 public:
  Teller(const BlendJob& job, const Kept& kept, double step, const optimise::SearchOptions& options,
         Mannerly& out)
      : job_(job), kept_(kept), step_(step), options_(options), out_(out) {}

  void tell(int tried) {
    for (const auto& one : kept_) out_.manners.push_back(told(one, tried));
    const auto& formulation = out_.result.formulation;
    if (!formulation.goals.empty()) out_.goal = formulation.goals.front().words;
    for (std::size_t m = 0; m < kept_.size(); ++m)
      if (out_.manners[m].state == MannerTold::State::gave_way) had_to(m);
    const auto& answer = out_.result.answer;
    if (answer.status != optimise::Status::optimal || formulation.goals.empty() ||
        formulation.goals.front().tie_breaker || formulation.fewest_oils_at == 0)
      return;
    now_ = best_with(kept_, step_);
    if (!now_) return;
    for (std::size_t m = 0; m < kept_.size(); ++m) {
      if (!kept_[m].dropped())
        price(m);
      else if (!out_.manners[m].had_to)
        price_of_keeping(m);
    }
  }

 private:
  /// The best of the first goal.
  struct Best {
    double value = 0, placed = 0;  ///< of the goal; on the maker's scale, less is better
    double least = 0;              ///< a difference that counts
    bool proved = true;
  };

  MannerTold told(const formulate::KeptManner& one, int tried) const {
    MannerTold out;
    out.manner = one.manner;
    out.rule = formulate::rule_words(one, out_.held);
    out.dropped = one.dropped();
    out.let_in = one.let_in;
    if (!one.let_in.empty()) out.tried = tried;
    if (one.given > 0 || !one.let_in.empty()) out.state = MannerTold::State::gave_way;
    return out;
  }

  // At whichever superfat the lye may be reckoned with.
  std::optional<Best> best_with(const Kept& kept, double step) const {
    const optimise::Within part(options_, kWork, kNodes);
    optimise::SearchOptions quick = part.options();
    std::optional<Best> out;
    bool proved = true;
    const optimise::Problem& found = out_.result.formulation.problem;
    for (auto& posed :
         posed_at_each_superfat(with_manners(job_, out_.held, kept, step), out_.result.assumed)) {
      optimise::Problem& problem = posed.problem;
      problem.goals.resize(1);
      const optimise::Goal& goal = problem.goals.front();
      quick.start = out_.result.answer.steps;
      for (int& w : quick.start) w *= problem.steps / found.steps;
      const optimise::Answer answer = optimise::search(problem, quick);
      proved = proved && (answer.status == optimise::Status::optimal ||
                          answer.status == optimise::Status::infeasible);
      if (answer.steps.empty()) continue;
      const double value = answer.goals.front().value, placed = goal.placed(value);
      if (out && out->placed <= placed) continue;
      out = Best{value, placed, std::max({goal.give, goal.tie, 1e-6}), true};
    }
    if (out) out->proved = proved;
    return out;
  }

  // The manner as strict as it was before it gave way, all others as they are kept.
  Kept as_before(std::size_t m) const {
    Kept stricter = kept_;
    auto& one = stricter[m];
    if (one.manner->kind == Kind::own) {
      one.let_in.clear();
      one.given = 0;
    } else {
      --one.given;
    }
    return stricter;
  }

  void had_to(std::size_t m) {
    const Kept stricter = as_before(m);
    const bool steps = stricter[m].manner->kind == Kind::steps;
    const BlendJob job =
        with_manners(job_, out_.held, stricter, steps ? stricter[m].level() : step_);
    out_.manners[m].had_to =
        any_blend(job, out_.result.assumed, options_) == optimise::Status::infeasible;
  }

  // What the first goal comes to without one manner; for round shares, in the usual steps.
  void price(std::size_t m) {
    const bool steps = kept_[m].manner->kind == Kind::steps;
    if (steps && kept_[m].level() <= kUsualStep) return;
    Kept fewer = kept_;
    if (!steps) fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(m));
    const auto then = best_with(fewer, steps ? kUsualStep : step_);
    auto& one = out_.manners[m];
    if (!then || now_->placed - then->placed <= then->least) {
      one.open = !then || !then->proved;
      return;
    }
    if (one.state == MannerTold::State::kept) one.state = MannerTold::State::bound;
    tell_price(one, *then);
  }

  // What the first goal comes to with a manner that was dropped.
  void price_of_keeping(std::size_t m) {
    if (kept_[m].manner->kind == Kind::steps) return;
    if (const auto then = best_with(as_before(m), step_)) tell_price(out_.manners[m], *then);
  }

  void tell_price(MannerTold& one, const Best& then) const {
    const auto& shown = out_.result.formulation.goals.front();
    one.price = shown.shown(then.value) - shown.shown(now_->value);
    one.unit = shown.unit;
    one.proved = then.proved && now_->proved;
  }

  const BlendJob& job_;
  const Kept& kept_;
  double step_;
  const optimise::SearchOptions& options_;
  Mannerly& out_;
  std::optional<Best> now_;  // with all of them
};

}  // namespace

const char* word(MannerTold::State state) {
  switch (state) {
    case MannerTold::State::kept:
      return "kept";
    case MannerTold::State::bound:
      return "bound";
    case MannerTold::State::gave_way:
      return "gave way";
  }
  return "";
}

BlendJob with_manners(const BlendJob& job, const formulate::HeldTo& held, const Kept& kept,
                      double step) {
  BlendJob out = job;
  if (step > 0) out.brief.rules.step_share = step / 100;
  out.manners = [brief = job.brief, held, model = job.model, kept](
                    formulate::Formulation& formulation, const formulate::Candidates& candidates,
                    const formulate::Assumed& assumed) {
    formulate::add_manners(formulation, brief, candidates, held, model, assumed, kept);
  };
  return out;
}

optimise::Status any_blend(const BlendJob& job, const formulate::Assumed& assumed,
                           const optimise::SearchOptions& options) {
  optimise::Status out = optimise::Status::infeasible;
  std::vector<formulate::Formulation> all;
  try {
    all = posed_at_each_superfat(job, assumed);
  } catch (const core::Refusal&) {  // no safe lye for any
    return out;
  }
  for (auto& posed : all) {
    const optimise::Within quick(options, 100'000'000, kNodes);
    posed.problem.goals.clear();
    const optimise::Status status = optimise::search(posed.problem, quick.options()).status;
    if (status == optimise::Status::optimal) return status;
    if (status != optimise::Status::infeasible) out = status;
  }
  return out;
}

void tell_manners(const BlendJob& job, const Kept& kept, double step, int tried,
                  const optimise::SearchOptions& options, Mannerly& out) {
  Teller(job, kept, step, options, out).tell(tried);
}

}  // namespace barwright::jobs
