#include "solver/jobs/mannerly.hpp"

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"
#include "solver/formulate/goal_search.hpp"
#include "solver/optimise/within.hpp"

namespace barwright::jobs {
namespace {

using Kind = targets::Manner::Kind;

// Parts of the tree and work for one question beside the search itself.
constexpr std::uint64_t kNodes = 20000, kWork = 800'000'000;
// The finest steps manners give way in, and those a coarser step is priced against, %.
constexpr double kUsualStep = 1;
// A try takes four fifths of the work left at most, so that one that lasts leaves some to the next.
constexpr std::uint64_t kParts = 5;
constexpr int kRounds = 3;
// Of oils from outside, one at a time, so many are weighed out.
constexpr std::size_t kBestFew = 3;

class Finder {
 public:
  Finder(const BlendJob& job, const optimise::SearchOptions& options)
      : job_(job), options_(options) {
    out_.held.in_hand = job.yardstick.has_value();
    const std::string plain = job.brief.rules.manners.none
                                  ? std::string(targets::kPlainBar)
                                  : formulate::stand_in(job.brief, job.candidates);
    out_.held.bar =
        job.yardstick ? *job.yardstick : job.plain_bar(plain, job.brief.oils_from.written);
    kept_ = formulate::manners_in_force(job.brief, job.candidates, out_.held);
    for (auto& one : kept_) {
      if (one.manner->kind == Kind::steps) steps_ = &one;
      if (one.manner->kind == Kind::own) own_ = &one;
    }
  }

  Mannerly find() {
    if (kept_.empty()) {
      settle(job_, find_blend(job_, options_));
    } else if (!try_steps() && !try_other_oils() && !give_way()) {
      nothing_fits();
    }
    if (out_.result.has_blend()) {
      tell();
      out_.hours_to_cut = targets::hours_to_cut(job_.model.value(
          targets::Property::cut_firmness, out_.result.composition, out_.result.settings));
    }
    return std::move(out_);
  }

 private:
  BlendJob with(const std::vector<formulate::KeptManner>& kept, double step) const {
    BlendJob out = job_;
    if (steps_ != nullptr) out.brief.rules.step_share = step / 100;
    out.manners = [brief = job_.brief, held = out_.held, model = job_.model, kept](
                      formulate::Formulation& formulation, const formulate::Candidates& candidates,
                      const formulate::Assumed& assumed) {
      formulate::add_manners(formulation, brief, candidates, held, model, assumed, kept);
    };
    return out;
  }

  void settle(const BlendJob& job, BlendResult result) {
    out_.job = std::make_shared<const BlendJob>(job);
    out_.result = std::move(result);
  }

  // Runs one try within its part of the work.
  bool attempt(const BlendJob& job) {
    const optimise::Within part(options_, optimise::work_left(options_) / kParts * (kParts - 1));
    assumed_ = first_assumptions(job);
    try {
      BlendResult found = find_blend(job, part.options());
      if (found.has_blend()) {
        settle(job, std::move(found));
        return true;
      }
      assumed_ = found.assumed;
    } catch (const core::Refusal&) {  // safe blends may fit once a manner gives way
    }
    return false;
  }

  bool try_steps() {
    if (steps_ == nullptr) return attempt(with(kept_, 0));
    for (steps_->given = 0; !steps_->dropped(); ++steps_->given)
      if (attempt(with(kept_, steps_->level()))) return true;
    return false;
  }

  // Oils from outside are milder than any other manner given way, but for the steps; one of them is
  // milder than several.
  bool try_other_oils() {
    if (own_ == nullptr) return false;
    if (steps_ == nullptr && try_one_more(0)) return true;
    for (std::size_t size = 0; steps_ != nullptr && size < steps_->levels(); ++size) {
      steps_->given = size;
      if (try_one_more(steps_->level())) return true;
    }
    own_->let_in.clear();
    own_->given = own_->levels();
    return try_steps();
  }

