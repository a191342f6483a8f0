#include "solver/explain/purchases.hpp"

#include <algorithm>
#include <iterator>
#include <stdexcept>

#include "solver/explain/relax_wish.hpp"

namespace barwright::explain {
namespace {

/// Which oils of a group open the way, asked of the group before its members.
class Screen {
 public:
  Screen(const optimise::Problem& problem, const Offer& offer,
         const optimise::SearchOptions& options)
      : problem_(problem), offer_(offer), options_(options) {}

  bool complete() const { return complete_; }

  /// The problem with only these of the oils to buy let in.
  optimise::Problem with(std::span<const int> bought) const {
    optimise::Problem p = problem_;
    for (std::size_t i = 0; i < p.oils.size(); ++i) {
      if (!offer_.to_buy[i] || named(bought, static_cast<int>(i))) continue;
      p.oils[i].most = 0;
      p.oils[i].must = false;
    }
    return p;
  }

  /// Appends every member of `group` that opens the way together with `also` (perhaps none).
  void openers(std::span<const int> group, std::span<const int> also, std::vector<int>& out) {
    if (group.empty()) return;
    std::vector<int> bought(also.begin(), also.end());
    bought.insert(bought.end(), group.begin(), group.end());
    if (out_of_time(options_)) {
      complete_ = false;
      return;
    }
    const optimise::Answer answer = any_blend(with(bought), options_);
    if (answer.steps.empty()) {
      if (answer.status != optimise::Status::infeasible) complete_ = false;
      return;
    }
    if (group.size() == 1) {
      out.push_back(group[0]);
      return;
    }
    const std::size_t half = group.size() / 2;
    openers(group.first(half), also, out);
    openers(group.subspan(half), also, out);
  }

 private:
  static bool named(std::span<const int> bought, int oil) {
    return std::find(bought.begin(), bought.end(), oil) != bought.end();
  }

  const optimise::Problem& problem_;
  const Offer& offer_;
  const optimise::SearchOptions& options_;
  bool complete_ = true;
};

double price_of(const Offer& offer, std::span<const int> oils) {
  if (offer.pack_price.empty()) return optimise::kInfinity;
  double sum = 0;
  for (int oil : oils) sum += offer.pack_price[static_cast<std::size_t>(oil)];
  return sum;
}

double value_of(const Purchase& p) { return p.answer.goals.empty() ? 0 : p.answer.goals[0].value; }

std::vector<std::vector<int>> singles(Screen& screen, const std::vector<int>& to_buy) {
  std::vector<int> found;
  screen.openers(to_buy, {}, found);
  std::vector<std::vector<int>> sets;
  for (int oil : found) sets.push_back({oil});
  return sets;
}

std::vector<std::vector<int>> pairs(Screen& screen, const std::vector<int>& to_buy) {
  std::vector<int> alone;
  screen.openers(to_buy, {}, alone);
  std::vector<int> others;  // a pair with an opener teaches nothing
  std::set_difference(to_buy.begin(), to_buy.end(), alone.begin(), alone.end(),
                      std::back_inserter(others));
  std::vector<std::vector<int>> sets;
  for (std::size_t i = 0; i + 1 < others.size(); ++i) {
    std::vector<int> second;
    screen.openers(std::span(others).subspan(i + 1), std::span(&others[i], 1), second);
    for (int oil : second) sets.push_back({others[i], oil});
  }
  return sets;
}

}  // namespace

Purchases find_purchases(const optimise::Problem& problem, const Offer& offer,
                         const optimise::SearchOptions& options, const PurchaseOptions& how) {
  if (offer.to_buy.size() != problem.oils.size() ||
      (!offer.pack_price.empty() && offer.pack_price.size() != problem.oils.size())) {
    throw std::invalid_argument("an offer needs one entry per oil of the problem");
  }
  std::vector<int> to_buy;
  for (std::size_t i = 0; i < problem.oils.size(); ++i) {
    if (offer.to_buy[i] && problem.oils[i].most > 0) to_buy.push_back(static_cast<int>(i));
  }
  Screen screen(problem, offer, options);
  auto sets = how.pairs ? pairs(screen, to_buy) : singles(screen, to_buy);
  Purchases result;
  result.complete = screen.complete();
  result.none = sets.empty() && screen.complete();
  std::stable_sort(sets.begin(), sets.end(), [&](const auto& a, const auto& b) {
    return price_of(offer, a) < price_of(offer, b);
  });
  for (const auto& set : sets) {
    const double price = price_of(offer, set);
    // Past the number wanted only equal prices still compete, by their blends.
    if (result.found.size() >= how.most && !(price <= result.found[how.most - 1].price)) break;
    if (out_of_time(options)) {
      result.complete = false;
      break;
    }
    Purchase p{set, price, optimise::search(screen.with(set), options)};
    if (p.answer.steps.empty()) {
      result.complete = false;
      continue;
    }
    if (p.answer.status != optimise::Status::optimal) result.complete = false;
    result.found.push_back(std::move(p));
  }
  std::stable_sort(result.found.begin(), result.found.end(),
                   [](const Purchase& a, const Purchase& b) {
                     return a.price < b.price || (a.price == b.price && value_of(a) < value_of(b));
                   });
  if (result.found.size() > how.most) result.found.resize(how.most);
  return result;
}

}  // namespace barwright::explain
