#include "solver/optimise/relaxation/relax.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::optimise {
namespace {

double dot(std::span<const double> a, std::span<const double> v) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * v[i];
  return sum;
}

bool same_sign(const Form& form, double sign) {
  return std::all_of(form.kinks.begin(), form.kinks.end(),
                     [&](const Kink& kink) { return sign * kink.weight >= 0; });
}

}  // namespace

void box_row(Row& row, std::span<const double> low, std::span<const double> high) {
  double most = 0;
  for (double c : row.a) most = std::max(most, std::abs(c));
  if (most > 0 && most != 1) {
    for (double& c : row.a) c /= most;
    row.low /= most;
    row.high /= most;
  }
  double least = 0, greatest = 0;
  for (std::size_t j = 0; j < row.a.size(); ++j) {
    least += std::min(row.a[j] * low[j], row.a[j] * high[j]);
    greatest += std::max(row.a[j] * low[j], row.a[j] * high[j]);
  }
  const double room = 1e-6 * (1 + std::abs(least) + std::abs(greatest));
  // An empty side stays where it is asked, so that the row is seen to be empty.
  if (row.low < least - room) row.low = std::min(least - room, row.high);
  if (row.high > greatest + room) row.high = std::max(greatest + room, row.low);
}

Relaxation::Relaxation(const Problem& problem, const Goal& goal, std::span<const Ceiling> ceilings,
                       bool lazy_planes)
    : problem_(problem), oils_(int(problem.oils.size())), lazy_planes_(lazy_planes) {
  for (const OilBounds& oil : problem.oils) {
    low.push_back(oil.must ? oil.least : 0);
    high.push_back(std::max(oil.must ? oil.least : 0, std::min(oil.most, problem.steps)));
    if (high.back() < oil.least) high.back() = low.back();
  }
  for (const Limit& limit : problem.limits)
    add_limit(limit.form, limit.low, limit.high, kTolerance * limit.form.scale());
  for (const Ceiling& ceiling : ceilings) {
    if (ceiling.goal->pulls.empty()) {
      add_limit(ceiling.goal->form, -kInfinity, ceiling.most,
                kTolerance * ceiling.goal->form.scale());
      continue;
    }
    Curve curve{};
    curve.guarded = &ceiling.goal->form;
    curve.most = ceiling.most;
    curve.constant = flatten(ceiling.goal->form, curve.linear);
    for (const Pull& pull : ceiling.goal->pulls) {
      Square square{{}, pull.point, pull.weight, 0};
      square.point -= flatten(pull.form, square.g);
      curve.squares.push_back(std::move(square));
    }
    curves_.push_back(std::move(curve));
  }
  constant = flatten(goal.form, cost);
  for (const Pull& pull : goal.pulls) {
    if (pull.weight == 0) continue;
    Square square{{}, pull.point, pull.weight, 0};
    square.point -= flatten(pull.form, square.g);
    squares.push_back(std::move(square));
  }
  if (!goal.form.guards.empty()) add_guarded_goal(goal.form);
  const std::size_t width = low.size();
  cost.resize(width, 0);
  for (Plane& plane : concave_) plane.row.resize(width, 0);
  for (Square& square : squares) {
    square.g.resize(width, 0);
    for (double g : square.g) square.largest = std::max(square.largest, std::abs(g));
  }
  for (Curve& curve : curves_) {
    curve.linear.resize(width, 0);
    for (Square& square : curve.squares) square.g.resize(width, 0);
  }
  Row sum{std::vector<double>(width, 0.0), double(problem.steps), double(problem.steps)};
  std::fill_n(sum.a.begin(), oils_, 1.0);
  rows.insert(rows.begin(), std::move(sum));
  for (Bend& bend : bends) ++bend.link_row;
  for (Row& row : rows) {
    row.a.resize(width, 0);
    box_row(row, low, high);
  }
}

