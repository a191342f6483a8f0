#include "core/bench/cure.hpp"

#include <algorithm>
#include <cmath>

#include "core/bench/mould.hpp"

namespace barwright::core {

namespace {
constexpr double kNear = 0.015;    // points of weight, judgement
constexpr double kThickness = 25;  // mm
constexpr int kLeastWeeks = 4;     // common practice, no source
constexpr int kMostWeeks = 26;
}  // namespace

const HeatFigure& drying_days() {
  static const HeatFigure figure{{8.75, 14, 22.4}, "barwright's own judgement", Mark::judgement};
  return figure;
}

double water_share_after(double fresh, double days, double thickness_mm) {
  const double end = std::min(fresh, cured_water().span.typical);
  const double thick = thickness_mm / kThickness;
  // Masses per gram of dry matter: shares do not decay linearly, grams of water do.
  const double start_grams = fresh / (1 - fresh), end_grams = end / (1 - end);
  const double grams =
      end_grams +
      (start_grams - end_grams) * std::exp(-days / (drying_days().span.typical * thick * thick));
  return grams / (1 + grams);
}

int drying_weeks(double fresh, double thickness_mm) {
  const double end = std::min(fresh, cured_water().span.typical);
  for (int weeks = kLeastWeeks; weeks < kMostWeeks; ++weeks) {
    if (water_share_after(fresh, 7 * weeks, thickness_mm) <= end + kNear) return weeks;
  }
  return kMostWeeks;
}

}  // namespace barwright::core
