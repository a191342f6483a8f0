#include "solver/optimise/tree.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/optimise/checker.hpp"
#include "solver/optimise/open_nodes.hpp"
#include "solver/optimise/polish.hpp"
#include "solver/optimise/relaxation/bound.hpp"
#include "solver/optimise/tie.hpp"
#include "solver/optimise/walk.hpp"

namespace barwright::optimise {
namespace {

constexpr int kPolishes = 4;
constexpr std::uint64_t kPolishWork = 200;  // a polish, in blends judged
// How many steps a part may lie beyond a guard before it is cut: first finely, so that a near miss
// is seen to be one, then coarsely, so that the rows stay few.
constexpr std::size_t kFineCuts = 200;
constexpr double kFineCut = 0.01, kCoarseCut = 0.5;

class Tree {
 public:
  Tree(const TreeTask& task, SearchStats& stats)
      : task_(task),
        stats_(stats),
        relaxation_(*task.relaxation),
        plain_(task.options->plain),
        walk_(*task.problem, relaxation_, plain_),
        region_(walk_.region()),
        root_(walk_.root()),
        engine_(&walk_.engine()),
        branching_(region_.oils),
        // What a blend is worth may lie off the goal's own grid.
        granule_(plain_ || task.value ? 0 : granule(*task.problem, *task.goal)) {
    judged_ = work_of_checking(*task.problem);
    looked_at_ = relaxation_.planes_work();
    goal_.constant = relaxation_.constant;
    goal_.constant_size = std::abs(relaxation_.constant);
    goal_.cost = relaxation_.cost;
    for (double c : goal_.cost) goal_.cost_size = std::max(goal_.cost_size, std::abs(c));
  }

  TreeResult run();

 private:
  enum class Verdict { closed, split };

  bool stopped();
  Outcome solve(double cutoff);
  /// Charges what the engine has done since it was asked last, and so much besides.
  void spend(std::uint64_t more);
  double cutoff() const { return std::min(proof(), result_.value - 0.999 * granule_); }
  /// What the whole tree proves once nothing below the cutoff is left.
  double proof() const {
    return result_.value == kInfinity
               ? kInfinity
               : std::min(task_.goal->moved(result_.value, -0.999 * task_.goal->tie),
                          result_.value - 0.5 * kGap * std::max(1.0, std::abs(result_.value)));
  }
  void close(double bound) { proved_ = std::min(proved_, bound); }
  double worth(std::span<const int> steps) const {
    return task_.value ? task_.value(steps) : task_.goal->at(task_.problem->shares(steps));
  }
  void enter(const Node& node);
  Verdict look(Split& split);
  void judge_bound();
  bool fix_by_reduced_cost();
  bool offer(std::span<const double> v);
  void polish_best();
  void narrow_root();
  bool probe(int oil, double low, bool on, double& room, double& slope);
  bool due() const;