int Relaxation::column_of(const Kink& kink) {
  Bend bend;
  bend.cap = kink.cap;
  for (double c : kink.slope) bend.slope.push_back(c / problem_.steps);
  // Shares add up to 1: slope . x lies between its least and its largest coefficient.
  const auto [lo, hi] = std::minmax_element(kink.slope.begin(), kink.slope.end());
  const double least = *lo, most = *hi;
  bend.column = int(low.size());
  const double slack = kTolerance * std::max(1.0, std::max(std::abs(least), std::abs(most)));
  low.push_back(std::min(least, kink.cap) - slack);
  high.push_back(std::min(most, kink.cap) + slack);
  std::vector<double> link(low.size(), 0.0);
  std::copy(bend.slope.begin(), bend.slope.end(), link.begin());
  link.back() = -1;
  bend.link_row = int(rows.size());
  rows.push_back({link, -slack, std::max(0.0, most - std::min(most, kink.cap)) + slack});
  if (least < kink.cap && most > kink.cap) {  // y above the chord of the minimum over [least, most]
    const double pitch = (kink.cap - least) / (most - least);
    std::vector<double> chord(low.size(), 0.0);
    for (int i = 0; i < oils_; ++i) chord[std::size_t(i)] = -pitch * bend.slope[std::size_t(i)];
    chord.back() = 1;
    rows.push_back({chord, least - pitch * least - 2 * slack, kInfinity});
  }
  bends.push_back(std::move(bend));
  return bends.back().column;
}

double Relaxation::flatten(const Form& form, std::vector<double>& a) {
  a.assign(std::size_t(oils_), 0.0);
  for (int i = 0; i < oils_; ++i) a[std::size_t(i)] = form.linear[std::size_t(i)] / problem_.steps;
  for (const Kink& kink : form.kinks) {
    if (kink.weight == 0) continue;
    const int column = column_of(kink);
    a.resize(std::size_t(column) + 1, 0.0);
    a[std::size_t(column)] += kink.weight;
  }
  return form.constant;
}

void Relaxation::add_row(std::vector<double> a, double row_low, double row_high) {
  rows.push_back({std::move(a), row_low, row_high});
}

void Relaxation::add_limit(const Form& form, double limit_low, double limit_high, double slack) {
  if (limit_low == -kInfinity && limit_high == kInfinity) return;
  const double from = limit_low - slack, to = limit_high + slack;
  if (form.is_linear()) {
    std::vector<double> a;
    const double shift = flatten(form, a);
    add_row(std::move(a), from - shift, to - shift);
    return;
  }
  const bool lazy_floor = lazy_planes_ && same_sign(form, 1);
  const bool lazy_ceiling = lazy_planes_ && same_sign(form, -1);
  const bool guarded = !form.guards.empty();
  if (from > -kInfinity && (lazy_floor || guarded)) add_plane(form, 1, from, lazy_floor);
  if (to < kInfinity && (lazy_ceiling || guarded)) add_plane(form, -1, -to, lazy_ceiling);
  const double row_low = lazy_floor || guarded ? -kInfinity : from;
  const double row_high = lazy_ceiling || guarded ? kInfinity : to;
  if (row_low == -kInfinity && row_high == kInfinity) return;
  std::vector<double> a;
  const double shift = flatten(form, a);
  add_row(std::move(a), row_low - shift, row_high - shift);
}

void Relaxation::add_plane(const Form& form, double sign, double floor, bool lazy_kinks) {
  Plane plane{{}, floor, sign, lazy_kinks ? &form : nullptr, &form};
  if (lazy_kinks) {
    plane.floor -= sign * form.constant;
    for (double c : form.linear) plane.row.push_back(sign * c / problem_.steps);
  } else {
    plane.floor -= sign * flatten(form, plane.row);
    for (double& c : plane.row) c *= sign;
  }
  concave_.push_back(std::move(plane));
}

void Relaxation::add_guarded_goal(const Form& form) {
  const std::size_t n = std::size_t(oils_);
  // A plane above each concave part gives the least, the corners of the simplex the most of the
  // convex sum that is minimised.
  std::vector<double> x(n, 1.0 / double(n)), slope(n), under(n, 0.0);
  double under_constant = 0;
  for (const Guard& guard : form.guards) {
    under_constant += guard.weight * guard.part->plane(x, slope);
    for (std::size_t i = 0; i < n; ++i) under[i] += guard.weight * slope[i];
  }
  const double least = under_constant + *std::min_element(under.begin(), under.end());
  double most = least;
  for (std::size_t i = 0; i < n; ++i) {
    std::fill(x.begin(), x.end(), 0.0);
    x[i] = 1;
    double at = 0;
    for (const Guard& guard : form.guards) at += guard.weight * guard.part->at(x);
    most = std::max(most, at);
  }
  const double room = 1e-6 * (1 + std::abs(least) + std::abs(most));
  const std::size_t column = low.size();
  low.push_back(least - room);
  high.push_back(most + room);
  cost.resize(column + 1, 0.0);
  cost[column] = 1;
  Plane plane{std::vector<double>(column + 1, 0.0), 0, -1, nullptr, &form};
  plane.row[column] = 1;
  concave_.push_back(std::move(plane));
}