  // With the one oil from outside that serves the first goal best.
  bool try_one_more(double step) {
    std::vector<std::pair<double, std::string>> found;
    for (const formulate::Candidate& candidate : job_.candidates.oils) {
      own_->let_in = candidate.oil.name;
      const optimise::Within quick(options_, kWork / 80);
      optimise::Problem problem = formulation_of(with(kept_, step), assumed_).problem;
      if (!may_be_in(problem, candidate.oil.name)) continue;
      problem.goals.resize(std::min<std::size_t>(problem.goals.size(), 1));
      const optimise::Answer answer = optimise::search(problem, quick.options());
      if (answer.steps.empty()) continue;
      found.emplace_back(answer.goals.empty() ? 0 : answer.goals.front().value, own_->let_in);
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    if (found.size() > kBestFew) found.resize(kBestFew);
    for (const auto& [value, oil] : found) {
      own_->let_in = oil;
      if (attempt(with(kept_, step))) return true;
    }
    own_->let_in.clear();
    return false;
  }

  bool may_be_in(const optimise::Problem& problem, const std::string& name) const {
    for (std::size_t i = 0; i < problem.oils.size(); ++i)
      if (job_.candidates.oils[i].oil.name == name) return problem.oils[i].most > 0;
    return false;
  }

  optimise::Status any(const std::vector<formulate::KeptManner>& kept, double step) const {
    const optimise::Within quick(options_, kWork / 8, kNodes);
    optimise::Problem problem = formulation_of(with(kept, step), assumed_).problem;
    problem.goals.clear();
    return optimise::search(problem, quick.options()).status;
  }

  // In the coarsest steps that leave the wishes a blend, the gravest manners are put in first, each
  // at its strictest level that leaves one still.
  bool give_way() {
    std::vector<double> sizes = {kUsualStep};
    if (steps_ != nullptr) sizes = steps_->manner->levels;
    std::vector<formulate::KeptManner> fixed = kept_;
    std::erase_if(fixed, [](const formulate::KeptManner& one) { return !one.fixed; });
    for (std::size_t size = 0; size < sizes.size(); ++size) {
      if (steps_ != nullptr) steps_->given = size;
      // Weighed, a blend has a superfat of its own: what it misses by that gives way as well.
      for (int round = 0; round < kRounds; ++round) {
        if (any(fixed, sizes[size]) != optimise::Status::optimal) break;
        if (attempt(with(strictest(fixed, sizes[size]), sizes[size]))) return true;
      }
    }
    return false;
  }

  std::vector<formulate::KeptManner> strictest(std::vector<formulate::KeptManner> kept,
                                               double step) {
    for (auto& one : kept_) {
      if (one.fixed || one.manner->kind == Kind::steps) continue;
      for (one.given = 0; !one.dropped(); ++one.given) {
        kept.push_back(one);
        if (any(kept, step) == optimise::Status::optimal) break;
        kept.pop_back();
      }
    }
    return kept;
  }

  // The search with the claims alone says why, since they stay in force whatever else the maker
  // changes; a claim that alone stands in the way is named.
  void nothing_fits() {
    std::vector<formulate::KeptManner> fixed;
    for (const auto& one : kept_)
      if (one.fixed) fixed.push_back(one);
    if (!fixed.empty() && any({}, kUsualStep) == optimise::Status::optimal) {
      for (std::size_t i = 0; i < fixed.size() && out_.claim_in_the_way.empty(); ++i) {
        auto fewer = fixed;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
        if (any(fewer, kUsualStep) == optimise::Status::optimal)
          out_.claim_in_the_way = fixed[i].manner->name;
      }
      if (out_.claim_in_the_way.empty()) out_.claim_in_the_way = fixed.front().manner->name;
    }
    const BlendJob free = fixed.empty() ? job_ : with(fixed, kUsualStep);
    settle(free, find_blend(free, options_));
    if (!out_.result.has_blend()) kept_ = fixed;
    for (auto& one : kept_)
      if (!one.fixed) one.given = one.levels();
    steps_ = nullptr;
  }

  MannerTold told(const formulate::KeptManner& one) const {
    MannerTold out;
    out.manner = one.manner;
    out.rule = formulate::rule_words(one, out_.held);
    out.dropped = one.dropped();
    if (one.given > 0 || !one.let_in.empty()) out.state = MannerTold::State::gave_way;
    return out;
  }

  void tell() {
    for (const auto& one : kept_) out_.manners.push_back(told(one));
    const auto& formulation = out_.result.formulation;
    const auto& answer = out_.result.answer;
    if (answer.status != optimise::Status::optimal || formulation.goals.empty() ||
        formulation.goals.front().tie_breaker || formulation.fewest_oils_at == 0)
      return;
    const optimise::Within quick(options_, kWork, kNodes);
    for (std::size_t m = 0; m < kept_.size(); ++m)
      if (!kept_[m].dropped()) price(m, quick.options());
  }

  // What the first goal comes to without one manner; for round shares, in the usual steps.
  void price(std::size_t m, optimise::SearchOptions quick) {
    const bool steps = kept_[m].manner->kind == Kind::steps;
    if (steps && kept_[m].level() <= kUsualStep) return;
    std::vector<formulate::KeptManner> fewer = kept_;
    if (!steps) fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(m));
    const double step = steps ? kUsualStep : (steps_ != nullptr ? steps_->level() : 0);
    formulate::Formulation formulation = formulation_of(with(fewer, step), out_.result.assumed);
    optimise::Problem& problem = formulation.problem;
    const optimise::Goal goal = problem.goals.front();
    problem.goals.resize(1);
    quick.start = out_.result.answer.steps;
    const int finer = problem.steps / out_.result.formulation.problem.steps;
    for (int& w : quick.start) w *= finer;
    const optimise::Answer found = optimise::search(problem, quick);
    if (found.steps.empty()) return;
    const double now = goal.at(out_.result.formulation.problem.shares(out_.result.answer.steps));
    const double then = found.goals.front().value;
    const double least = std::max({goal.give, goal.tie, 1e-6});
    if (goal.placed(now) - goal.placed(then) <= least) return;
    auto& one = out_.manners[m];
    const auto& shown = out_.result.formulation.goals.front();
    if (one.state == MannerTold::State::kept) one.state = MannerTold::State::bound;
    one.price = shown.shown(then) - shown.shown(now);
    one.unit = shown.unit;
    one.proved = found.status == optimise::Status::optimal;
  }

  const BlendJob& job_;
  const optimise::SearchOptions& options_;
  std::vector<formulate::KeptManner> kept_;
  formulate::KeptManner* steps_ = nullptr;  // into kept_; null: the brief states the steps
  formulate::KeptManner* own_ = nullptr;    // into kept_; null: not in force
  formulate::Assumed assumed_;              // of the last try that found nothing
  Mannerly out_;
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

Mannerly find_mannerly(const BlendJob& job, const optimise::SearchOptions& options) {
  return Finder(job, options).find();
}

}  // namespace barwright::jobs
