#include "solver/optimise/walk.hpp"

#include <algorithm>
#include <cmath>

#include "solver/optimise/relaxation/quadratic.hpp"
#include "solver/optimise/relaxation/simplex.hpp"
#include "solver/optimise/tie.hpp"

namespace barwright::optimise {

Walk::Walk(const Problem& problem, const Relaxation& relaxation, bool plain)
    : relaxation_(relaxation),
      region_(problem, relaxation),
      root_(region_),
      engine_(relaxation.curved() ? make_quadratic(relaxation, region_)
                                  : make_simplex(relaxation, region_)),
      plain_(plain),
      next_(plain ? std::vector<int>(std::size_t(region_.oils), -1) : followers(problem)) {}

// The count row counts an oil that is in by its whole self, so it leaves the row.
bool Walk::set_oil(int oil, double low, double high, bool tell) {
  const std::size_t i = std::size_t(oil);
  const bool was_free = region_.is_free(oil);
  region_.low[i] = low;
  region_.high[i] = high;
  const bool came_in = was_free && low > 0;
  if (came_in) ++region_.in;
  if (came_in && region_.count_row >= 0) {
    const std::size_t r = std::size_t(region_.count_row);
    region_.rows[r][i] = 0;
    region_.row_high[r] -= region_.count_scale;
    if (tell) engine_->left_count(oil);
  }
  if (tell) engine_->column_changed(oil);
  // Without its leader a follower need not be looked at; where it was in already, its bounds cross.
  if (high == 0 && next_[i] >= 0 && region_.high[std::size_t(next_[i])] > 0)
    set_oil(next_[i], region_.is_in(next_[i]) ? region_.low[std::size_t(next_[i])] : 0, 0, tell);
  return came_in;
}

void Walk::leave_out_rest(bool tell) {
  if (region_.in < region_.most_oils) return;
  for (int i = 0; i < region_.oils; ++i)
    if (region_.is_free(i)) set_oil(i, 0, 0, tell);
}

void Walk::apply(const Change& change, bool tell) {
  if (change.bend >= 0) {
    const Bend& bend = relaxation_.bends[std::size_t(change.bend)];
    region_.pieces[std::size_t(change.bend)] = change.piece;
    const std::size_t r = std::size_t(bend.link_row), c = std::size_t(bend.column);
    const double slack = 2 * kTolerance * std::max(1.0, std::abs(bend.cap));
    if (change.piece == Piece::slope) {
      region_.row_high[r] = std::min(region_.row_high[r], -root_.row_low[r]);
      if (tell) engine_->row_changed(int(r));
    } else {
      region_.low[c] = std::max(region_.low[c], std::min(bend.cap - slack, region_.high[c]));
      if (tell) engine_->column_changed(int(c));
    }
    return;
  }
  if (set_oil(change.oil, change.low, change.high, tell)) leave_out_rest(tell);
}

void Walk::enter(const Node& node) {
  region_.low = root_.low;
  region_.high = root_.high;
  region_.in = 0;
  if (region_.count_row >= 0) {
    const std::size_t r = std::size_t(region_.count_row);
    region_.rows[r] = root_.rows[r];
    region_.row_high[r] = root_.row_high[r] + root_.count_scale * root_.in;
  }
  for (int i = 0; i < region_.oils; ++i) {
    const std::size_t s = std::size_t(i);
    region_.low[s] = node.low[s];
    region_.high[s] = node.high[s];
    if (!region_.is_in(i)) continue;
    ++region_.in;
    if (region_.count_row < 0) continue;
    const std::size_t r = std::size_t(region_.count_row);
    region_.rows[r][s] = 0;
    region_.row_high[r] -= region_.count_scale;
  }
  for (const Bend& bend : relaxation_.bends) {
    region_.row_high[std::size_t(bend.link_row)] = root_.row_high[std::size_t(bend.link_row)];
  }
  region_.pieces.assign(region_.pieces.size(), Piece::open);
  for (std::size_t k = 0; k < node.pieces.size(); ++k)
    if (node.pieces[k] != Piece::open) apply({-1, 0, 0, int(k), node.pieces[k]}, false);
  engine_->load(plain_ ? Basis{} : node.basis,
                node.lesson.rounding || node.lesson.down ? -1 : node.lesson.oil);
}

Node Walk::here(double bound, int depth) const {
  Node node;
  node.bound = bound;
  node.depth = depth;
  node.low.reserve(std::size_t(region_.oils));
  node.high.reserve(std::size_t(region_.oils));
  for (int i = 0; i < region_.oils; ++i) {
    node.low.push_back(int(region_.low[std::size_t(i)]));
    node.high.push_back(int(region_.high[std::size_t(i)]));
  }
  node.pieces = region_.pieces;
  node.basis = engine_->basis();
  return node;
}

Node Walk::beside(double bound, int depth, const Change& other) const {
  Node node = here(bound, depth);
  if (other.bend >= 0) {
    node.pieces[std::size_t(other.bend)] = other.piece;
    return node;
  }
  const std::size_t i = std::size_t(other.oil);
  node.low[i] = int(other.low);
  node.high[i] = int(other.high);
  if (other.high == 0)
    for (int f = next_[i]; f >= 0; f = next_[std::size_t(f)]) node.high[std::size_t(f)] = 0;
  int in = 0;
  for (int low : node.low) in += low > 0;
  if (in >= region_.most_oils)
    for (std::size_t k = 0; k < node.low.size(); ++k)
      if (node.low[k] == 0) node.high[k] = 0;
  return node;
}

bool Walk::all_fixed() const {
  for (int i = 0; i < region_.oils; ++i)
    if (!region_.is_fixed(i)) return false;
  return true;
}

bool Walk::outside(std::span<const double> v) const {
  for (std::size_t i = 0; i < std::size_t(region_.oils); ++i)
    if (v[i] < region_.low[i] - kWhole || v[i] > region_.high[i] + kWhole) return true;
  return false;
}

}  // namespace barwright::optimise
