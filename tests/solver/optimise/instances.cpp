#include "tests/solver/optimise/instances.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "oils/records/library.hpp"
#include "solver/formulate/blend_forms.hpp"
#include "solver/optimise/guards.hpp"
#include "targets/model/lots.hpp"
#include "targets/model/model.hpp"

namespace barwright::testing {
namespace {

std::vector<oils::Oil> library_fats() {
  const oils::Library library = oils::Library::embedded();
  std::vector<oils::Oil> out;
  for (const oils::Oil& oil : library.oils())
    if (oil.form == oils::Form::triglyceride) out.push_back(oil);
  return out;
}

std::vector<targets::Composition> library_compositions(const std::vector<oils::Oil>& fats) {
  std::vector<targets::Composition> out;
  for (const oils::Oil& oil : fats) out.push_back(targets::composition(oil));
  return out;
}

// The lots around a candidate that is itself a lot somewhat off the library's oil.
targets::LotRange range_of(const oils::Oil& oil, const targets::Composition& candidate) {
  targets::LotRange range = targets::lot_range(oil);
  for (std::size_t k = 0; k < core::kFattyAcidCount; ++k) {
    const double typical = range.typical.acids[k];
    const double moved = typical > 0 ? candidate.acids[k] / typical : 1;
    range.low[k] *= moved;
    range.high[k] *= moved;
  }
  range.typical = candidate;
  return range;
}

// One property's range with lots counted: `weights` over components, `form` its typical form.
void add_range_over_lots(optimise::Problem& problem, const LotsCount count,
                         const optimise::Form& form, const targets::Weights& weights,
                         const optimise::Limit& wished, const std::vector<const oils::Oil*>& fats,
                         const std::vector<targets::Composition>& candidates,
                         const std::vector<double>& hidden) {
  optimise::Form least = form, most = form, low = form, high = form;
  std::vector<double> below, above;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const targets::LotRange range = range_of(*fats[i], candidates[i]);
    least.linear[i] = targets::weigh(weights, targets::extreme_lot(range, weights, false));
    most.linear[i] = targets::weigh(weights, targets::extreme_lot(range, weights, true));
    if (count != LotsCount::likely) continue;
    const targets::LotSample sample(*fats[i], range);
    const auto down = sample.spread(weights, 0.95, false), up = sample.spread(weights, 0.95, true);
    low.linear[i] = high.linear[i] = down.mean;
    below.push_back(targets::deviations(0.95) * down.size);
    above.push_back(targets::deviations(0.95) * up.size);
  }
  const double typical = form.at(hidden);
  const double floor = wished.low - (typical - least.at(hidden));
  const double ceiling = wished.high + (most.at(hidden) - typical);
  if (count == LotsCount::typical) {
    problem.limits.push_back({form, floor, ceiling, wished.wish});
    return;
  }
  if (count == LotsCount::worst_case) {
    low = least;
    high = most;
  } else {
    low.guards.push_back({1, optimise::less_reserve({below})});
    high.guards.push_back({-1, optimise::less_reserve({above})});
  }
  problem.limits.push_back({low, floor, optimise::kInfinity, wished.wish});
  problem.limits.push_back({high, -optimise::kInfinity, ceiling, wished.wish});
}

// Another lot of an oil: each acid up to 8 % off its share, then brought back to the same sum.
targets::Composition another_lot(const targets::Composition& oil, Uniform& draw) {
  targets::Composition lot = oil;
  double before = 0, after = 0;
  for (double& acid : lot.acids) {
    before += acid;
    acid *= draw(0.92, 1.08);
    after += acid;
  }
  for (double& acid : lot.acids) acid *= before / after;
  return lot;
}

double value(const optimise::Form& form, const std::vector<double>& x) { return form.at(x); }

/// What an instance is made of, drawn step by step from one seed: the order is part of it.
class Instance {
 public:
  explicit Instance(const InstanceSpec& spec)
      : spec_(spec), n_(std::size_t(spec.oils)), draw_(spec.seed * 0x9E3779B97F4A7C15ULL + 1) {}

