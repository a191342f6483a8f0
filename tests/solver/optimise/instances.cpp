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

}  // namespace

optimise::Problem make_instance(const InstanceSpec& spec) {
  static const std::vector<oils::Oil> kFats = library_fats();
  static const std::vector<targets::Composition> kLibrary = library_compositions(kFats);
  static const targets::PropertyModel kModel = targets::PropertyModel::embedded();
  const targets::BarSettings settings;
  Uniform draw(spec.seed * 0x9E3779B97F4A7C15ULL + 1);
  const std::size_t n = std::size_t(spec.oils);

  // Oils in a drawn order, then lots of them; prices per kg.
  std::vector<std::size_t> order(kLibrary.size());
  std::iota(order.begin(), order.end(), 0u);
  for (std::size_t i = order.size(); i > 1; --i)
    std::swap(order[i - 1], order[std::size_t(draw.whole(0, int(i) - 1))]);
  std::vector<targets::Composition> candidates;
  std::vector<const oils::Oil*> fats;
  std::vector<double> prices;
  for (std::size_t i = 0; i < n; ++i) {
    const bool copy = i > 0 && draw() < spec.duplicates;
    const double price = spec.equal_prices ? 4.0 + 3.0 * draw.whole(0, 2) : draw(2.0, 20.0);
    if (copy) {
      const std::size_t of = std::size_t(draw.whole(0, int(i) - 1));
      candidates.push_back(candidates[of]);
      fats.push_back(fats[of]);
      prices.push_back(prices[of]);
      continue;
    }
    const targets::Composition& oil = kLibrary[order[i % order.size()]];
    fats.push_back(&kFats[order[i % order.size()]]);
    candidates.push_back(i < order.size() ? oil : another_lot(oil, draw));
    prices.push_back(price);
  }

  // The hidden blend.
  optimise::Problem problem;
  problem.steps = spec.steps;
  problem.most_oils = spec.most_oils;
  std::vector<int> hidden(n, 0);
  const int oils_in = std::min(
      {spec.most_oils > 0 ? spec.most_oils : 6, int(n), spec.steps / std::max(1, spec.least)});
  std::vector<std::size_t> chosen;
  while (int(chosen.size()) < oils_in) {
    const std::size_t i = std::size_t(draw.whole(0, int(n) - 1));
    if (std::find(chosen.begin(), chosen.end(), i) == chosen.end()) chosen.push_back(i);
  }
  int left = spec.steps;
  for (std::size_t i : chosen) {
    hidden[i] = spec.least;
    left -= spec.least;
  }
  for (const int chunk = std::max(1, spec.steps / 50); left > 0;) {
    const int add = std::min(left, chunk);
    hidden[chosen[std::size_t(draw.whole(0, oils_in - 1))]] += add;
    left -= add;
  }
  const std::vector<double> x = problem.shares(hidden);

  // Stock.
  for (std::size_t i = 0; i < n; ++i) {
    const int stock = int(draw(0.10, 0.60) * spec.steps);
    problem.oils.push_back({spec.least, std::max({stock, hidden[i], spec.least}), false});
  }

  std::vector<optimise::Form> straight;
  std::vector<targets::Weights> weights;
  for (targets::Property property : targets::all_properties()) {
    if (!targets::PropertyModel::has_form(property)) continue;
    optimise::Form form = formulate::over_oils(kModel.form(property, settings), candidates);
    if (!form.is_linear() || property == targets::Property::keeping) continue;
    straight.push_back(form);
    weights.push_back(kModel.form(property, settings).linear);
  }
  for (std::size_t i = straight.size(); i > 1; --i) {
    const std::size_t other = std::size_t(draw.whole(0, int(i) - 1));
    std::swap(straight[i - 1], straight[other]);
    std::swap(weights[i - 1], weights[other]);
  }
  int wish = 0;
  for (int r = 0; r < spec.ranges && std::size_t(r) < straight.size(); ++r) {
    const optimise::Form& form = straight[std::size_t(r)];
    const double width = draw(spec.narrowest, spec.widest);
    double low = value(form, x) - width * draw(0.1, 0.9);
    if (spec.impossible && r == 0) low += draw(2.0, 25.0);
    const optimise::Limit wished{form, low, low + width, wish++};
    if (spec.lots == LotsCount::none) {
      problem.limits.push_back(wished);
    } else {
      add_range_over_lots(problem, spec.lots, form, weights[std::size_t(r)], wished, fats,
                          candidates, x);
    }
  }
  const optimise::Form cost{0, prices, {}};
  if (spec.cost_ceiling)
    problem.limits.push_back({cost, -optimise::kInfinity, value(cost, x) * draw(1.0, 1.1), wish++});
  if (spec.soluble_floor) {
    const auto limits = kModel.solubility_limits(targets::Property::soluble_38, settings);
    double share = 1;  // the most that the hidden blend dissolves, by bisection
    for (double low = 0, high = 1; high - low > 1e-9;) {
      share = (low + high) / 2;
      (formulate::soluble_floor(limits, share, candidates).at(x) >= 0 ? low : high) = share;
    }
    problem.limits.push_back(
        {formulate::soluble_floor(limits, std::max(0.0, share - draw(0.0, 0.03)), candidates), 0,
         optimise::kInfinity, wish++});
  }
  if (spec.kinks) {
    const optimise::Form lather =
        formulate::over_oils(kModel.form(targets::Property::lather, settings), candidates);
    const double width = draw(spec.narrowest, spec.widest), low = value(lather, x) - width * draw();
    problem.limits.push_back({lather, low, low + width, wish++});
  }

  // Feel: every acid that matters, in points of the profile, heavier where the skin tells.
  const auto feel = [&] {
    optimise::Goal goal{optimise::Form{0, std::vector<double>(n, 0.0), {}}, {}, 0};
    const std::size_t butter = order[std::size_t(draw.whole(0, int(kLibrary.size()) - 1))];
    std::vector<double> wished(core::kFattyAcidCount, 0.0);
    for (std::size_t i : chosen)
      for (std::size_t k = 0; k < wished.size(); ++k)
        wished[k] += 0.7 * x[i] * candidates[i].acids[k];
    for (std::size_t k = 0; k < wished.size(); ++k) wished[k] += 0.3 * kLibrary[butter].acids[k];
    for (std::size_t k = 0; k < wished.size(); ++k) {
      std::vector<double> slope;
      double most = 0;
      for (const auto& oil : candidates) {
        slope.push_back(100 * oil.acids[k]);
        most = std::max(most, oil.acids[k]);
      }
      const double weight = draw(0.5, 2.0);
      if (most < 0.10) continue;  // traces
      goal.pulls.push_back({optimise::Form{0, std::move(slope), {}}, 100 * wished[k], weight});
    }
    return goal;
  };
  const std::size_t spare = std::min(straight.size() - 1, std::size_t(spec.ranges));
  switch (spec.wish) {
    case Wish::cheapest:
      problem.goals.push_back({cost, {}, 0});
      break;
    case Wish::most_of_a_property:
      problem.goals.push_back({optimise::scaled(straight[spare], -1), {}, 0});
      break;
    case Wish::nearest_point: {
      optimise::Goal goal{optimise::Form{0, std::vector<double>(n, 0.0), {}}, {}, 0};
      for (std::size_t r = 0; r < 4 && r < straight.size(); ++r)
        goal.pulls.push_back(
            {straight[r], value(straight[r], x) + draw(-4.0, 4.0), draw(0.5, 2.0)});
      problem.goals.push_back(std::move(goal));
      break;
    }
    case Wish::nearest_in_feel:
      problem.goals.push_back(feel());
      break;
    case Wish::cheapest_then_feel:
      problem.goals.push_back({cost, {}, 0.02 * value(cost, x)});
      problem.goals.push_back(feel());
      break;
  }
  return problem;
}

}  // namespace barwright::testing