  const TreeTask& task_;
  SearchStats& stats_;
  const Relaxation& relaxation_;
  bool plain_;
  Walk walk_;
  Region &region_, &root_;  ///< of the walk
  Engine* engine_;
  Branching branching_;
  double granule_;  ///< no value lies nearer below another than this
  LinearGoal goal_;
  Bound bound_, scratch_;
  double node_bound_ = -kInfinity;
  Lesson lesson_;  ///< what the current part was split by
  TreeResult result_;
  double proved_ = kInfinity;
  int depth_ = 0;
  Node root_node_;
  bool narrowed_ = false;           ///< the root, with a best value in hand
  std::uint64_t nodes_before_ = 0;  ///< those of the trees before this one
  unsigned looks_ = 0;
  int polishes_ = 0;
  std::size_t guards_cut_ = 0;
  std::uint64_t counted_ = 0;    ///< of the engine's work, charged already
  std::uint64_t looked_at_ = 0;  ///< work of following planes at one point
  std::uint64_t judged_ = 0;     ///< work of the checker on one blend
  bool stop_ = false;
};

bool Tree::stopped() {
  if (stop_ || (task_.enough != nullptr && *task_.enough)) return true;
  const SearchOptions& options = *task_.options;
  if (options.stop && options.stop->load(std::memory_order_relaxed)) stop_ = true;
  if (options.most_nodes > 0 && stats_.nodes >= options.most_nodes) stop_ = true;
  if (options.allowance != nullptr && options.allowance->used_up()) stop_ = true;
  if (options.deadline && (looks_++ & 15) == 0 &&
      std::chrono::steady_clock::now() >= *options.deadline)
    stop_ = true;
  return stop_;
}

void Tree::spend(std::uint64_t more) {
  const std::uint64_t done = engine_->work();
  stats_.work += done - counted_ + more;
  if (task_.options->allowance != nullptr) task_.options->allowance->spend(done - counted_ + more);
  counted_ = done;
}

Outcome Tree::solve(double cutoff) {
  const Outcome outcome = engine_->solve(cutoff);
  // The bound, the choice of a split and what is put aside go through rows and columns once each.
  spend(std::uint64_t(region_.columns) * (region_.rows.size() + 16));
  return outcome;
}

void Tree::enter(const Node& node) {
  walk_.enter(node);
  depth_ = node.depth;
  node_bound_ = node.bound;
  lesson_ = node.lesson;
}

// Early blends are far from the best of their own set of oils.
void Tree::polish_best() {
  ++polishes_;
  spend(kPolishWork * judged_);
  const auto start = task_.problem->shares(result_.steps);
  std::vector<int> oils;
  for (std::size_t i = 0; i < start.size(); ++i)
    if (start[i] > 0) oils.push_back(int(i));
  const auto shares = polish(*task_.problem, *task_.goal, oils, start);
  if (shares) ++stats_.polished;
  auto steps = to_steps(*task_.problem, *task_.goal, shares ? *shares : start, task_.accept);
  if (steps.empty()) return;
  const double value = worth(steps);
  if (value >= result_.value) return;
  result_.value = value;
  result_.steps = std::move(steps);
}

// Rounds v and lets the checker judge. True: it fits.
bool Tree::offer(std::span<const double> v) {
  std::vector<int> steps(std::size_t(region_.oils));
  for (std::size_t i = 0; i < steps.size(); ++i) steps[i] = int(std::lround(v[i]));
  spend(judged_);
  if (!task_.accept(steps)) return false;
  const double value = worth(steps);
  if (value < result_.value) {
    result_.value = value;
    result_.steps = std::move(steps);
    if (relaxation_.curved() && !plain_ && polishes_ < kPolishes) polish_best();
  }
  return true;
}

void Tree::judge_bound() {
  if (relaxation_.curved()) tangent(relaxation_, engine_->point(), goal_);
  bound_linear(region_, goal_, engine_->multipliers(), bound_);
}

// An oil that must cost `cutoff` or more per step beyond where it rests cannot go there.
bool Tree::fix_by_reduced_cost() {
  const double room = cutoff() - bound_.value;
  if (!(room < kInfinity) || !(room > 0)) return false;
  bool any = false;
  for (int i = 0; i < region_.oils; ++i) {
    const std::size_t s = std::size_t(i);
    const double width = region_.high[s] - region_.low[s];
    if (width <= 0) continue;
    const double d = std::abs(bound_.reduced[s]) - bound_.doubt;
    if (!(d > 0) || !(room < d * width)) continue;
    // Here room / d < width, which fits an int.
    const double reach = std::floor(room / d * (1 + 1e-12) + 1e-9);
    if (reach >= width) continue;
    if (bound_.reduced[s] > 0) {
      double high = region_.low[s] + reach;
      if (region_.is_free(i) && high < region_.least[s]) high = 0;
      walk_.set_oil(i, region_.low[s], high, true);
    } else {
      const double low = std::max(region_.high[s] - reach, double(region_.least[s]));
      if (low > region_.high[s] || low <= region_.low[s]) continue;
      if (walk_.set_oil(i, low, region_.high[s], true)) walk_.leave_out_rest(true);
    }
    any = true;
  }
  return any;
}

// Solves the region's relaxation. closed: nothing better in it. split: how to go on.
Tree::Verdict Tree::look(Split& split) {
  for (int round = 0;; ++round) {
    ++stats_.nodes;
    if (region_.in > region_.most_oils || region_.is_void()) return Verdict::closed;
    if (walk_.all_fixed()) {
      std::span<const double> v(region_.low.data(), std::size_t(region_.oils));
      offer(v);
      return Verdict::closed;
    }
    const Outcome outcome = solve(plain_ ? kInfinity : cutoff());
    if (outcome == Outcome::empty) {
      if (proves_empty(region_, engine_->multipliers(), scratch_)) return Verdict::closed;
      split = Branching::any(region_, region_.low);
      return Verdict::split;
    }
    judge_bound();
    if (round == 0 && lesson_.oil >= 0 && std::isfinite(node_bound_))
      branching_.learn(lesson_, bound_.value - node_bound_);
    node_bound_ = std::max(node_bound_, bound_.value);
    if (node_bound_ >= cutoff()) {
      close(node_bound_);
      return Verdict::closed;
    }
    if (outcome != Outcome::solved) {
      split =
          Branching::any(region_, outcome == Outcome::cut_off ? std::span<const double>(region_.low)
                                                              : engine_->point());
      return Verdict::split;
    }
    const auto v = engine_->point();
    const bool whole = Branching::is_whole(region_, v);
    if (whole && offer(v) && node_bound_ >= cutoff()) {
      close(node_bound_);
      return Verdict::closed;
    }
    if (round < 30 && (!plain_ || whole)) {
      spend(looked_at_);
      const auto planes = relaxation_.violated_planes(v, whole ? 1e-9 : 1e-6,
                                                      whole                     ? 1e-9
                                                      : guards_cut_ < kFineCuts ? kFineCut
                                                                                : kCoarseCut);
      if (!planes.empty()) {
        for (const Row& plane : planes) {
          region_.rows.push_back(plane.a);
          region_.row_low.push_back(plane.low);
          region_.row_high.push_back(plane.high);
          root_.rows.push_back(plane.a);
          root_.row_low.push_back(plane.low);
          root_.row_high.push_back(plane.high);
        }
        stats_.cuts += planes.size();
        guards_cut_ += planes.size();
        engine_->rows_added();
        continue;
      }
    }
    // A fixing that leaves the point outside has made the relaxation tighter: solve it again.
    if (!plain_ && fix_by_reduced_cost() && (walk_.all_fixed() || walk_.outside(v))) continue;
    // Bends before oils: a side of a bend is a straight limit in every part below, an oil only in
    // its own. The plain mode waits for a whole point.
    const int bend = whole || !plain_ ? relaxation_.loosest_bend(v, region_.pieces, 1e-9) : -1;
    if (bend >= 0) {
      split = Split{};
      split.first = {-1, 0, 0, bend, Piece::slope};
      split.second = {-1, 0, 0, bend, Piece::cap};
      return Verdict::split;
    }
    split = whole ? Branching::any(region_, v) : branching_.choose(region_, *engine_, plain_);
    return Verdict::split;
  }
}

// Whether the root should be narrowed now: once, when the blend found first is near the best (one
// to start from is so earlier). Narrowing again for every better blend threw away more work than it
// saved.
bool Tree::due() const {
  if (!relaxation_.curved() || plain_ || result_.value == kInfinity) return false;
  return !narrowed_ && stats_.nodes - nodes_before_ > (task_.start.empty() ? 600u : 150u);
}

// Bounds the root with this oil in, at `low` steps or more. False: nothing better there.
// `on`: from the probe before, of the same oil at fewer steps.
bool Tree::probe(int oil, double low, bool on, double& room, double& slope) {
  if (!on) enter(root_node_);
  walk_.apply({oil, low, root_.high[std::size_t(oil)], -1, Piece::open}, true);
  ++stats_.nodes;
  const Outcome outcome = solve(cutoff());
  room = 0;
  slope = 0;
  if (outcome == Outcome::empty) return !proves_empty(region_, engine_->multipliers(), scratch_);
  judge_bound();
  room = cutoff() - bound_.value;
  slope = bound_.reduced[std::size_t(oil)] - bound_.doubt;
  return room > 0;
}

// With a best value in hand, how much of each oil could a better blend hold? Less makes the count
// row stronger: w / most is then nearer to 1 for an oil that is in.
void Tree::narrow_root() {
  narrowed_ = true;
  for (int pass = 0; pass < 2; ++pass) {
    double cut = 0;
    enter(root_node_);
    solve(kInfinity);
    root_node_.basis = engine_->basis();
    for (int i = 0; i < region_.oils; ++i) {
      const std::size_t s = std::size_t(i);
      if (!root_.is_free(i)) continue;
      double room = 0, slope = 0;
      const double least = root_.least[s], before = root_.high[s];
      if (!probe(i, least, false, room, slope)) {
        root_node_.high[s] = 0;
        root_.high[s] = 0;
        ++cut;
        continue;
      }
      // From above: beyond the minorant's crossing of the cutoff nothing is better.
      double high = before;
      for (int tries = 0; tries < 4 && high > least; ++tries) {
        if (probe(i, high, tries == 0, room, slope)) break;
        double next = high - 1;
        if (slope > 0 && -room / slope > 1)
          next = std::max(least, high - std::floor(-room / slope));
        high = next;
      }
      root_node_.high[s] = int(high);
      root_.high[s] = high;
      cut += 1 - high / before;
    }
    root_.write_count_row();
    if (cut < 1) break;
  }
}

TreeResult Tree::run() {
  nodes_before_ = stats_.nodes;
  if (!task_.start.empty()) {
    result_.steps = task_.start;
    result_.value = worth(task_.start);
  }
  result_.value = std::min(result_.value, task_.beat);
  OpenNodes open(sizeof(Node) + 8 * std::size_t(region_.oils) + 2 * region_.rows.size() + 160);
  walk_.leave_out_rest(false);
  root_ = region_;
  engine_->load({}, -1);
  root_node_ = walk_.here(-kInfinity, 0);
  bool working = true;
  for (;;) {
    if (!working) {
      const auto next = open.take();
      if (next == nullptr) break;
      if (next->bound >= cutoff()) {
        close(next->bound);
        continue;
      }
      enter(*next);
    }
    working = false;
    if (Watch* watch = task_.options->watch; watch != nullptr && watch->due())
      watch->seen(task_.goal_number, result_.value,
                  std::min({proved_, node_bound_, open.least_bound(), task_.elsewhere}));
    // Nothing at all lies below the cutoff: what is left need not be looked at.
    if (cutoff() <= task_.floor) break;
    if (stopped()) {
      if (stats_.nodes == nodes_before_ && !result_.steps.empty()) {
        // Stopped before the first part: a bound goes with the blend all the same.
        if (solve(kInfinity) != Outcome::empty) judge_bound();
        node_bound_ = std::max(node_bound_, bound_.value);
      }
      close(node_bound_);
      close(open.least_bound());
      result_.bound = std::min(proved_, result_.value);
      return result_;
    }
    if (due()) {
      narrow_root();
      open.clear();
      enter(root_node_);
    }
    Split split;
    if (look(split) == Verdict::closed) continue;
    // Put the second side aside, go on with the first.
    Node second = walk_.beside(node_bound_, depth_ + 1, split.second);
    second.lesson = split.second_lesson;
    open.put(std::move(second));
    lesson_ = split.first_lesson;
    ++depth_;
    walk_.apply(split.first, true);
    if (plain_) engine_->load({}, -1);
    working = true;
  }
  // Whatever was closed or fixed was so at a cutoff no lower than the last one.
  result_.finished = true;
  result_.bound = proof();
  return result_;
}

}  // namespace

TreeResult grow_tree(const TreeTask& task, SearchStats& stats) { return Tree(task, stats).run(); }

}  // namespace barwright::optimise