  optimise::Problem make() && {
    draw_oils();
    hide_a_blend();
    for (std::size_t i = 0; i < n_; ++i) {
      const int stock = int(draw_(0.10, 0.60) * spec_.steps);
      problem_.oils.push_back({spec_.least, std::max({stock, hidden_[i], spec_.least}), false});
    }
    find_straight_properties();
    add_ranges();
    cost_ = {0, prices_, {}};
    if (spec_.cost_ceiling)
      problem_.limits.push_back(
          {cost_, -optimise::kInfinity, value(cost_, x_) * draw_(1.0, 1.1), wish_++});
    if (spec_.soluble_floor) add_soluble_floor();
    if (spec_.kinks) {
      const optimise::Form lather =
          formulate::over_oils(model_.form(targets::Property::lather, settings_), candidates_);
      const double width = draw_(spec_.narrowest, spec_.widest),
                   low = value(lather, x_) - width * draw_();
      problem_.limits.push_back({lather, low, low + width, wish_++});
    }
    add_goals();
    return std::move(problem_);
  }

 private:
  // Oils in a drawn order, then lots of them; prices per kg.
  void draw_oils() {
    order_.resize(library_.size());
    std::iota(order_.begin(), order_.end(), 0u);
    for (std::size_t i = order_.size(); i > 1; --i)
      std::swap(order_[i - 1], order_[std::size_t(draw_.whole(0, int(i) - 1))]);
    for (std::size_t i = 0; i < n_; ++i) {
      const bool copy = i > 0 && draw_() < spec_.duplicates;
      const double price = spec_.equal_prices ? 4.0 + 3.0 * draw_.whole(0, 2) : draw_(2.0, 20.0);
      if (copy) {
        const std::size_t of = std::size_t(draw_.whole(0, int(i) - 1));
        candidates_.push_back(candidates_[of]);
        fats_.push_back(fats_[of]);
        prices_.push_back(prices_[of]);
        continue;
      }
      const targets::Composition& oil = library_[order_[i % order_.size()]];
      fats_.push_back(&oils_[order_[i % order_.size()]]);
      candidates_.push_back(i < order_.size() ? oil : another_lot(oil, draw_));
      prices_.push_back(price);
    }
  }

  void hide_a_blend() {
    problem_.steps = spec_.steps;
    problem_.most_oils = spec_.most_oils;
    hidden_.assign(n_, 0);
    const int oils_in = std::min({spec_.most_oils > 0 ? spec_.most_oils : 6, int(n_),
                                  spec_.steps / std::max(1, spec_.least)});
    while (int(chosen_.size()) < oils_in) {
      const std::size_t i = std::size_t(draw_.whole(0, int(n_) - 1));
      if (std::find(chosen_.begin(), chosen_.end(), i) == chosen_.end()) chosen_.push_back(i);
    }
    int left = spec_.steps;
    for (std::size_t i : chosen_) {
      hidden_[i] = spec_.least;
      left -= spec_.least;
    }
    for (const int chunk = std::max(1, spec_.steps / 50); left > 0;) {
      const int add = std::min(left, chunk);
      hidden_[chosen_[std::size_t(draw_.whole(0, oils_in - 1))]] += add;
      left -= add;
    }
    x_ = problem_.shares(hidden_);
  }

  void find_straight_properties() {
    for (targets::Property property : targets::all_properties()) {
      if (!targets::PropertyModel::has_form(property)) continue;
      optimise::Form form = formulate::over_oils(model_.form(property, settings_), candidates_);
      if (!form.is_linear() || property == targets::Property::keeping) continue;
      straight_.push_back(form);
      weights_.push_back(model_.form(property, settings_).linear);
    }
    for (std::size_t i = straight_.size(); i > 1; --i) {
      const std::size_t other = std::size_t(draw_.whole(0, int(i) - 1));
      std::swap(straight_[i - 1], straight_[other]);
      std::swap(weights_[i - 1], weights_[other]);
    }
  }

  void add_ranges() {
    for (int r = 0; r < spec_.ranges && std::size_t(r) < straight_.size(); ++r) {
      const optimise::Form& form = straight_[std::size_t(r)];
      const double width = draw_(spec_.narrowest, spec_.widest);
      double low = value(form, x_) - width * draw_(0.1, 0.9);
      if (spec_.impossible && r == 0) low += draw_(2.0, 25.0);
      const optimise::Limit wished{form, low, low + width, wish_++};
      if (spec_.lots == LotsCount::none) {
        problem_.limits.push_back(wished);
      } else {
        add_range_over_lots(problem_, spec_.lots, form, weights_[std::size_t(r)], wished, fats_,
                            candidates_, x_);
      }
    }
  }

