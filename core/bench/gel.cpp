#include "core/bench/gel.hpp"

#include <algorithm>
#include <cmath>

namespace barwright::core {

namespace {

constexpr double kStepHours = 1.0 / 120;
constexpr double kRunHours = 48;
constexpr double kRateHours = 4;      // h at 40 C, judgement
constexpr double kDoubling = 10;      // C
constexpr double kBareLoss = 5;       // W/m2K, judgement
constexpr double kCoveredLoss = 1.5;  // W/m2K, judgement
constexpr double kSeed = 0.4;         // rate before any soap has formed, of the full one; judgement
constexpr double kDoubt = 1.3;

double surface_m2(const Poured& poured) {
  if (poured.surface_cm2 > 0) return poured.surface_cm2 * 1e-4;
  return 6 * std::pow(poured.volume_ml * 1e-6, 2.0 / 3);
}

struct Run {
  double peak = 0, peak_hours = 0, ready_hours = 0, at_end = 0;
};

Run run(const Poured& poured, double faster, double leakier, double until) {
  Run out;
  const double rise = saponification_rise(poured.fat_grams, poured.batter_grams);
  const double loss = (poured.covered ? kCoveredLoss : kBareLoss) * leakier * surface_m2(poured) *
                      3600 / (poured.batter_grams * batter_specific_heat().span.typical);  // 1/h
  double celsius = poured.batter_celsius, done = 0;
  out.peak = celsius;
  const int steps = static_cast<int>(std::ceil(until / kStepHours - 1e-9));
  for (int step = 0; step < steps; ++step) {
    const double rate = faster / kRateHours * std::exp2((celsius - 40) / kDoubling) *
                        std::min(1.0, kSeed + 2 * done) * (1 - done);
    const double change = std::min(rate * kStepHours, 1 - done);
    celsius += change * rise - (celsius - poured.room_celsius) * loss * kStepHours;
    done += change;
    const double hours = (step + 1) * kStepHours;
    if (celsius > out.peak) {
      out.peak = celsius;
      out.peak_hours = hours;
    }
    if (celsius > poured.room_celsius + 3) out.ready_hours = hours;
  }
  out.at_end = celsius;
  return out;
}

}  // namespace

const char* word(Gel gel) {
  switch (gel) {
    case Gel::no:
      return "no gel";
    case Gel::maybe:
      return "may gel in the middle";
    case Gel::yes:
      return "gels";
  }
  return "";
}

double gel_celsius(double lye_concentration) {
  const double t = std::clamp((lye_concentration - 0.25) / 0.15, 0.0, 1.0);
  return 60 + 20 * t;
}

GelOutlook gel_outlook(const Poured& poured) {
  GelOutlook out;
  out.gel_celsius = gel_celsius(poured.lye_concentration);
  const Run middle = run(poured, 1, 1, kRunHours);
  out.peak_celsius = middle.peak;
  out.peak_hours = middle.peak_hours;
  out.ready_hours = middle.ready_hours;
  out.peak_low = run(poured, 1 / kDoubt, kDoubt, kRunHours).peak;
  out.peak_high = run(poured, kDoubt, 1 / kDoubt, kRunHours).peak;
  out.gel = out.peak_low >= out.gel_celsius   ? Gel::yes
            : out.peak_high < out.gel_celsius ? Gel::no
                                              : Gel::maybe;
  return out;
}

double poured_celsius(const Poured& poured, double hours) {
  return run(poured, 1, 1, hours).at_end;
}

}  // namespace barwright::core
