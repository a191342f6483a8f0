#include "solver/optimise/parts.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/relaxation/relax.hpp"
#include "solver/optimise/tie.hpp"
#include "solver/optimise/tree.hpp"

namespace barwright::optimise {
namespace {

// Steps that pass a part's limits and are not kept, or are worth more than their form says, until
// the part is split: each costs a handful of nodes, a split costs a few problems.
constexpr int kMostMisses = 24;

class Whole : public Part {
 public:
  explicit Whole(const Problem& problem) : problem_(problem) {}
  const Problem& problem() const override { return problem_; }
  bool keeps(std::span<const int>) const override { return true; }
  double worth(std::size_t goal, std::span<const int> steps) const override {
    return problem_.goals[goal].at(problem_.shares(steps));
  }
  bool exact(std::size_t) const override { return true; }
  Parts split() const override { return {}; }
  std::uint64_t work() const override { return 0; }

 private:
  const Problem& problem_;
};

// Whether no blend can be better by more than the goal's tie.
bool closed(const Goal& goal, double value, double bound) {
  const double gap = kGap * std::max(1.0, std::abs(value));
  return value - bound <= gap || goal.moved(value, -goal.tie) - bound <= 1e-9 * gap;
}

bool only_squares(const Goal& goal) {
  return goal.form.kinks.empty() && goal.form.guards.empty() &&
         std::all_of(goal.form.linear.begin(), goal.form.linear.end(),
                     [](double c) { return c == 0; });
}

// A range whose ends are further apart than the checker lets pass at both: no relaxation needed.
bool upside_down(const Problem& problem) {
  return std::any_of(problem.limits.begin(), problem.limits.end(), [](const Limit& limit) {
    return limit.low > limit.high + 2 * kTolerance * limit.form.scale();
  });
}

class PartsSearch {
 public:
  PartsSearch(Parts parts, const PartsAsked& asked, const SearchOptions& options)
      : asked_(asked), options_(options) {
    for (auto& part : parts) add(std::move(part), leaves_.end());
    std::erase_if(leaves_, [](const Leaf& leaf) { return upside_down(*leaf.problem); });
  }

  Answer run();

 private:
  struct Leaf {
    std::shared_ptr<const Part> part;
    std::shared_ptr<const Problem> narrowed;  ///< where fewer oils are asked
    const Problem* problem = nullptr;
  };
  /// What one goal came to, over all parts.
  struct Stage {
    double value = kInfinity, bound = kInfinity;
    bool finished = true;
  };
  using Place = std::vector<Leaf>::iterator;

  void add(std::shared_ptr<const Part> part, Place before);
  const Goal& goal_of(const Leaf& leaf, std::size_t g) const {
    return g < asked_.goals.size() ? leaf.problem->goals[asked_.goals[g]] : any_;
  }
  double worth(const Part& part, std::size_t g, std::span<const int> steps) const {
    return g < asked_.goals.size() ? part.worth(asked_.goals[g], steps) : 0;
  }
  bool within(const Part& part, std::span<const int> steps) const;
  /// Of steps that fit the problem.
  bool keeps(const Leaf& leaf, std::span<const int> steps);
  void start();
  Stage minimise(std::size_t g);
  TreeResult grow(const Leaf& leaf, std::size_t g, double beat, bool can_split, double elsewhere);
  bool out_of_work() const;
  void prefer_earlier_lots();
  std::string why(Status status) const;

