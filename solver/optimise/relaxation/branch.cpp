#include "solver/optimise/relaxation/branch.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::optimise {

Branching::Branching(int oils) {
  for (auto& kind : records_)
    for (auto& side : kind) side.resize(std::size_t(oils));
}

bool Branching::is_whole(const Region& region, std::span<const double> v) {
  int used = 0;
  for (int i = 0; i < region.oils; ++i) {
    const double w = v[std::size_t(i)];
    if (w <= kWhole) continue;
    ++used;
    if (std::abs(w - std::round(w)) > kWhole || w < region.least[std::size_t(i)] - kWhole)
      return false;
  }
  return used <= region.most_oils;
}

double Branching::expect(const Lesson& lesson) const {
  const Record& own = records_[lesson.rounding][lesson.down][std::size_t(lesson.oil)];
  const Record& all = all_[lesson.rounding][lesson.down];
  const double mean = all.count > 0 ? all.sum / all.count : 1.0;
  // Few observations lean on the mean of all oils.
  return lesson.distance * (own.sum + 2 * mean) / (own.count + 2);
}

Split Branching::choose(const Region& region, const Engine& engine, bool plain) const {
  const auto v = engine.point();
  const double place =
      region.count_row < 0
          ? 0
          : region.count_scale *
                std::abs(
                    engine.multipliers()[std::size_t(region.count_row)]);  // what one more costs
  int used = 0, short_oils = 0;
  for (int i = 0; i < region.oils; ++i) {
    const double w = v[std::size_t(i)];
    if (w <= kWhole) continue;
    ++used;
    if (region.is_free(i) && w < region.least[std::size_t(i)] - kWhole) ++short_oils;
  }
  const bool presence = used > region.most_oils || short_oils > 0;
  Split best;
  double best_score = -1;
  for (int i = 0; i < region.oils; ++i) {
    const std::size_t s = std::size_t(i);
    const double w = v[s];
    if (w <= kWhole || w > region.high[s] || w < region.low[s] || region.is_fixed(i)) continue;
    Lesson down{i, !presence, true, 0}, up{i, !presence, false, 0};
    Change less{i, 0, 0}, more{i, double(region.least[s]), region.high[s]};
    if (presence) {
      if (!region.is_free(i)) continue;
      down.distance = w;
      up.distance = 1 - std::min(1.0, w / region.high[s]);
    } else {
      const double whole = std::floor(w), f = w - whole;
      if (f <= kWhole || f >= 1 - kWhole) continue;
      down.distance = f;
      up.distance = 1 - f;
      // Below its least a free oil is out.
      less.low = region.low[s];
      less.high = region.is_free(i) && whole < region.least[s] ? 0 : whole;
      more.low = std::max(whole + 1, double(region.least[s]));
    }
    double fall = expect(down), rise = expect(up);
    const double stiff = plain ? -1 : engine.stiffness(i);
    if (stiff >= 0) {
      // Down: other oils fill the gap, and how well they can is known here. Up mostly costs later,
      // in places: what was learned says more.
      const double out = w - less.high, in = std::max(0.0, more.low - w);
      double here = stiff * in * in;
      if (region.is_free(i)) here += place * (1 - std::min(1.0, w / region.high[s]));
      fall = std::sqrt(fall * stiff) * out;
      rise = (rise + std::min(here, 4 * rise)) / 2;
    }
    const double score = std::max(fall, 1e-9) * std::max(rise, 1e-9);
    if (score <= best_score) continue;
    best_score = score;
    const bool down_first = presence ? w < region.least[s] / 2.0 : down.distance < 0.5;
    best = Split{};
    best.first = down_first ? less : more;
    best.second = down_first ? more : less;
    best.first_lesson = down_first ? down : up;
    best.second_lesson = down_first ? up : down;
  }
  if (best_score < 0) return any(region, v);
  return best;
}

Split Branching::any(const Region& region, std::span<const double> v) {
  Split split;
  double widest = 0;
  for (int i = 0; i < region.oils; ++i) {
    const std::size_t s = std::size_t(i);
    const double width = region.high[s] - region.low[s];
    if (width <= widest) continue;
    widest = width;
    if (region.is_free(i)) {
      const Change out{i, 0, 0}, in{i, double(region.least[s]), region.high[s]};
      split.first = v[s] > kWhole ? in : out;
      split.second = v[s] > kWhole ? out : in;
      continue;
    }
    const double w = std::clamp(std::round(v[s]), region.low[s], region.high[s]);
    const double cut = w < region.high[s] ? w : w - 1;
    split.first = {i, region.low[s], cut};
    split.second = {i, cut + 1, region.high[s]};
    if (w > cut) std::swap(split.first, split.second);
  }
  return split;
}

void Branching::learn(const Lesson& lesson, double gain) {
  if (lesson.distance <= 1e-9) return;
  const double rate = std::max(0.0, gain) / lesson.distance;
  for (Record* record : {&records_[lesson.rounding][lesson.down][std::size_t(lesson.oil)],
                         &all_[lesson.rounding][lesson.down]}) {
    record->sum += rate;
    ++record->count;
  }
}

}  // namespace barwright::optimise
