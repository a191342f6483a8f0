#include "solver/jobs/mannerly.hpp"

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"
#include "solver/formulate/goal_search.hpp"
#include "solver/formulate/manners_in_force.hpp"
#include "solver/jobs/manners_told.hpp"
#include "solver/optimise/checker.hpp"
#include "solver/optimise/within.hpp"

namespace barwright::jobs {
namespace {

using Kind = targets::Manner::Kind;

// Work for one oil from outside.
constexpr std::uint64_t kWork = 10'000'000;
// The finest steps manners give way in, and those a coarser step is priced against, %.
constexpr double kUsualStep = 1;
// A try takes four fifths of the work left at most, so that one that lasts leaves some to the next.
constexpr std::uint64_t kParts = 5;
constexpr int kRounds = 3;
// Of oils from outside, one at a time, so many are weighed out at least.
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

  Mannerly find(bool tell) {
    if (kept_.empty()) {
      settle(job_, find_blend(job_, options_));
    } else if (!try_steps() && !try_other_oils() && !give_way()) {
      nothing_fits();
    }
    if (out_.result.has_blend()) {
      for (const auto& one : kept_)
        out_.given += static_cast<int>(one.given) + (one.let_in.empty() ? 0 : 1);
      if (tell)
        tell_manners(job_, kept_, steps_ != nullptr ? steps_->level() : 0, own_tried_, options_,
                     out_);
      out_.hours_to_cut = targets::hours_to_cut(job_.model.value(
          targets::Property::cut_firmness, out_.result.composition, out_.result.settings));
    }
    return std::move(out_);
  }

 private:
  BlendJob with(const std::vector<formulate::KeptManner>& kept, double step) const {
    return with_manners(job_, out_.held, kept, steps_ != nullptr ? step : 0);
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
    return in_steps([&](double step) { return attempt(with(kept_, step)); });
  }

  // One oil from outside is milder than any other manner given way, but for the steps; then comes
  // that what nobody wished for moves by one noticeable step more, and only then several oils.
  bool try_other_oils() {
    if (own_ == nullptr) return false;
    const auto one_more = [&] { return in_steps([&](double step) { return try_one_more(step); }); };
    if (one_more()) return true;
    own_->let_in.clear();
    const auto strict = kept_;
    for (auto& one : kept_)
      if (one.manner->kind == Kind::rest) one.given = std::min<std::size_t>(1, one.levels());
    if (try_steps() || one_more()) return taken_back();
    std::copy(strict.begin(), strict.end(), kept_.begin());  // steps_ and own_ point into it
    own_->let_in.clear();
    own_->given = own_->levels();
    return try_steps();
  }

  // In the coarsest steps in which it succeeds.
  template <typename Try>
  bool in_steps(Try&& succeeds) {
    if (steps_ == nullptr) return succeeds(0.0);
    for (steps_->given = 0; !steps_->dropped(); ++steps_->given)
      if (succeeds(steps_->level())) return true;
    return false;
  }

  // What need not have moved stays where it was, the gravest first.
  bool taken_back() {
    const auto moved = kept_;
    const double step = steps_ != nullptr ? steps_->level() : kUsualStep;
    assumed_ = out_.result.assumed;
    for (auto& one : kept_) {
      if (one.manner->kind != Kind::rest || one.given == 0) continue;
      one.given = 0;
      if (any(kept_, step) != optimise::Status::optimal) one.given = 1;
    }
    if (attempt(with(kept_, step))) return true;
    std::copy(moved.begin(), moved.end(), kept_.begin());
    return attempt(with(kept_, step));
  }

  // What the first goal comes to, less is better; of a result as weighed.
  static double worth(const optimise::Problem& problem, std::span<const int> steps) {
    if (problem.goals.empty()) return 0;
    const optimise::Goal& goal = problem.goals.front();
    return goal.placed(goal.at(problem.shares(steps)));
  }

  // With the one oil from outside that serves the first goal best: each is tried at the settings
  // assumed, and weighed out unless even so far as weighing has moved any it is no better.
  bool try_one_more(double step) {
    std::vector<std::pair<double, std::string>> found;
    own_tried_ = 0;
    for (const formulate::Candidate& candidate : job_.candidates.oils) {
      own_->let_in = candidate.oil.name;
      const optimise::Within quick(options_, kWork);
      optimise::Problem problem = formulation_of(with(kept_, step), assumed_).problem;
      if (!may_be_in(problem, candidate.oil.name)) continue;
      ++own_tried_;
      problem.goals.resize(std::min<std::size_t>(problem.goals.size(), 1));
      const optimise::Answer answer = optimise::search(problem, quick.options());
      if (answer.steps.empty()) continue;
      found.emplace_back(worth(problem, answer.steps), own_->let_in);
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::optional<Mannerly> best;
    std::string best_oil;
    double best_worth = 0, moved = 0;
    for (std::size_t i = 0; i < found.size(); ++i) {
      if (best && i >= kBestFew && found[i].first - moved >= best_worth) break;
      own_->let_in = found[i].second;
      if (!attempt(with(kept_, step))) continue;
      const double weighed = worth(out_.result.formulation.problem, out_.result.answer.steps);
      moved = std::max(moved, std::abs(weighed - found[i].first));
      if (best && weighed >= best_worth) continue;
      best_worth = weighed;
      best_oil = own_->let_in;
      best = out_;
    }
    own_->let_in = best_oil;
    if (best) out_ = std::move(*best);
    return best.has_value();
  }

  bool may_be_in(const optimise::Problem& problem, const std::string& name) const {
    for (std::size_t i = 0; i < problem.oils.size(); ++i)
      if (job_.candidates.oils[i].oil.name == name) return problem.oils[i].most > 0;
    return false;
  }

  optimise::Status any(const std::vector<formulate::KeptManner>& kept, double step) const {
    return any_blend(with(kept, step), assumed_, options_);
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
    if (!out_.result.has_blend())
      kept_ = fixed;
    else
      keep_what_is_kept();
    steps_ = nullptr;
  }

  // Each manner at the strictest level that a blend found without them keeps.
  void keep_what_is_kept() {
    const optimise::Problem& found = out_.result.formulation.problem;
    const std::vector<double> shares = found.shares(out_.result.answer.steps);
    for (auto& one : kept_) {
      if (one.fixed) continue;
      for (one.given = 0; !one.dropped(); ++one.given) {
        if (one.manner->kind == Kind::steps) {
          const double whole = 100 / one.level();
          if (std::all_of(shares.begin(), shares.end(), [&](double share) {
                return std::abs(share * whole - std::round(share * whole)) < 1e-9;
              }))
            break;
          continue;
        }
        const BlendJob with_it = with({one}, 100.0 / found.steps);
        if (optimise::check_shares(formulation_of(with_it, out_.result.assumed).problem, shares)
                .empty())
          break;
      }
    }
  }

  const BlendJob& job_;
  const optimise::SearchOptions& options_;
  std::vector<formulate::KeptManner> kept_;
  formulate::KeptManner* steps_ = nullptr;  // into kept_; null: the brief states the steps
  formulate::KeptManner* own_ = nullptr;    // into kept_; null: not in force
  int own_tried_ = 0;                       // oils from outside, one at a time
  formulate::Assumed assumed_;              // of the last try that found nothing
  Mannerly out_;
};

}  // namespace

Mannerly find_mannerly(const BlendJob& job, const optimise::SearchOptions& options, bool tell) {
  return Finder(job, options).find(tell);
}

}  // namespace barwright::jobs