  PartsAsked asked_;
  const SearchOptions& options_;
  Goal any_;
  std::vector<Leaf> leaves_;
  std::vector<double> most_;  ///< per goal settled: what it may come to
  Answer answer_;
  std::shared_ptr<const Part> owner_;  ///< of answer_.steps
  bool enough_ = false;
  int misses_ = 0;
};

void PartsSearch::add(std::shared_ptr<const Part> part, Place before) {
  part->problem().validate();
  Leaf leaf{part, {}, &part->problem()};
  if (asked_.most_oils > 0 &&
      (leaf.problem->most_oils == 0 || leaf.problem->most_oils > asked_.most_oils)) {
    auto narrowed = std::make_shared<Problem>(*leaf.problem);
    narrowed->most_oils = asked_.most_oils;
    leaf.problem = narrowed.get();
    leaf.narrowed = std::move(narrowed);
  }
  leaves_.insert(before, std::move(leaf));
}

bool PartsSearch::within(const Part& part, std::span<const int> steps) const {
  for (std::size_t g = 0; g < most_.size(); ++g)
    if (!(worth(part, g, steps) <= most_[g])) return false;
  return true;
}

bool PartsSearch::keeps(const Leaf& leaf, std::span<const int> steps) {
  const std::uint64_t before = leaf.part->work();
  const bool kept = leaf.part->keeps(steps);
  const std::uint64_t judged = leaf.part->work() - before;
  answer_.stats.work += judged;
  if (options_.allowance != nullptr) options_.allowance->spend(judged);
  return kept;
}

void PartsSearch::start() {
  for (const Leaf& leaf : leaves_) {
    if (options_.start.size() != leaf.problem->oils.size() ||
        !fits(*leaf.problem, options_.start) || !keeps(leaf, options_.start))
      continue;
    answer_.steps = options_.start;
    owner_ = leaf.part;
    return;
  }
}

bool PartsSearch::out_of_work() const {
  return (options_.stop != nullptr && options_.stop->load()) ||
         (options_.allowance != nullptr && options_.allowance->used_up()) ||
         (options_.most_nodes > 0 && answer_.stats.nodes >= options_.most_nodes) ||
         (options_.deadline && std::chrono::steady_clock::now() >= *options_.deadline);
}

TreeResult PartsSearch::grow(const Leaf& leaf, std::size_t g, double beat, bool can_split,
                             double elsewhere) {
  const Goal& goal = goal_of(leaf, g);
  std::vector<Ceiling> ceilings;
  for (std::size_t before = 0; before < most_.size(); ++before)
    ceilings.push_back({&goal_of(leaf, before), most_[before]});
  const Relaxation relaxation(*leaf.problem, goal, ceilings, !options_.plain);
  const bool exact = g >= asked_.goals.size() || leaf.part->exact(asked_.goals[g]);
  misses_ = 0;
  enough_ = false;
  const auto miss = [&] {
    if (can_split && ++misses_ >= kMostMisses) enough_ = true;
  };
  TreeTask task;
  task.problem = leaf.problem;
  task.goal = &goal;
  task.relaxation = &relaxation;
  task.options = &options_;
  if (owner_ == leaf.part) task.start = answer_.steps;
  task.beat = beat;
  if (only_squares(goal)) task.floor = goal.form.constant;
  task.enough = &enough_;
  task.goal_number = g < asked_.goals.size() ? asked_.goals[g] : g;
  task.elsewhere = elsewhere;
  task.accept = [&](std::span<const int> steps) {
    if (!fits(*leaf.problem, steps)) return false;
    if (keeps(leaf, steps) && within(*leaf.part, steps)) return true;
    miss();
    return false;
  };
  double best = beat;
  if (!exact)
    task.value = [&](std::span<const int> steps) {
      const double value = worth(*leaf.part, g, steps);
      if (value >= best) miss();
      best = std::min(best, value);
      return value;
    };
  TreeResult result = grow_tree(task, answer_.stats);
  if (result.value < kInfinity)
    result.bound = std::max(result.bound, std::min(task.floor, result.value));
  return result;
}

PartsSearch::Stage PartsSearch::minimise(std::size_t g) {
  Stage stage;
  if (owner_) stage.value = worth(*owner_, g, answer_.steps);
  for (std::size_t p = 0; p < leaves_.size();) {
    const Leaf leaf = leaves_[p];
    // Of parts not looked at yet nothing is known.
    const double elsewhere = p + 1 < leaves_.size() ? -kInfinity : stage.bound;
    TreeResult result = grow(leaf, g, stage.value, true, elsewhere);
    if (!result.steps.empty() && (result.value < stage.value || !owner_)) {
      stage.value = result.value;
      answer_.steps = result.steps;
      owner_ = leaf.part;
    }
    if (!result.finished && enough_ && !out_of_work()) {
      const Parts narrower = leaf.part->split();
      if (narrower.empty()) {
        result = grow(leaf, g, stage.value, false, elsewhere);
        if (!result.steps.empty() && (result.value < stage.value || !owner_)) {
          stage.value = result.value;
          answer_.steps = result.steps;
          owner_ = leaf.part;
        }
      } else {
        leaves_.erase(leaves_.begin() + std::ptrdiff_t(p));
        for (std::size_t k = narrower.size(); k-- > 0;) {
          add(narrower[k], leaves_.begin() + std::ptrdiff_t(p));
          // What is kept stays with the part that keeps it.
          if (owner_ == leaf.part && fits(*leaves_[p].problem, answer_.steps) &&
              keeps(leaves_[p], answer_.steps))
            owner_ = narrower[k];
        }
        continue;
      }
    }
    stage.finished = stage.finished && result.finished;
    stage.bound = std::min(stage.bound, result.bound);
    ++p;
  }
  stage.bound = std::min(stage.bound, stage.value);
  return stage;
}

void PartsSearch::prefer_earlier_lots() {
  const std::size_t last = answer_.goals.size();  // the goal worked on keeps its value, too
  const auto owner = std::find_if(leaves_.begin(), leaves_.end(),
                                  [&](const Leaf& leaf) { return leaf.part == owner_; });
  if (owner == leaves_.end()) return;
  answer_.steps =
      prefer_earlier(*owner->problem, std::move(answer_.steps), [&](std::span<const int> steps) {
        if (!fits(*owner->problem, steps) || !keeps(*owner, steps)) return false;
        for (std::size_t g = 0; g < last; ++g)
          if (worth(*owner_, g, steps) >
              answer_.goals[g].value + 1e-12 * std::abs(answer_.goals[g].value))
            return false;
        return within(*owner_, steps);
      });
}

std::string PartsSearch::why(Status status) const {
  std::string stop = "the time was up";
  if (options_.stop != nullptr && options_.stop->load())
    stop = "stopped by hand";
  else if ((options_.allowance != nullptr && options_.allowance->used_up()) ||
           (options_.most_nodes > 0 && answer_.stats.nodes >= options_.most_nodes))
    stop = "the allowance was used up";
  switch (status) {
    case Status::optimal:
      return "every other blend was proved to be no better";
    case Status::infeasible:
      return "every blend was proved to break a limit";
    case Status::feasible:
      return stop + " before a better blend was excluded";
    case Status::undecided:
      break;
  }
  return stop + " before a blend was found or excluded";
}

Answer PartsSearch::run() {
  if (leaves_.empty()) {
    answer_.status = Status::infeasible;
    answer_.reason = "a floor lies above its own ceiling";
    return answer_;
  }
  any_.form.linear.assign(leaves_.front().problem->oils.size(), 0.0);
  start();
  bool finished = true;
  std::vector<int> first;
  std::vector<std::vector<int>> then;  // the blend each goal ended with
  const std::size_t goals = std::max<std::size_t>(1, asked_.goals.size());
  for (std::size_t g = 0; g < goals; ++g) {
    const Stage stage = minimise(g);
    const Goal goal = goal_of(leaves_.front(), g);
    // Finished trees have closed their gap: see Tree::proof.
    finished = stage.finished && (!owner_ || closed(goal, stage.value, stage.bound));
    if (!owner_) break;
    if (!asked_.goals.empty()) answer_.goals.push_back({stage.value, stage.bound});
    then.push_back(answer_.steps);
    if (!finished) break;
    if (g == 0) first = answer_.steps;
    // With a tie the best may lie lower than the value found: what gives way is counted from there.
    const double least = goal.tie > 0 ? stage.bound : stage.value;
    most_.push_back(std::max(stage.value, goal.moved(least, goal.give)) +
                    kTolerance * std::max(1.0, std::abs(stage.value)));
  }
  if (owner_ && !options_.plain) prefer_earlier_lots();
  answer_.status = owner_ ? (finished ? Status::optimal : Status::feasible)
                          : (finished ? Status::infeasible : Status::undecided);
  answer_.reason = why(answer_.status);
  answer_.cut_short = answer_.status == Status::feasible;
  // Later goals may have used what earlier ones give: the values told are those of the blend told.
  if (owner_) {
    for (std::size_t g = 0; g < answer_.goals.size(); ++g)
      if (then[g] != answer_.steps) answer_.goals[g].value = worth(*owner_, g, answer_.steps);
    if (first != answer_.steps) answer_.best_at_first = std::move(first);
  }
  return answer_;
}

}  // namespace

std::shared_ptr<const Part> whole(const Problem& problem) {
  return std::make_shared<Whole>(problem);
}

Answer search_parts(Parts parts, const PartsAsked& asked, const SearchOptions& options) {
  return PartsSearch(std::move(parts), asked, options).run();
}

Answer search_parts(Parts parts, const SearchOptions& options) {
  PartsAsked asked;
  if (!parts.empty()) {
    asked.goals.resize(parts.front()->problem().goals.size());
    std::iota(asked.goals.begin(), asked.goals.end(), std::size_t(0));
  }
  return search_parts(std::move(parts), asked, options);
}

}  // namespace barwright::optimise
