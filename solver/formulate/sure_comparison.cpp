#include "solver/formulate/sure_comparison.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include "solver/formulate/sure_memo.hpp"

namespace barwright::formulate {

using targets::PropertyForm;
using targets::Sureness;
using targets::Weights;

namespace {

std::vector<targets::Composition> middles(const LotBook& book) {
  std::vector<targets::Composition> out;
  for (const auto& sample : book.samples) out.push_back(sample.mean());
  for (std::size_t i = out.size(); i < book.ranges.size(); ++i)
    out.push_back(book.ranges[i].typical);
  return out;
}

// The yardstick's share of each candidate, and its oils that are no candidates.
std::pair<std::vector<double>, std::vector<const KnownPart*>> placed(
    const KnownBar& yardstick, std::span<const Candidate> candidates) {
  std::vector<double> there(candidates.size(), 0.0);
  std::vector<const KnownPart*> apart;
  for (const KnownPart& part : yardstick.parts) {
    const auto found = std::find_if(candidates.begin(), candidates.end(), [&](const Candidate& c) {
      return c.oil.name == part.oil.name;
    });
    if (found == candidates.end()) {
      apart.push_back(&part);
    } else {
      there[static_cast<std::size_t>(found - candidates.begin())] += part.share;
    }
  }
  return {std::move(there), std::move(apart)};
}

double least_of(const Weights& weights, const targets::LotRange& range) {
  return targets::weigh(weights, targets::extreme_lot(range, weights, false));
}

// What an inner scale is divided by.
double half_of(const PropertyForm& form) { return form.rising() ? 1 : form.scale_parameter; }

}  // namespace

Weights times(const Weights& weights, double factor) {
  Weights out = weights;
  for (double& w : out) w *= factor;
  for (double& w : out.own) w *= factor;
  return out;
}
Weights plus(const Weights& a, const Weights& b) {
  Weights out = a;
  for (std::size_t k = 0; k < out.size(); ++k) out[k] += b[k];
  out.own.resize(std::max(a.own.size(), b.own.size()), 0.0);
  for (std::size_t i = 0; i < b.own.size(); ++i) out.own[i] += b.own[i];
  return out;
}

Comparison::Comparison(const targets::Subject& subject, double sign, const SureGround& ground,
                       const KnownBar& yardstick)
    : property_(subject.property),
      sign_(sign),
      ground_(ground),
      yardstick_(yardstick),
      worst_(ground.level == Sureness::worst_case) {
  std::tie(there_, apart_) = placed(yardstick, ground.candidates);
  std::vector<Candidate> apart;
  for (const KnownPart* part : apart_) apart.push_back({part->oil, {}, false, {}, {}});
  apart_book_ = lot_book(apart, !worst_);
  middles_ = middles(ground.book);
  apart_middles_ = middles(apart_book_);
}

std::vector<optimise::Reading> Comparison::ways(Drawn drawn) const {
  if (ground_.memo == nullptr) return worked_out(drawn);
  return ground_.memo->ways(property_, sign_, drawn, ground_, yardstick_,
                            [&] { return worked_out(drawn); });
}

std::vector<optimise::Reading> Comparison::worked_out(Drawn drawn) const {
  if (drawn == Drawn::constants) return {by_constants()};
  const PropertyForm central = ground_.model.form(property_, ground_.settings);
  if (central.bends.empty()) return {by_lots({}, drawn)};
  const Side own = own_side(central);
  std::vector<optimise::Reading> out;
  for (const Side kept : {Side::along, Side::cap}) {
    const Side other = kept != own && may_cross(kept, own) ? kept : own;
    out.push_back(by_lots(sides(kept, other, central), drawn));
  }
  return out;
}

std::vector<double> Comparison::yardstick_scores(Drawn drawn) const {
  std::vector<double> out;
  for (const auto& model : models(drawn))
    out.push_back(model.value(property_, yardstick_composition(), yardstick_.settings));
  return out;
}

std::pair<double, double> Comparison::yardstick_range() const {
  const PropertyForm form = ground_.model.form(property_, yardstick_.settings);
  const auto score = [&](bool most) {
    std::vector<targets::Composition> parts;
    std::vector<double> shares;
    for (const KnownPart& part : yardstick_.parts) {
      parts.push_back(targets::extreme_lot(targets::lot_range(part.oil), form.linear, most));
      shares.push_back(part.share);
    }
    return form.outer(form.inner(targets::mix(parts, shares)));
  };
  return std::minmax(score(false), score(true));
}

Comparison::Line Comparison::line(const PropertyForm& form, Side side, double factor) {
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

std::span<const targets::PropertyModel> Comparison::models(Drawn drawn) const {
  if (drawn == Drawn::lots) return {&ground_.model, 1};
  return ground_.model.readings();
}

targets::Composition Comparison::yardstick_composition() const {
  std::vector<targets::Composition> parts = middles_;
  std::vector<double> shares = there_;
  for (std::size_t j = 0; j < apart_.size(); ++j) {
    parts.push_back(apart_middles_[j]);
    shares.push_back(apart_[j]->share);
  }
  return targets::mix(parts, shares);
}

bool Comparison::keeps_bar_sides(const PropertyForm& form) const {
  return sign_ * form.bends.front().weight > 0;
}

Comparison::Side Comparison::own_side(const PropertyForm& form) const {
  const targets::Bend& bend = form.bends.front();
  return targets::weigh(bend.slope, yardstick_composition()) < bend.cap ? Side::along : Side::cap;
}

Comparison::Sides Comparison::sides(Side kept, Side other, const PropertyForm& form) const {
  return keeps_bar_sides(form) ? Sides{kept, other} : Sides{other, kept};
}

// Whether some lots would put the maker's own bar below itself when it is read on two sides.
bool Comparison::may_cross(Side kept, Side own) const {
  const PropertyForm form = ground_.model.form(property_, ground_.settings);
  const double turn = keeps_bar_sides(form) ? sign_ : -sign_;
  const Line low = line(form, kept, turn), high = line(form, own, turn);
  const Weights change = plus(low.weights, times(high.weights, -1));
  double slack = low.constant - high.constant, squares = 0;
  const auto see = [&](double share, const targets::LotRange& range,
                       const targets::Composition& middle, const targets::LotSample* sample) {
    if (sample == nullptr) {
      slack += share * least_of(change, range);
      return;
    }
    slack += share * targets::weigh(change, middle);
    const double part = share * this->kept(*sample, change, false);
    squares += part * part;
  };
  for (std::size_t i = 0; i < there_.size(); ++i)
    if (there_[i] > 0)
      see(there_[i], ground_.book.ranges[i], middles_[i],
          worst_ ? nullptr : &ground_.book.samples[i]);
  for (std::size_t j = 0; j < apart_.size(); ++j)
    see(apart_[j]->share, apart_book_.ranges[j], apart_middles_[j],
        worst_ ? nullptr : &apart_book_.samples[j]);
  return slack < std::sqrt(squares);
}

optimise::Readings Comparison::empty_readings() const {
  optimise::Readings out;
  out.oils = ground_.candidates.size();
  out.there = there_;
  return out;
}

// At middle lots the yardstick's score is known in each reading, so nothing is given away.
optimise::Reading Comparison::by_constants() const {
  auto out = std::make_shared<optimise::Readings>(empty_readings());
  for (const auto& model : models(Drawn::constants)) {
    const PropertyForm form = model.form(property_, ground_.settings);
    if (form.bends.empty()) {
      add(*out, model, {}, false);
      continue;
    }
    out->planes = 2;
    const Side own = own_side(model.form(property_, yardstick_.settings));
    add(*out, model, sides(Side::along, own, form), false);
    add(*out, model, sides(Side::cap, own, form), false);
  }
  return {out, {std::vector<double>(out->oils, 0.0)}, {}};
}

optimise::Reading Comparison::by_lots(const Sides& sides, Drawn drawn) const {
  auto out = std::make_shared<optimise::Readings>(empty_readings());
  for (const auto& model : models(drawn)) add(*out, model, sides, worst_);
  optimise::LotReserve reserve{std::vector<double>(out->oils, 0.0)};
  if (!worst_) reserve = reserve_of(sides);
  return {out, std::move(reserve), {}};
}

// bar . x - known . there = bar . (x - there) + (bar - known) . there
void Comparison::add(optimise::Readings& out, const targets::PropertyModel& model,
                     const Sides& sides, bool extremes) const {
  const PropertyForm form = model.form(property_, ground_.settings);
  const double factor = sign_ / half_of(form);
  const Line bar = line(form, sides.bar, factor);
  const Line known = line(model.form(property_, yardstick_.settings), sides.known, factor);
  const Weights change = plus(bar.weights, times(known.weights, -1));
  double constant = bar.constant - known.constant;
  for (std::size_t i = 0; i < out.oils; ++i) {
    const double there = there_[i];
    if (!extremes) {
      out.above.push_back(targets::weigh(bar.weights, middles_[i]));
      if (there > 0) constant += there * targets::weigh(change, middles_[i]);
      continue;
    }
    const auto& range = ground_.book.ranges[i];
    out.above.push_back(least_of(bar.weights, range));
    out.below.push_back(there > 0 ? -least_of(times(bar.weights, -1), range) : out.above.back());
    if (there > 0) constant += there * least_of(change, range);
  }
  for (std::size_t j = 0; j < apart_.size(); ++j) {
    const Weights away = times(known.weights, -apart_[j]->share);
    constant +=
        extremes ? least_of(away, apart_book_.ranges[j]) : targets::weigh(away, apart_middles_[j]);
  }
  out.constants.push_back(constant);
}

optimise::LotReserve Comparison::reserve_of(const Sides& sides) const {
  optimise::LotReserve out;
  out.sizes.assign(ground_.candidates.size(), 0.0);
  const PropertyForm form = ground_.model.form(property_, ground_.settings);
  const double factor = sign_ / half_of(form);
  const Line mine = line(form, sides.bar, factor);
  const Line theirs = line(ground_.model.form(property_, yardstick_.settings), sides.known, factor);
  const Weights change = plus(mine.weights, times(theirs.weights, -1));
  out.there = there_;
  out.besides.assign(out.sizes.size(), 0.0);
  for (std::size_t i = 0; i < out.sizes.size(); ++i) {
    const auto& sample = ground_.book.samples[i];
    out.sizes[i] = kept(sample, mine.weights, false);
    if (out.there[i] == 0) continue;
    // What the bar has less of than the yardstick counts the other way round.
    out.sizes[i] = std::max(out.sizes[i], kept(sample, mine.weights, true));
    out.besides[i] = out.there[i] * kept(sample, change, false);
  }
  double squares = 0;
  for (std::size_t j = 0; j < apart_.size(); ++j) {
    const double part = apart_[j]->share * kept(apart_book_.samples[j], theirs.weights, true);
    squares += part * part;
  }
  out.rest = std::sqrt(squares);
  return out;
}

double Comparison::kept(const targets::LotSample& sample, const Weights& weights, bool most) const {
  const double share = ground_.level.share;
  return targets::deviations(share) * sample.spread(weights, share, most).size;
}

FigureLots figure_lots(const targets::Subject& subject, double sign, const oils::Oil& oil,
                       const targets::LotRange& range, const targets::LotSample* sample,
                       double share) {
  using Kind = targets::Subject::Kind;
  const double z = targets::deviations(share);
  const bool saponification = subject.kind == Kind::saponification_value;
  if (saponification || subject.kind == Kind::iodine_value) {
    const core::Span& span = (saponification ? oil.saponification_value : oil.iodine_value).span;
    const auto [least, most] =
        std::minmax({sign * span.low, sign * span.high, sign * span.typical});
    const auto low = targets::figure_spread(span, share, sign < 0);
    const auto high = targets::figure_spread(span, share, sign > 0);
    return {least, most, sign * low.mean, z * low.size, z * high.size};
  }
  Weights weights{};
  if (subject.kind == Kind::unsaponifiable) weights[targets::kUnsaponifiable] = 100 * sign;
  if (subject.kind == Kind::acids)
    for (const auto acid : subject.acids) weights[static_cast<std::size_t>(acid)] += 100 * sign;
  FigureLots out;
  out.least = least_of(weights, range);
  out.most = -least_of(times(weights, -1), range);
  if (sample == nullptr) return out;
  const auto low = sample->spread(weights, share, false),
             high = sample->spread(weights, share, true);
  out.mean = low.mean;
  out.below = z * low.size;
  out.above = z * high.size;
  return out;
}

optimise::Reading compare_figures(const targets::Subject& subject, double sign,
                                  const SureGround& ground, const KnownBar& yardstick) {
  const bool worst = ground.level == Sureness::worst_case;
  auto out = std::make_shared<optimise::Readings>();
  const std::size_t oils = ground.candidates.size();
  out->oils = oils;
  std::vector<const KnownPart*> apart;
  std::tie(out->there, apart) = placed(yardstick, ground.candidates);
  out->constants = {0};
  optimise::LotReserve reserve{std::vector<double>(oils, 0.0)};
  double squares = 0;
  for (const KnownPart* part : apart) {
    const targets::LotRange range = targets::lot_range(part->oil);
    const std::optional<targets::LotSample> sample =
        worst ? std::nullopt : std::optional<targets::LotSample>(std::in_place, part->oil, range);
    const FigureLots lots = figure_lots(subject, sign, part->oil, range,
                                        sample ? &*sample : nullptr, ground.level.share);
    out->constants[0] -= part->share * (worst ? lots.most : lots.mean);
    squares += part->share * lots.above * part->share * lots.above;
  }
  for (std::size_t i = 0; i < oils; ++i) {
    const FigureLots lots =
        figure_lots(subject, sign, ground.candidates[i].oil, ground.book.ranges[i],
                    worst ? nullptr : &ground.book.samples[i], ground.level.share);
    out->above.push_back(worst ? lots.least : lots.mean);
    out->below.push_back(worst ? lots.most : lots.mean);
    if (worst) continue;
    reserve.sizes[i] = out->there[i] > 0 ? std::max(lots.below, lots.above) : lots.below;
  }
  reserve.there = out->there;
  reserve.rest = std::sqrt(squares);
  if (worst) reserve.rest = 0;
  return {out, std::move(reserve), {}};
}

}  // namespace barwright::formulate
