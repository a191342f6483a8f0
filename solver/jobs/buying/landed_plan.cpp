#include "solver/jobs/buying/landed_plan.hpp"

#include <algorithm>

namespace barwright::jobs {

LandedPlan landed_plan(const BuyingQuestion& question, const BuyingPlan& plan,
                       std::span<const int> bars_made, oils::Spread by) {
  LandedPlan out;
  const std::size_t oils = question.stock_grams.size();
  std::vector<oils::PricedPack> bought;
  for (const auto& buy : plan.buys) {
    auto pack =
        question.packs[static_cast<std::size_t>(buy.oil)][static_cast<std::size_t>(buy.pack)];
    pack.grams *= buy.count;
    pack.price *= buy.count;
    bought.push_back(std::move(pack));
  }
  if (!bought.empty()) out.buys = oils::landed_prices(bought, plan.delivery, by);
  std::vector<double> grams(oils, 0), money(oils, 0);
  for (std::size_t k = 0; k < bought.size(); ++k) {
    const auto oil = static_cast<std::size_t>(plan.buys[k].oil);
    out.buy_per_kg.push_back(out.buys[k] / bought[k].grams * 1000);
    grams[oil] += bought[k].grams;
    money[oil] += out.buys[k];
  }
  std::vector<double> per_kg(oils, 0);
  for (std::size_t oil = 0; oil < oils; ++oil) {
    const double there = question.stock_grams[oil] + grams[oil];
    const double worth = question.stock_grams[oil] / 1000 * question.worth_per_kg[oil];
    if (there > 0) per_kg[oil] = (worth + money[oil]) / there * 1000;
    out.left_grams.push_back(std::min(plan.left_grams[oil], grams[oil]));
    out.left_worth.push_back(grams[oil] > 0 ? out.left_grams[oil] / grams[oil] * money[oil] : 0);
  }
  for (std::size_t b = 0; b < plan.steps.size(); ++b) {
    double sum = 0;
    for (std::size_t oil = 0; oil < oils; ++oil) {
      sum += question.bars[b].oil_grams / 1000 * plan.steps[b][oil] /
             question.bars[b].problem.steps * per_kg[oil];
    }
    out.bar_cost.push_back(sum / bars_made[b]);
  }
  return out;
}

}  // namespace barwright::jobs
