#include "solver/sure_measure.hpp"

#include <algorithm>
#include <cmath>

#include "solver/blend_forms.hpp"
#include "solver/guards.hpp"
#include "targets/words.hpp"

namespace barwright::solver {
namespace {

using targets::PropertyForm;
using targets::Sureness;
using targets::Weights;
using Kind = targets::Subject::Kind;

Weights times(const Weights& weights, double factor) {
  Weights out = weights;
  for (double& w : out) w *= factor;
  return out;
}
Weights plus(const Weights& a, const Weights& b) {
  Weights out = a;
  for (std::size_t k = 0; k < out.size(); ++k) out[k] += b[k];
  return out;
}

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
Left left_of_figures(const SureGround& ground, double sign, const core::Figure oils::Oil::*figure) {
  Left out;
  for (const auto& candidate : ground.candidates) {
    const core::Span& span = (candidate.oil.*figure).span;
    if (ground.level == Sureness::worst_case) {
      out.value.push_back(sign > 0 ? std::min(span.low, span.typical)
                                   : -std::max(span.high, span.typical));
      continue;
    }
    const auto spread = targets::figure_spread(span, ground.level.share, sign < 0);
    out.value.push_back(sign * spread.mean);
    out.sizes.push_back(reserve(spread, ground.level.share));
  }
  return out;
}

Form form_of(Left left) {
  Form form;
  form.linear = std::move(left.value);
  if (std::any_of(left.sizes.begin(), left.sizes.end(), [](double s) { return s > 0; }))
    form.guards.push_back({1, less_reserve({std::move(left.sizes)})});
  return form;
}

// min(a . x + a0, b . x + b0) as b . x + b0 + min((a - b) . x, b0 - a0) + a0 - b0.
Form lower_of(const std::vector<double>& a, double a0, const std::vector<double>& b, double b0) {
  Form form;
  form.constant = a0;
  form.linear = b;
  Kink kink{1, a, b0 - a0};
  for (std::size_t i = 0; i < a.size(); ++i) kink.slope[i] -= b[i];
  form.kinks.push_back(std::move(kink));
  return form;
}

// What the lots leave of sign * inner.
Form sure_inner(const PropertyForm& property, double sign, const SureGround& ground) {
  const Weights weights = times(property.linear, sign);
  if (property.bends.empty()) {
    Form form = form_of(left_of(weights, ground));
    form.constant += sign * property.constant;
    return form;
  }
  if (ground.level == Sureness::worst_case && property.bends.size() == 1) {
    const targets::Bend& bend = property.bends.front();
    const Weights helped = plus(weights, times(bend.slope, sign * bend.weight));
    Form form = lower_of(least(helped, ground.book), 0, least(weights, ground.book),
                         sign * bend.weight * bend.cap);
    form.constant += sign * property.constant;
    return form;
  }
  Form form = form_of(left_of(weights, ground));
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
Measure shifting(Form kept, End end) {
  Measure out;
  out.shifts = true;
  out.ends = end == End::floor ? Measure::Ends::floor : Measure::Ends::ceiling;
  const double sign = end == End::floor ? 1 : -1;
  const Form form = scaled(std::move(kept), sign);
  out.at = [form](std::span<const double> x) { return form.at(x); };
  out.form = [form](double level) {
    Form moved = form;
    moved.constant -= level;
    return moved;
  };
  return out;
}

// The level at which a form that falls with its level is 0 at x: bisection.
double level_at(const std::function<Form(double)>& form, std::span<const double> x, double low,
                double high) {
  for (int round = 0; round < 200 && high - low > 1e-12 * std::max(1.0, std::abs(low)); ++round) {
    const double middle = (low + high) / 2;
    (form(middle).at(x) >= 0 ? low : high) = middle;
  }
  return low;
}

Measure sure_property(const targets::Subject& subject, End end, const SureGround& ground) {
  const PropertyForm property = ground.model.form(subject.property, ground.settings);
  const double sign = sign_of(property, end);
  const Form kept = sure_inner(property, sign, ground);
  if (property.scale == PropertyForm::Scale::identity) return shifting(kept, end);
  Measure out;
  out.ends = end == End::floor ? Measure::Ends::floor : Measure::Ends::ceiling;
  const double turn = end == End::floor ? 1 : -1;
  out.form = [property, kept, sign, turn](double level) {
    Form moved = kept;
    moved.constant -= sign * property.inverse(level);
    return scaled(std::move(moved), turn);
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

Measure sure_ratio(const targets::Subject& subject, End end, const SureGround& ground) {
  Measure out;
  out.ends = end == End::floor ? Measure::Ends::floor : Measure::Ends::ceiling;
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
    return scaled(form_of(left_of(weights, again)), sign);
  };
  out.at = [form = out.form, sign](std::span<const double> x) {
    const auto falling = [&](double level) { return scaled(form(sign * level), sign); };
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

// Which side of its bend a property is on: helped along, or at its cap.
enum class Side { along, cap };

// The yardstick's oils beside the candidates: `there` of each candidate, the rest by themselves.
struct Placed {
  std::vector<double> there;
  std::vector<const KnownPart*> apart;
};

Placed place(const KnownBar& yardstick, std::span<const Candidate> candidates) {
  Placed out;
  out.there.assign(candidates.size(), 0.0);
  for (const KnownPart& part : yardstick.parts) {
    const auto found = std::find_if(candidates.begin(), candidates.end(), [&](const Candidate& c) {
      return c.oil.name == part.oil.name;
    });
    if (found == candidates.end()) {
      out.apart.push_back(&part);
    } else {
      out.there[static_cast<std::size_t>(found - candidates.begin())] += part.share;
    }
  }
  return out;
}

// sign * (bar - yardstick) of one property, on its inner scale divided by its half where the scale
// is curved, with the yardstick's lots drawn together with the bar's.
class Comparison {
 public:
  // What is drawn: the lots, the model's constants, or both at once.
  enum class Drawn { lots, constants, both };

  Comparison(const targets::Subject& subject, double sign, const SureGround& ground,
             const KnownBar& yardstick)
      : property_(subject.property),
        sign_(sign),
        ground_(ground),
        yardstick_(yardstick),
        placed_(place(yardstick, ground.candidates)),
        worst_(ground.level == Sureness::worst_case) {
    std::vector<Candidate> apart;
    for (const KnownPart* part : placed_.apart) apart.push_back({part->oil, {}, false, {}, {}});
    apart_ = lot_book(apart, !worst_);
    means_ = middles(ground.book);
    apart_means_ = middles(apart_);
  }

  // A floor keeps both sides of the bar's bend against the yardstick's own side; a ceiling both
  // sides of the yardstick's against the bar on that side: no less strict, and the maker's own bar
  // is 0 against itself either way.
  std::vector<Reading> ways(Drawn drawn) const {
    const PropertyForm central = ground_.model.form(property_, ground_.settings);
    if (central.bends.empty()) return {way(Side::cap, Side::cap, drawn)};
    const targets::Bend& bend = central.bends.front();
    const Side own =
        targets::weigh(bend.slope, yardstick_.composition) < bend.cap ? Side::along : Side::cap;
    if (sign_ * bend.weight > 0) return {way(Side::along, own, drawn), way(Side::cap, own, drawn)};
    return {way(own, Side::along, drawn), way(own, Side::cap, drawn)};
  }

  // The yardstick's own score, points, in every reading of a way so drawn.
  std::vector<double> yardstick_scores(Drawn drawn) const {
    std::vector<double> out;
    for (const auto& model : models(drawn))
      out.push_back(model.value(property_, yardstick_composition(), yardstick_.settings));
    return out;
  }

 private:
  struct Line {
    Weights weights;
    double constant = 0;
  };

  static Line line(const PropertyForm& form, Side side, double factor) {
    Line out{times(form.linear, factor), factor * form.constant};
    if (form.bends.empty()) return out;
    const targets::Bend& bend = form.bends.front();
    if (side == Side::along) {
      out.weights = plus(out.weights, times(bend.slope, factor * bend.weight));
    } else {
      out.constant += factor * bend.weight * bend.cap;
    }
    return out;
  }

  std::span<const targets::PropertyModel> models(Drawn drawn) const {
    if (drawn == Drawn::lots) return {&ground_.model, 1};
    return ground_.model.readings();
  }

  // The lots that stand for an oil where lots are not drawn.
  static std::vector<targets::Composition> middles(const LotBook& book) {
    std::vector<targets::Composition> out;
    for (const auto& sample : book.samples) out.push_back(sample.mean());
    for (std::size_t i = out.size(); i < book.ranges.size(); ++i)
      out.push_back(book.ranges[i].typical);
    return out;
  }

  targets::Composition yardstick_composition() const {
    std::vector<targets::Composition> parts = means_;
    std::vector<double> shares = placed_.there;
    for (std::size_t j = 0; j < apart_means_.size(); ++j) {
      parts.push_back(apart_means_[j]);
      shares.push_back(placed_.apart[j]->share);
    }
    return targets::mix(parts, shares);
  }

  Reading way(Side bar, Side known, Drawn drawn) const {
    auto out = std::make_shared<Readings>();
    const std::size_t oils = ground_.candidates.size();
    out->oils = oils;
    out->there = placed_.there;
    const bool extremes = worst_ && drawn != Drawn::constants;
    for (const auto& model : models(drawn)) {
      const PropertyForm form = model.form(property_, ground_.settings);
      const PropertyForm there = model.form(property_, yardstick_.settings);
      const double half = form.rising() ? 1 : form.scale_parameter;
      add(*out, line(form, bar, sign_ / half), line(there, known, sign_ / half), extremes);
    }
    LotReserve reserve{std::vector<double>(oils, 0.0)};
    if (!worst_ && drawn != Drawn::constants) reserve = reserve_of(bar, known);
    return {out, std::move(reserve), {}};
  }

  // bar . x - known . there = bar . (x - there) + (bar - known) . there
  void add(Readings& out, const Line& bar, const Line& known, bool extremes) const {
    const Weights change = plus(bar.weights, times(known.weights, -1));
    double constant = bar.constant - known.constant;
    for (std::size_t i = 0; i < out.oils; ++i) {
      const double there = placed_.there[i];
      if (!extremes) {
        out.above.push_back(targets::weigh(bar.weights, means_[i]));
        if (there > 0) constant += there * targets::weigh(change, means_[i]);
        continue;
      }
      const auto& range = ground_.book.ranges[i];
      out.above.push_back(least_of(bar.weights, range));
      out.below.push_back(there > 0 ? -least_of(times(bar.weights, -1), range) : out.above.back());
      if (there > 0) constant += there * least_of(change, range);
    }
    for (std::size_t j = 0; j < placed_.apart.size(); ++j) {
      const Weights away = times(known.weights, -placed_.apart[j]->share);
      constant +=
          extremes ? least_of(away, apart_.ranges[j]) : targets::weigh(away, apart_means_[j]);
    }
    out.constants.push_back(constant);
  }

  static double least_of(const Weights& weights, const targets::LotRange& range) {
    return targets::weigh(weights, targets::extreme_lot(range, weights, false));
  }

  LotReserve reserve_of(Side bar, Side known) const {
    LotReserve out;
    out.sizes.assign(ground_.candidates.size(), 0.0);
    const PropertyForm form = ground_.model.form(property_, ground_.settings);
    const PropertyForm there = ground_.model.form(property_, yardstick_.settings);
    const double half = form.rising() ? 1 : form.scale_parameter;
    const Line mine = line(form, bar, sign_ / half), theirs = line(there, known, sign_ / half);
    const Weights change = plus(mine.weights, times(theirs.weights, -1));
    out.there = placed_.there;
    out.besides.assign(out.sizes.size(), 0.0);
    for (std::size_t i = 0; i < out.sizes.size(); ++i) {
      const auto& sample = ground_.book.samples[i];
      // Either way: what the bar has less of counts the other way round.
      out.sizes[i] = std::max(kept(sample, mine.weights, false), kept(sample, mine.weights, true));
      if (out.there[i] > 0) out.besides[i] = out.there[i] * kept(sample, change, false);
    }
    double squares = 0;
    for (std::size_t j = 0; j < placed_.apart.size(); ++j) {
      const double part = placed_.apart[j]->share * kept(apart_.samples[j], theirs.weights, true);
      squares += part * part;
    }
    out.rest = std::sqrt(squares);
    return out;
  }

  double kept(const targets::LotSample& sample, const Weights& weights, bool most) const {
    const double share = ground_.level.share;
    return targets::deviations(share) * sample.spread(weights, share, most).size;
  }

  targets::Property property_;
  double sign_;
  const SureGround& ground_;
  const KnownBar& yardstick_;
  Placed placed_;
  bool worst_;
  LotBook apart_;
  std::vector<targets::Composition> means_, apart_means_;
};

Form kept_of(std::vector<Reading> ways, double share, std::size_t oils) {
  Form form;
  form.linear.assign(oils, 0.0);
  form.guards.push_back({1, least_reading(std::move(ways), share)});
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

Measure sure_measure(const targets::Subject& subject, const targets::Written& written, End end,
                     const SureGround& ground) {
  need_form(subject, written);
  const double sign = end == End::floor ? 1 : -1;
  Weights weights{};
  switch (subject.kind) {
    case Kind::property:
      return sure_property(subject, end, ground);
    case Kind::acid_ratio:
      return sure_ratio(subject, end, ground);
    case Kind::saponification_value:
      return shifting(form_of(left_of_figures(ground, sign, &oils::Oil::saponification_value)),
                      end);
    case Kind::iodine_value:
      return shifting(form_of(left_of_figures(ground, sign, &oils::Oil::iodine_value)), end);
    case Kind::unsaponifiable:
      weights[targets::kUnsaponifiable] = 100 * sign;
      break;
    case Kind::acids:
      weights = acid_weights(subject.acids, 100 * sign);
      break;
    case Kind::oil_cost:
      throw std::logic_error("a cost does not vary by lot");
  }
  return shifting(form_of(left_of(weights, ground)), end);
}

Measure sure_difference(const targets::Subject& subject, const targets::Written& written, End end,
                        const SureGround& ground, const KnownBar& yardstick) {
  need_form(subject, written);
  const PropertyForm central = ground.model.form(subject.property, ground.settings);
  const double sign = sign_of(central, end);
  const Comparison comparison(subject, sign, ground, yardstick);
  using Drawn = Comparison::Drawn;
  const std::vector<Reading> lots = comparison.ways(Drawn::lots);
  const std::vector<Reading> constants = comparison.ways(Drawn::constants);
  const double share = share_of(ground.level);
  const std::size_t oils = ground.candidates.size();
  const double felt = targets::noticeable(subject.property);
  // Adds `shift` of each reading to every way.
  const auto put = [](std::vector<Reading>& all, std::vector<Reading> ways,
                      const std::vector<double>& shift) {
    for (Reading& way : ways) {
      way.shift = shift;
      all.push_back(std::move(way));
    }
  };
  if (central.scale == PropertyForm::Scale::identity) {
    std::vector<Reading> all = lots;
    put(all, constants, std::vector<double>(ground.model.readings().size(), felt));
    return shifting(kept_of(std::move(all), share, oils), end);
  }
  Measure out;
  out.ends = end == End::floor ? Measure::Ends::floor : Measure::Ends::ceiling;
  const double turn = end == End::floor ? 1 : -1;
  // With u / half = 100 / score - 1, score >= known + level exactly when u / half has moved from
  // the known bar's by no more than 100 / (known + level) - 100 / known.
  const auto room = [sign](const std::vector<double>& known, double level) {
    std::vector<double> shift;
    for (const double score : known) {
      const double wanted = std::max(score + level, 0.01);
      shift.push_back(-sign * (100 / wanted - 100 / std::max(score, 0.01)));
    }
    return shift;
  };
  out.form = [=, known = comparison.yardstick_scores(Drawn::lots),
              read = comparison.yardstick_scores(Drawn::constants)](double level) {
    std::vector<Reading> all;
    put(all, lots, room(known, level));
    put(all, constants, room(read, level - turn * felt));
    return scaled(kept_of(std::move(all), share, oils), turn);
  };
  out.at = [form = out.form, turn](std::span<const double> x) {
    const auto falling = [&](double level) { return scaled(form(turn * level), turn); };
    return turn * level_at(falling, x, -100, 100);
  };
  return out;
}

Form sure_goal(const targets::Subject& subject, const targets::Written& written, bool most_of,
               const SureGround& ground, const KnownBar& yardstick) {
  const End end = most_of ? End::floor : End::ceiling;
  if (subject.kind != Kind::property) {
    const Measure one = sure_measure(subject, written, end, ground);
    return scaled(one.form(0), most_of ? 1 : -1);
  }
  need_form(subject, written);
  const PropertyForm central = ground.model.form(subject.property, ground.settings);
  const double sign = sign_of(central, end);
  return kept_of(Comparison(subject, sign, ground, yardstick).ways(Comparison::Drawn::both),
                 share_of(ground.level), ground.candidates.size());
}

}  // namespace barwright::solver