double Relaxation::value(std::span<const double> v) const {
  double sum = constant + dot(cost, v);
  for (const Square& square : squares) {
    const double miss = dot(square.g, v) - square.point;
    sum += square.weight * miss * miss;
  }
  return sum;
}

std::vector<Row> Relaxation::violated_planes(std::span<const double> v, double tolerance,
                                             double guard_tolerance) const {
  std::vector<Row> out;
  const std::size_t width = low.size();
  const auto offer = [&](Row row, double slack) {
    box_row(row, low, high);
    const double at = dot(row.a, v);
    if (at < row.low - slack || at > row.high + slack) out.push_back(std::move(row));
  };
  const double per_step = 1.0 / problem_.steps;
  const auto oils = v.first(std::size_t(oils_));
  std::vector<double> x, slopes(oils.size());
  // Adds the planes that touch sign * (a form's guards) at v to a; returns their constant.
  const auto touch = [&](const Form& form, double sign, std::vector<double>& a) {
    double at_none = 0;
    for (const Guard& guard : form.guards) {
      if (x.empty())
        for (double w : oils) x.push_back(std::max(0.0, w) * per_step);
      const double weight = sign * guard.weight;
      at_none += weight * guard.part->plane(x, slopes);
      for (std::size_t i = 0; i < slopes.size(); ++i) a[i] += weight * slopes[i] * per_step;
    }
    return at_none;
  };
  for (const Plane& plane : concave_) {
    Row row{plane.row, plane.floor, kInfinity};
    if (plane.kinked != nullptr) {
      for (const Kink& kink : plane.kinked->kinks) {
        const double weight = plane.sign * kink.weight;
        if (dot(kink.slope, oils) * per_step < kink.cap) {
          for (int i = 0; i < oils_; ++i)
            row.a[std::size_t(i)] += weight * kink.slope[std::size_t(i)] * per_step;
        } else {
          row.low -= weight * kink.cap;
        }
      }
    }
    row.low -= touch(*plane.guarded, plane.sign, row.a);
    offer(std::move(row), plane.guarded->guards.empty() ? tolerance : guard_tolerance);
  }
  for (const Curve& curve : curves_) {
    Row row{curve.linear, -kInfinity, curve.most - curve.constant};
    for (const Square& square : curve.squares) {
      // w (t - p)^2 >= w (t0 - p)^2 + 2 w (t0 - p)(t - t0)
      const double t0 = dot(square.g, v), miss = t0 - square.point;
      const double slope = 2 * square.weight * miss;
      for (std::size_t j = 0; j < width; ++j) row.a[j] += slope * square.g[j];
      row.high -= square.weight * miss * miss - slope * t0;
    }
    row.high -= touch(*curve.guarded, 1, row.a);
    offer(std::move(row), tolerance);
  }
  return out;
}

std::uint64_t Relaxation::planes_work() const {
  std::uint64_t all = 0;
  const auto touched = [&](const Form& form) {
    for (const Guard& guard : form.guards) all += 2 * guard.part->work() + low.size();
  };
  for (const Plane& plane : concave_) {
    all += low.size() * (4 + (plane.kinked != nullptr ? 2 * plane.kinked->kinks.size() : 0));
    touched(*plane.guarded);
  }
  for (const Curve& curve : curves_) {
    all += low.size() * (4 + 2 * curve.squares.size());
    touched(*curve.guarded);
  }
  return all;
}

int Relaxation::loosest_bend(std::span<const double> v, std::span<const Piece> pieces,
                             double tolerance) const {
  int worst = -1;
  double most = tolerance;
  for (std::size_t k = 0; k < bends.size(); ++k) {
    if (pieces[k] != Piece::open) continue;
    const Bend& bend = bends[k];
    const double kinked = std::min(dot(bend.slope, v.first(std::size_t(oils_))), bend.cap);
    const double off = std::abs(v[std::size_t(bend.column)] - kinked);
    if (off > most) {
      most = off;
      worst = int(k);
    }
  }
  return worst;
}

}  // namespace barwright::optimise
