#include "solver/formulate/sure_measure.hpp"

#include <algorithm>
#include <cmath>

#include "solver/formulate/blend_forms.hpp"
#include "solver/formulate/sure_comparison.hpp"
#include "solver/optimise/guards.hpp"
#include "targets/model/words.hpp"

namespace barwright::formulate {
namespace {

using targets::PropertyForm;
using targets::Sureness;
using targets::Weights;
using Kind = targets::Subject::Kind;

// What the lots leave of a linear figure: value . x, less the cone over sizes.
struct Left {
  std::vector<double> value;
  std::vector<double> sizes;  // empty: nothing varies beside
};

// Per oil, the least of weights . components.
std::vector<double> least(const Weights& weights, const LotBook& book) {
  std::vector<double> out;
  for (const auto& range : book.ranges)
    out.push_back(targets::weigh(weights, targets::extreme_lot(range, weights, false)));
  return out;
}
std::vector<double> most(const Weights& weights, const LotBook& book) {
  std::vector<double> out = least(times(weights, -1), book);
  for (double& v : out) v = -v;
  return out;
}

double reserve(const targets::LotSpread& spread, double share) {
  return targets::deviations(share) * spread.size;
}

Left left_of(const Weights& weights, const SureGround& ground) {
  if (ground.level == Sureness::worst_case) return {least(weights, ground.book), {}};
  Left out;
  for (const auto& sample : ground.book.samples) {
    const auto spread = sample.spread(weights, ground.level.share, false);
    out.value.push_back(spread.mean);
    out.sizes.push_back(reserve(spread, ground.level.share));
  }
  return out;
}

// Of a figure that each oil has by itself.
Left left_of_figures(const targets::Subject& subject, double sign, const SureGround& ground) {
  const bool worst = ground.level == Sureness::worst_case;
  Left out;
  for (std::size_t i = 0; i < ground.candidates.size(); ++i) {
    const FigureLots lots =
        figure_lots(subject, sign, ground.candidates[i].oil, ground.book.ranges[i],
                    worst ? nullptr : &ground.book.samples[i], ground.level.share);
    out.value.push_back(worst ? lots.least : lots.mean);
    if (!worst) out.sizes.push_back(lots.below);
  }
  return out;
}

optimise::Form form_of(Left left) {
  optimise::Form form;
  form.linear = std::move(left.value);
  if (std::any_of(left.sizes.begin(), left.sizes.end(), [](double s) { return s > 0; }))
    form.guards.push_back({1, optimise::less_reserve({std::move(left.sizes)})});
  return form;
}

// min(a . x + a0, b . x + b0) as b . x + b0 + min((a - b) . x, b0 - a0) + a0 - b0.
optimise::Form lower_of(const std::vector<double>& a, double a0, const std::vector<double>& b,
                        double b0) {
  optimise::Form form;
  form.constant = a0;
  form.linear = b;
  optimise::Kink kink{1, a, b0 - a0};
  for (std::size_t i = 0; i < a.size(); ++i) kink.slope[i] -= b[i];
  form.kinks.push_back(std::move(kink));
  return form;
}

// What the lots leave of sign * inner.
optimise::Form sure_inner(const PropertyForm& property, double sign, const SureGround& ground) {
  const Weights weights = times(property.linear, sign);
  if (property.bends.empty()) {
    optimise::Form form = form_of(left_of(weights, ground));
    form.constant += sign * property.constant;
    return form;
  }
  if (ground.level == Sureness::worst_case && property.bends.size() == 1) {
    const targets::Bend& bend = property.bends.front();
    const Weights helped = plus(weights, times(bend.slope, sign * bend.weight));
    optimise::Form form = lower_of(least(helped, ground.book), 0, least(weights, ground.book),
                                   sign * bend.weight * bend.cap);
    form.constant += sign * property.constant;
    return form;
  }
  optimise::Form form = form_of(left_of(weights, ground));
  form.constant += sign * property.constant;
  for (const targets::Bend& bend : property.bends) {
    const bool low = sign * bend.weight > 0;
    form.kinks.push_back({sign * bend.weight,
                          low ? least(bend.slope, ground.book) : most(bend.slope, ground.book),
                          bend.cap});
  }
  return form;
}

double sign_of(const PropertyForm& property, End end) {
  return (property.rising() ? 1 : -1) * (end == End::floor ? 1 : -1);
}

// A measure whose guarded form does not depend on the level.
explain::Measure shifting(optimise::Form kept, End end) {
  explain::Measure out;
  out.shifts = true;
  out.ends = end == End::floor ? explain::Measure::Ends::floor : explain::Measure::Ends::ceiling;
  const double sign = end == End::floor ? 1 : -1;
  const optimise::Form form = optimise::scaled(std::move(kept), sign);
  out.at = [form](std::span<const double> x) { return form.at(x); };
  out.form = [form](double level) {
    optimise::Form moved = form;
    moved.constant -= level;
    return moved;
  };
  return out;
}

// The level at which a form that falls with its level is 0 at x: bisection.
double level_at(const std::function<optimise::Form(double)>& form, std::span<const double> x,
                double low, double high) {
  for (int round = 0; round < 200 && high - low > 1e-12 * std::max(1.0, std::abs(low)); ++round) {
    const double middle = (low + high) / 2;
    (form(middle).at(x) >= 0 ? low : high) = middle;
  }
  return low;
}

explain::Measure sure_property(const targets::Subject& subject, End end, const SureGround& ground) {
  const PropertyForm property = ground.model.form(subject.property, ground.settings);
  const double sign = sign_of(property, end);
  const optimise::Form kept = sure_inner(property, sign, ground);
  if (property.scale == PropertyForm::Scale::identity) return shifting(kept, end);
  explain::Measure out;
  out.ends = end == End::floor ? explain::Measure::Ends::floor : explain::Measure::Ends::ceiling;
  const double turn = end == End::floor ? 1 : -1;
  out.form = [property, kept, sign, turn](double level) {
    optimise::Form moved = kept;
    moved.constant -= sign * property.inverse(level);
    return optimise::scaled(std::move(moved), turn);
  };
  out.at = [property, kept, sign](std::span<const double> x) {
    return property.outer(sign * kept.at(x));
  };
  return out;
}

Weights acid_weights(const std::vector<core::FattyAcid>& acids, double factor) {
  Weights out{};
  for (const auto acid : acids) out[static_cast<std::size_t>(acid)] += factor;
  return out;
}

explain::Measure sure_ratio(const targets::Subject& subject, End end, const SureGround& ground) {
  explain::Measure out;
  out.ends = end == End::floor ? explain::Measure::Ends::floor : explain::Measure::Ends::ceiling;
  const double sign = end == End::floor ? 1 : -1;
  // The form outlives the call, so it keeps its own lots.
  struct Kept {
    std::vector<Candidate> candidates;
    LotBook book;
  };
  const auto kept = std::make_shared<Kept>(
      Kept{{ground.candidates.begin(), ground.candidates.end()}, ground.book});
  out.form = [kept, sign, subject, model = ground.model, settings = ground.settings,
              level_of = ground.level](double level) {
    const SureGround again{kept->candidates, kept->book, model, settings, level_of};
    const Weights weights =
        plus(acid_weights(subject.acids, sign), acid_weights(subject.over, -sign * level));
    return optimise::scaled(form_of(left_of(weights, again)), sign);
  };
  out.at = [form = out.form, sign](std::span<const double> x) {
    const auto falling = [&](double level) { return optimise::scaled(form(sign * level), sign); };
    constexpr double kMost = 1e6;  // no blend has a ratio beyond
    return sign * level_at(falling, x, sign > 0 ? 0 : -kMost, sign > 0 ? kMost : 0);
  };
  return out;
}

void need_form(const targets::Subject& subject, const targets::Written& written) {
  if (subject.kind != Kind::property || targets::PropertyModel::has_form(subject.property)) return;
  if (subject.property == targets::Property::titre) return;  // measure() refuses it
  written.fail("the soluble share can be kept for typical lots only",
               "add ', typical' to this wish, or wish for thrift instead");
}

optimise::Form kept_of(std::vector<optimise::Reading> ways, double share, std::size_t oils) {
  optimise::Form form;
  form.linear.assign(oils, 0.0);
  form.guards.push_back({1, optimise::least_reading(std::move(ways), share)});
  return form;
}

double share_of(const targets::SureLevel& level) {
  return level == Sureness::worst_case ? kReadingsKept : level.share;
}

}  // namespace

LotBook lot_book(std::span<const Candidate> candidates, bool drawn) {
  LotBook out;
  for (const auto& candidate : candidates) {
    out.ranges.push_back(targets::lot_range(candidate.oil));
    if (drawn) out.samples.emplace_back(candidate.oil, out.ranges.back());
  }
  return out;
}

bool compares_lots(const targets::Subject& subject) {
  return subject.kind != Kind::acid_ratio && subject.kind != Kind::oil_cost;
}

explain::Measure sure_measure(const targets::Subject& subject, const targets::Written& written,
                              End end, const SureGround& ground) {
  need_form(subject, written);
  switch (subject.kind) {
    case Kind::property:
      return sure_property(subject, end, ground);
    case Kind::acid_ratio:
      return sure_ratio(subject, end, ground);
    case Kind::oil_cost:
      throw std::logic_error("a cost does not vary by lot");
    default:
      return shifting(form_of(left_of_figures(subject, end == End::floor ? 1 : -1, ground)), end);
  }
}

explain::Measure sure_difference(const targets::Subject& subject, const targets::Written& written,
                                 End end, const SureGround& ground, const KnownBar& yardstick) {
  if (subject.kind != Kind::property) {
    const double side = end == End::floor ? 1 : -1;
    return shifting(kept_of({compare_figures(subject, side, ground, yardstick)},
                            share_of(ground.level), ground.candidates.size()),
                    end);
  }
  need_form(subject, written);
  const PropertyForm central = ground.model.form(subject.property, ground.settings);
  const double sign = sign_of(central, end);
  const Comparison comparison(subject, sign, ground, yardstick);
  const std::vector<optimise::Reading> lots = comparison.ways(Drawn::lots);
  const std::vector<optimise::Reading> constants = comparison.ways(Drawn::constants);
  const double share = share_of(ground.level);
  const std::size_t oils = ground.candidates.size();
  const double felt = targets::noticeable(subject.property);
  // Adds `shift` of each reading to every way.
  const auto put = [](std::vector<optimise::Reading>& all, std::vector<optimise::Reading> ways,
                      const std::vector<double>& shift) {
    for (optimise::Reading& way : ways) {
      way.shift = shift;
      all.push_back(std::move(way));
    }
  };
  if (central.scale == PropertyForm::Scale::identity) {
    std::vector<optimise::Reading> all = lots;
    put(all, constants, std::vector<double>(ground.model.readings().size(), felt));
    return shifting(kept_of(std::move(all), share, oils), end);
  }
  explain::Measure out;
  out.ends = end == End::floor ? explain::Measure::Ends::floor : explain::Measure::Ends::ceiling;
  const double turn = end == End::floor ? 1 : -1;
  // With u / half = 100 / score - 1, score >= known + level exactly when u / half has moved from
  // the known bar's by no more than 100 / (known + level) - 100 / known.
  const auto room = [sign](double known, double level) {
    return -sign * (100 / std::max(known + level, 0.01) - 100 / std::max(known, 0.01));
  };
  out.form = [=, range = comparison.yardstick_range(),
              read = comparison.yardstick_scores(Drawn::constants)](double level) {
    std::vector<optimise::Reading> all;
    // That room rises or falls with the known score, so one end of its range is the safe one.
    put(all, lots, {std::min(room(range.first, level), room(range.second, level))});
    std::vector<double> shift;
    for (const double known : read) shift.push_back(room(known, level - turn * felt));
    put(all, constants, shift);
    return optimise::scaled(kept_of(std::move(all), share, oils), turn);
  };
  out.at = [form = out.form, turn](std::span<const double> x) {
    const auto falling = [&](double level) { return optimise::scaled(form(turn * level), turn); };
    return turn * level_at(falling, x, -100, 100);
  };
  return out;
}

optimise::Form sure_goal(const targets::Subject& subject, const targets::Written& written,
                         bool most_of, const SureGround& ground, const KnownBar& yardstick) {
  const End end = most_of ? End::floor : End::ceiling;
  if (subject.kind != Kind::property) {
    const explain::Measure one = sure_measure(subject, written, end, ground);
    return optimise::scaled(one.form(0), most_of ? 1 : -1);
  }
  need_form(subject, written);
  const PropertyForm central = ground.model.form(subject.property, ground.settings);
  const double sign = sign_of(central, end);
  return kept_of(Comparison(subject, sign, ground, yardstick).ways(Drawn::both),
                 share_of(ground.level), ground.candidates.size());
}

}  // namespace barwright::formulate
