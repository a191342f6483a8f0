#include "solver/jobs/buying/buying_part.hpp"

#include <algorithm>

#include "solver/optimise/relaxed.hpp"

namespace barwright::jobs {
namespace {

using Oil = BuyingPart::Oil;

// Weight of what an oil is worth beside the cash it costs, in the relaxation alone: among equal
// purchases it points at the cheaper blends. What it adds to a bound is taken off again.
constexpr double kHint = 1e-6;

// The most of an oil that a bar can take, a fraction: proved, but not the least such figure.
double most_share(const optimise::Problem& bar, std::size_t oil, optimise::Allowance* allowance) {
  const double most = std::min(1.0, double(bar.oils[oil].most) / bar.steps);
  if (most <= 0) return 0;
  optimise::Goal goal;
  goal.form.linear.assign(bar.oils.size(), 0.0);
  goal.form.linear[oil] = -1;
  const optimise::Relaxed solved = optimise::relaxed(bar, goal, allowance);
  // Rounded up a little: what the checker's tolerance lets through is not cut off.
  return solved.empty ? 0 : std::clamp(-solved.bound + 1e-6, 0.0, most);
}

// g of each oil that the whole range could take.
std::vector<double> most_of_each(const BuyingQuestion& question, optimise::Allowance* allowance) {
  std::vector<double> out(question.stock_grams.size(), 0.0);
  for (std::size_t oil = 0; oil < out.size(); ++oil)
    for (const auto& bar : question.bars)
      out[oil] += bar.oil_grams * most_share(bar.problem, oil, allowance);
  return out;
}

std::vector<PackKind> kinds_of(const BuyingQuestion& question, const std::vector<double>& most) {
  std::vector<PackKind> out;
  for (std::size_t oil = 0; oil < most.size(); ++oil) {
    for (std::size_t pack = 0; most[oil] > 0 && pack < question.packs[oil].size(); ++pack) {
      const auto& offer = question.packs[oil][pack];
      out.push_back({int(oil), int(pack), offer.grams, offer.price});
    }
  }
  return out;
}

std::vector<double> prices_of(const std::vector<PackKind>& kinds) {
  std::vector<double> out;
  for (const auto& kind : kinds) out.push_back(kind.price);
  return out;
}

}  // namespace

BuyingParts::BuyingParts(const BuyingQuestion& question, optimise::Allowance* allowance)
    : question_(question),
      allowance_(allowance),
      most_grams_(most_of_each(question, allowance)),
      kinds_(kinds_of(question, most_grams_)),
      free_(question.delivery, prices_of(kinds_), allowance) {
  const double dearest =
      *std::max_element(question.worth_per_kg.begin(), question.worth_per_kg.end());
  for (const auto& bar : question.bars)
    hint_most_ += kHint * bar.oil_grams / 1000 * std::max(dearest, 0.0);
}

BuyingPart BuyingParts::all() const {
  BuyingPart part;
  part.counts.assign(kinds_.size(), 0);
  part.closed.assign(kinds_.size(), 0);
  for (const double most : most_grams_) part.oils.push_back(most > 0 ? Oil::free : Oil::out);
  return part;
}

void BuyingParts::buy(BuyingPart& part, std::size_t kind, int packs) const {
  part.counts[kind] += packs;
  part.goods += packs * kinds_[kind].price;
}

std::vector<double> BuyingParts::there(const BuyingPart& part) const {
  std::vector<double> out = question_.stock_grams;
  for (std::size_t k = 0; k < kinds_.size(); ++k)
    out[std::size_t(kinds_[k].oil)] += part.counts[k] * kinds_[k].grams;
  return out;
}

// Leaves out what the counts have no room for any more. Returns whether they are kept at all.
bool BuyingParts::count(BuyingPart& part) const {
  int in = 0, in_fresh = 0;
  for (std::size_t oil = 0; oil < oils(); ++oil) {
    if (part.oils[oil] != Oil::in) continue;
    ++in;
    in_fresh += fresh(oil);
  }
  const int most = question_.most_oils > 0 ? question_.most_oils : int(oils());
  const int most_new = question_.most_new < 0 ? int(oils()) : question_.most_new;
  if (in > most || in_fresh > most_new) return false;
  for (std::size_t oil = 0; oil < oils(); ++oil) {
    if (part.oils[oil] != Oil::free) continue;
    if (in == most || (in_fresh == most_new && fresh(oil))) part.oils[oil] = Oil::out;
  }
  return true;
}

bool BuyingParts::counts_kept(const std::vector<int>& set) const {
  const auto news =
      std::count_if(set.begin(), set.end(), [&](int oil) { return fresh(std::size_t(oil)); });
  return (question_.most_oils <= 0 || int(set.size()) <= question_.most_oils) &&
         (question_.most_new < 0 || int(news) <= question_.most_new);
}

// What a gram of an oil adds to the cash at least. A pack of which the range cannot use all costs
// its whole price all the same.
double BuyingParts::per_gram(std::size_t kind) const {
  return kinds_[kind].price /
         std::min(kinds_[kind].grams, most_grams_[std::size_t(kinds_[kind].oil)]);
}

std::size_t BuyingParts::cheapest_open(const BuyingPart& part, std::size_t oil) const {
  std::size_t best = kinds_.size();
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    if (std::size_t(kinds_[k].oil) != oil || part.closed[k]) continue;
    if (best == kinds_.size() || per_gram(k) < per_gram(best)) best = k;
  }
  return best;
}