  void add_soluble_floor() {
    const auto limits = model_.solubility_limits(targets::Property::soluble_38, settings_);
    double share = 1;  // the most that the hidden blend dissolves, by bisection
    for (double low = 0, high = 1; high - low > 1e-9;) {
      share = (low + high) / 2;
      (formulate::soluble_floor(limits, share, candidates_).at(x_) >= 0 ? low : high) = share;
    }
    const double asked = std::max(0.0, share - draw_(0.0, 0.03));
    problem_.limits.push_back(
        {formulate::soluble_floor(limits, asked, candidates_), 0, optimise::kInfinity, wish_++});
  }

  optimise::Goal squares() const {
    return {optimise::Form{0, std::vector<double>(n_, 0.0), {}}, {}, 0};
  }

  // Every acid that matters, in points of the profile, heavier where the skin tells.
  optimise::Goal feel() {
    optimise::Goal goal = squares();
    const std::size_t butter = order_[std::size_t(draw_.whole(0, int(library_.size()) - 1))];
    std::vector<double> wished(core::kFattyAcidCount, 0.0);
    for (std::size_t i : chosen_)
      for (std::size_t k = 0; k < wished.size(); ++k)
        wished[k] += 0.7 * x_[i] * candidates_[i].acids[k];
    for (std::size_t k = 0; k < wished.size(); ++k) wished[k] += 0.3 * library_[butter].acids[k];
    for (std::size_t k = 0; k < wished.size(); ++k) {
      std::vector<double> slope;
      double most = 0;
      for (const auto& oil : candidates_) {
        slope.push_back(100 * oil.acids[k]);
        most = std::max(most, oil.acids[k]);
      }
      const double weight = draw_(0.5, 2.0);
      if (most < 0.10) continue;  // traces
      goal.pulls.push_back({optimise::Form{0, std::move(slope), {}}, 100 * wished[k], weight});
    }
    return goal;
  }

  optimise::Goal near_a_point() {
    optimise::Goal goal = squares();
    for (std::size_t r = 0; r < 4 && r < straight_.size(); ++r)
      goal.pulls.push_back(
          {straight_[r], value(straight_[r], x_) + draw_(-4.0, 4.0), draw_(0.5, 2.0)});
    return goal;
  }

  void add_goals() {
    const std::size_t spare = std::min(straight_.size() - 1, std::size_t(spec_.ranges));
    auto& goals = problem_.goals;
    switch (spec_.wish) {
      case Wish::cheapest:
        goals.push_back({cost_, {}, 0});
        break;
      case Wish::most_of_a_property:
        goals.push_back({optimise::scaled(straight_[spare], -1), {}, 0});
        break;
      case Wish::nearest_point:
        goals.push_back(near_a_point());
        break;
      case Wish::nearest_in_feel:
        goals.push_back(feel());
        break;
      case Wish::cheapest_then_feel:
        goals.push_back({cost_, {}, 0.02 * value(cost_, x_)});
        goals.push_back(feel());
        break;
    }
  }

  static const std::vector<oils::Oil>& library_oils() {
    static const std::vector<oils::Oil> kFats = library_fats();
    return kFats;
  }
  static const std::vector<targets::Composition>& compositions() {
    static const std::vector<targets::Composition> kLibrary = library_compositions(library_oils());
    return kLibrary;
  }
  static const targets::PropertyModel& property_model() {
    static const targets::PropertyModel kModel = targets::PropertyModel::embedded();
    return kModel;
  }

  const std::vector<oils::Oil>& oils_ = library_oils();
  const std::vector<targets::Composition>& library_ = compositions();
  const targets::PropertyModel& model_ = property_model();
  const InstanceSpec& spec_;
  const std::size_t n_;
  const targets::BarSettings settings_;
  Uniform draw_;
  optimise::Problem problem_;
  std::vector<std::size_t> order_, chosen_;
  std::vector<targets::Composition> candidates_;
  std::vector<const oils::Oil*> fats_;
  std::vector<double> prices_, x_;
  std::vector<int> hidden_;
  std::vector<optimise::Form> straight_;
  std::vector<targets::Weights> weights_;
  optimise::Form cost_;
  int wish_ = 0;
};

}  // namespace

optimise::Problem make_instance(const InstanceSpec& spec) { return Instance(spec).make(); }

}  // namespace barwright::testing
