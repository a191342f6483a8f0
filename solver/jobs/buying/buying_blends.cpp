#include "solver/jobs/buying/buying_blends.hpp"

#include <algorithm>

#include "solver/optimise/within.hpp"

namespace barwright::jobs {
namespace {

// Which of the blends that a purchase makes is worth least is a help, not a claim: to prove it to
// the last whole step of three bars took a minute.
constexpr std::uint64_t kWork = 200'000'000;

// The bars over the oils of a set, each within what there is of it.
Joint joint_of(const BuyingQuestion& question, const std::vector<int>& set,
               const std::vector<double>& have) {
  std::vector<JointColumn> columns;
  for (const int oil : set) columns.push_back({oil, false});
  Joint joint(question, std::move(columns), false);
  for (std::size_t c = 0; c < set.size(); ++c)
    joint.problem().limits.push_back(
        {joint.kilograms(c), -optimise::kInfinity, have[std::size_t(set[c])] / 1000, -1});
  return joint;
}

}  // namespace

RangeBlends blends_from(const BuyingQuestion& question, const std::vector<int>& set,
                        const std::vector<double>& have, const optimise::SearchOptions& options) {
  Joint joint = joint_of(question, set, have);
  optimise::Answer answer = optimise::search(joint.problem(), options);
  return {answer.status, set, std::move(answer.steps)};
}

void make_of(const BuyingQuestion& question, const BuyingParts& parts, const RangeBlends& blends,
             const optimise::SearchOptions& options, BuyingPlan& plan) {
  const std::size_t oils = parts.oils(), bars = question.bars.size();
  std::vector<double> have = question.stock_grams;
  for (const auto& buy : plan.buys)
    have[std::size_t(buy.oil)] +=
        buy.count * question.packs[std::size_t(buy.oil)][std::size_t(buy.pack)].grams;
  std::vector<int> set = blends.set;
  for (std::size_t oil = 0; oil < oils; ++oil) {
    if (have[oil] <= 0 || parts.most_grams(oil) <= 0) continue;
    if (std::find(set.begin(), set.end(), int(oil)) != set.end()) continue;
    set.push_back(int(oil));
    if (!parts.counts_kept(set)) set.pop_back();
  }
  Joint joint = joint_of(question, set, have);
  optimise::Goal worth;
  worth.form = joint.empty();
  for (std::size_t c = 0; c < set.size(); ++c) {
    const optimise::Form kilograms = joint.kilograms(c);
    for (std::size_t v = 0; v < kilograms.linear.size(); ++v)
      worth.form.linear[v] += kilograms.linear[v] * question.worth_per_kg[std::size_t(set[c])];
  }
  joint.problem().goals = {worth};
  optimise::Within within(options, kWork);
  optimise::SearchOptions& warm = within.options();
  warm.start.assign(bars * set.size(), 0);
  for (std::size_t b = 0; b < bars; ++b)
    for (std::size_t c = 0; c < blends.set.size(); ++c)
      warm.start[joint.variable(b, c)] = blends.steps[b * blends.set.size() + c];
  const optimise::Answer answer = optimise::search(joint.problem(), warm);
  const std::vector<int>& steps = answer.steps.empty() ? warm.start : answer.steps;
  plan.used_grams.assign(oils, 0.0);
  plan.steps.assign(bars, std::vector<int>(oils, 0));
  for (std::size_t b = 0; b < bars; ++b) {
    for (std::size_t c = 0; c < set.size(); ++c) {
      const int taken = steps[joint.variable(b, c)];
      plan.steps[b][std::size_t(set[c])] = taken;
      plan.used_grams[std::size_t(set[c])] +=
          question.bars[b].oil_grams * taken / question.bars[b].problem.steps;
    }
  }
  plan.left_grams = have;
  for (std::size_t oil = 0; oil < oils; ++oil)
    plan.left_grams[oil] = std::max(0.0, have[oil] - plan.used_grams[oil]);
}

}  // namespace barwright::jobs