double BuyingParts::gap(const BuyingPart& part, std::size_t oil, std::size_t kind) const {
  const double price = kinds_[kind].price;
  return price - std::min(price, part.bought[oil] * per_gram(kind) * 1000);
}

bool BuyingParts::bound(BuyingPart& part, double cap) const {
  if (!count(part)) return false;
  const std::vector<double> have = there(part);
  std::vector<JointColumn> columns;
  std::vector<double> per_kg(oils(), optimise::kInfinity);
  for (std::size_t k = 0; k < kinds_.size(); ++k) {
    // Of what the range cannot use up more is of no use: goods that free the delivery are apart.
    const auto oil = std::size_t(kinds_[k].oil);
    if (have[oil] >= most_grams_[oil]) part.closed[k] = 1;
  }
  for (std::size_t oil = 0; oil < oils(); ++oil) {
    if (part.oils[oil] == Oil::out) continue;
    if (have[oil] > 0) columns.push_back({int(oil), false});
    const std::size_t kind = cheapest_open(part, oil);
    if (kind == kinds_.size()) continue;
    per_kg[oil] = 1000 * per_gram(kind);
    columns.push_back({int(oil), true});
  }
  if (columns.empty()) return false;
  Joint joint(question_, columns, true);
  optimise::Problem& problem = joint.problem();
  optimise::Goal cash;
  cash.form = joint.empty();
  for (std::size_t c = 0; c < columns.size(); ++c) {
    const auto oil = std::size_t(columns[c].oil);
    const optimise::Form kilograms = joint.kilograms(c);
    const double price =
        kHint * question_.worth_per_kg[oil] + (columns[c].bought ? per_kg[oil] : 0);
    for (std::size_t v = 0; v < kilograms.linear.size(); ++v)
      cash.form.linear[v] += price * kilograms.linear[v];
    if (!columns[c].bought)
      problem.limits.push_back({kilograms, -optimise::kInfinity, have[oil] / 1000, -1});
  }
  limit_counts(joint, columns, part);
  const optimise::Relaxed solved = optimise::relaxed(problem, cash, allowance_);
  if (solved.empty) return false;
  const double more = std::max(0.0, solved.bound - hint_most_);
  part.bound = std::max(part.bound, question_.delivery.least_cash(part.goods + more));
  // Nor less than the packs it holds, with whatever may free the delivery.
  part.bound = std::max(part.bound, free_.least_cash(part.goods));
  if (part.bound >= cap) return false;
  part.used.assign(oils(), 0);
  part.bought.assign(oils(), 0);
  for (std::size_t c = 0; c < columns.size(); ++c) {
    const auto oil = std::size_t(columns[c].oil);
    const double kg = joint.kilograms_at(c, solved.point);
    part.used[oil] += kg;
    if (columns[c].bought) part.bought[oil] += kg;
  }
  return true;
}

// An oil that is used takes a whole place among so many, though the relaxation uses little of it.
void BuyingParts::limit_counts(Joint& joint, const std::vector<JointColumn>& columns,
                               const BuyingPart& part) const {
  const auto add = [&](int most, bool only_fresh) {
    optimise::Form places = joint.empty();
    int in = 0;
    for (std::size_t oil = 0; oil < oils(); ++oil)
      in += part.oils[oil] == Oil::in && (!only_fresh || fresh(oil));
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const auto oil = std::size_t(columns[c].oil);
      if (part.oils[oil] != Oil::free || (only_fresh && !fresh(oil))) continue;
      const optimise::Form kilograms = joint.kilograms(c);
      for (std::size_t v = 0; v < kilograms.linear.size(); ++v)
        places.linear[v] += 1000 * kilograms.linear[v] / most_grams_[oil];
    }
    joint.problem().limits.push_back(
        {std::move(places), -optimise::kInfinity, double(most - in), -1});
  };
  if (question_.most_oils > 0) add(question_.most_oils, false);
  if (question_.most_new >= 0) add(question_.most_new, true);
}

std::vector<int> BuyingParts::used(const BuyingPart& part) const {
  std::vector<int> out;
  for (std::size_t oil = 0; oil < oils(); ++oil)
    if (part.used[oil] >= kUsedKilograms) out.push_back(int(oil));
  return out;
}

std::vector<int> BuyingParts::at_hand(const BuyingPart& part) const {
  const std::vector<double> have = there(part);
  std::vector<int> out;
  for (std::size_t oil = 0; oil < oils(); ++oil)
    if (part.oils[oil] != Oil::out && have[oil] > 0) out.push_back(int(oil));
  return out;
}

}  // namespace barwright::jobs
