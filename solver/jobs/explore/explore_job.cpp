#include "solver/jobs/explore/explore_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solver/explain/relax_wish.hpp"
#include "solver/formulate/blend_forms.hpp"
#include "solver/formulate/feel_goal.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/explore/explore_plan.hpp"
#include "solver/jobs/swap/swap_job.hpp"
#include "solver/optimise/within.hpp"

namespace barwright::jobs {
namespace {

// Levels of `likely` that the price of sureness is told at, and how long each may take: it is a
// help, not the answer, and the same on every machine.
constexpr double kSureShares[] = {0.8, 0.9, 0.95, 0.99};
constexpr std::uint64_t kSureNodes = 4000;

// Two more blends, each a tenth of the oils away from those before (judgement).
constexpr int kOtherBlends = 2;
constexpr double kTrulyDifferent = 0.10;

formulate::Candidates candidates(const targets::ExploreBrief& brief, const oils::Library& library,
                                 const std::optional<oils::Shelf>& shelf,
                                 const oils::PriceList& list, std::vector<double>& stock) {
  targets::Brief question;
  question.file = brief.file;
  question.oils_from = brief.oils_from;
  question.oils_from.price_list.reset();
  if (brief.already_have) question.oils_from.shelf = brief.already_have->shelf;
  for (const auto& pack : list.packs) {
    question.oils_from.named.push_back({pack.oil, brief.oils_from.written});
  }
  formulate::Candidates out = candidates_for(question, library, shelf);
  if (out.currency.empty()) out.currency = list.currency;
  std::erase_if(out.oils, [&](formulate::Candidate& candidate) {
    const auto* pack = list.cheapest(candidate.oil.name);
    if (!candidate.price_per_kg && pack != nullptr) candidate.price_per_kg = pack->per_kg();
    if (candidate.price_per_kg) return false;
    out.left_out.push_back({candidate.oil.name, "no price is known"});
    return true;
  });
  for (auto& candidate : out.oils) {
    stock.push_back(candidate.on_shelf ? candidate.stock_grams.value_or(0) : 0);
    candidate.stock_grams.reset();
  }
  return out;
}

// One currency throughout: no rate of exchange is known here.
void check_currency(const targets::ExploreBrief& brief, const std::optional<oils::Shelf>& shelf,
                    const oils::PriceList& list) {
  std::vector<std::pair<std::string, std::string>> named;
  if (shelf) named.emplace_back(shelf->currency, "the prices of the shelf " + shelf->file);
  named.emplace_back(list.currency, "the price list " + list.file);
  const auto& money = brief.money;
  for (const auto* price : {&money.spend_now, &money.delivery_flat, &money.delivery_free_over}) {
    if (*price) named.emplace_back((*price)->currency, "the brief's money");
  }
  for (const auto& wish : brief.cost) {
    named.emplace_back(wish.subject.currency, "'" + wish.written.text + "'");
  }
  std::erase_if(named, [](const auto& one) { return one.first.empty(); });
  for (const auto& [currency, whose] : named) {
    if (currency == named[0].first) continue;
    brief.oils_from.written.fail(
        named[0].second + " are in " + named[0].first + ", " + whose + " is in " + currency,
        "Bring them to one currency: no rate of exchange is known here.");
  }
}

targets::Goal cheapest() {
  targets::Goal goal;
  goal.kind = targets::Goal::Kind::cheapest;
  goal.written.text = "cheapest";
  return goal;
}

int batch_bars(const targets::ExploreBrief& brief) {
  if (brief.plan && brief.plan->bars_per_batch) return *brief.plan->bars_per_batch;
  return brief.plan ? brief.plan->bars : 36;
}

// In the order of the range, what is left over goes to the last.
int bars_of(const targets::ExploreBrief& brief, std::size_t which) {
  const int all = brief.plan ? brief.plan->bars : 36;
  const auto share = [&](std::size_t b) {
    return static_cast<int>(std::lround(brief.range[b].share_of_bars * all));
  };
  if (which + 1 < brief.range.size()) return share(which);
  int before = 0;
  for (std::size_t b = 0; b < which; ++b) before += share(b);
  return all - before;
}

BlendJob question_of(const ExploreJob& job, const targets::RangeBar& bar,
                     const formulate::Candidates& candidates, const oils::Library& library,
                     const std::optional<oils::Shelf>& shelf) {
  BlendJob out{{}, candidates, {}, targets::PropertyModel::embedded(), {}, {}};
  const auto& brief = job.brief;
  out.brief.file = brief.file;
  out.brief.folder = brief.folder;
  out.brief.name = bar.what_for;
  out.brief.oils_from = brief.oils_from;
  out.brief.wishes = bar.wishes;
  out.brief.wishes.insert(out.brief.wishes.end(), brief.cost.begin(), brief.cost.end());
  out.brief.goals = bar.goals.empty() ? std::vector{cheapest()} : bar.goals;
  out.brief.rules = brief.rules;
  if (brief.most_oils && !out.brief.rules.most_oils) {
    out.brief.rules.most_oils = brief.most_oils;
    out.brief.rules.most_oils_written = brief.most_oils_written;
  }
  out.brief.lye = brief.lye;
  out.brief.scale = brief.scale;
  out.brief.sureness = brief.sureness;
  if (brief.make) {
    out.brief.make = brief.make;
  } else {
    out.brief.make.emplace();
    out.brief.make->bars = {batch_bars(brief), kAssumedBarGrams, targets::Bars::Weighed::cut};
  }
  if (bar.compared_with) out.yardstick = known_bar(*bar.compared_with, library, shelf);
  out.plain_bar = [library](const std::string& name, const targets::Written& written) {
    targets::Yardstick plain;
    plain.name = plain.shipped = name;
    plain.written = written;
    return known_bar(plain, library, std::nullopt);
  };
  return out;
}

// All that is seen around a bar's best blend.
void look_around(const ExploreJob& job, int points, const optimise::SearchOptions& options,
                 ExploredBar& out) {
  const BlendJob& kept = *out.job;
  optimise::Problem problem = held_as_weighed(kept, out.found, options);
  const optimise::Form cost = optimise::weighted_sum(job.price_per_kg);
  const std::vector<explain::View> none;
  out.others = explain::find_alternatives(problem, kOtherBlends, kTrulyDifferent, none, options);
  if (kept.yardstick) {
    optimise::Problem feel = problem;
    feel.goals = {formulate::feel_goal(
        formulate::feel_over_oils(kept.model, out.found.assumed.settings, job.candidates().oils),
        formulate::feel_points(kept.model, *kept.yardstick))};
    out.curve = explain::trade_off(feel, cost, points, options);
  }
  for (const auto& trade : job.trades) {
    out.traced.push_back(
        trace_trade(kept, out.found, problem, job.price_per_kg, trade, points, options));
  }
  problem.goals = {optimise::Goal{cost, {}, 0}};
  const optimise::Answer best = optimise::search(problem, options);
  if (best.status != optimise::Status::optimal) return;
  out.cheapest = best.steps;
  for (int oil = 0; oil < static_cast<int>(job.price_per_kg.size()); ++oil) {
    const auto at = static_cast<std::size_t>(oil);
    if (best.steps[at] > 0) {
      out.room.push_back({oil, job.price_per_kg[at],
                          price_ceiling(problem, job.price_per_kg, best.steps, oil, options)});
    } else if (job.stock_grams[at] <= 0 && problem.oils[at].most > 0) {
      out.worth.push_back({oil, job.price_per_kg[at],
                           price_worth(problem, job.price_per_kg, best.steps, oil, options)});
    }
  }
}

// So much of what the allowance still holds, that no question starves those after it.
class PartOf : public optimise::Within {
 public:
  PartOf(const optimise::SearchOptions& options, double part)
      : Within(options, static_cast<std::uint64_t>(
                            part * static_cast<double>(optimise::work_left(options)))) {}
};

bool depends_on_lots(const targets::Brief& brief) {
  using Kind = targets::Subject::Kind;
  return targets::asks_for_any(brief, [](const targets::Subject& subject) {
    return subject.kind != Kind::oil_cost &&
           (subject.kind != Kind::property || targets::PropertyModel::has_form(subject.property));
  });
}

std::optional<SurenessPrice> what_sureness_costs(const BlendJob& job, const ExploredBar& bar,
                                                 optimise::SearchOptions options) {
  if (!depends_on_lots(job.brief) || explain::out_of_time(options)) return std::nullopt;
  if (!bar.found.has_blend() && !asks_for_sureness(job.brief)) return std::nullopt;
  if (options.most_nodes == 0) options.most_nodes = kSureNodes;
  SurenessPrice out = price_of_sureness(job, bar.found, bar.manners.given, kSureShares, options);
  if (out.levels.front().status == optimise::Status::infeasible) return std::nullopt;
  return out;
}

}  // namespace

ExploreJob explore_job(targets::ExploreBrief brief, const oils::Library& library,
                       const std::optional<oils::Shelf>& shelf, bool skip_wrong_rows) {
  ExploreJob job{.brief = std::move(brief),
                 .bars = {},
                 .stock_grams = {},
                 .packs = {},
                 .price_per_kg = {},
                 .skipped = {},
                 .trades = {}};
  for (const auto& written : job.brief.curves) {
    const auto trade = find_trade(written.text);
    if (!trade) written.fail("'" + written.text + "' is no curve", trades_known());
    job.trades.push_back(*trade);
  }
  if (const auto& have = job.brief.already_have;
      have &&
      (have->library || !have->named.empty() || have->price_list || !have->shelves.empty())) {
    have->written.fail("what is there already is what stands on the shelf",
                       "write 'already-have: shelf', and 'shelf: my-shelf.yaml' below it");
  }
  oils::PriceList list;
  if (job.brief.oils_from.price_list) {
    std::span<const oils::ListMapping> known;
    if (shelf) known = shelf->lists;
    list = oils::read_price_list(job.brief.oils_from.price_list->path, library, skip_wrong_rows,
                                 known);
    job.tax = list.tax;
  }
  check_currency(job.brief, shelf, list);
  const formulate::Candidates all = candidates(job.brief, library, shelf, list, job.stock_grams);
  for (const auto& candidate : all.oils) {
    job.price_per_kg.push_back(*candidate.price_per_kg);
    job.packs.emplace_back();
    for (const auto& pack : list.packs) {
      if (pack.oil == candidate.oil.name) job.packs.back().push_back(pack);
    }
  }
  job.skipped = list.skipped;
  if (!job.brief.make) job.bar_grams = kAssumedBarGrams;
  const int batch = batch_bars(job.brief);
  for (std::size_t b = 0; b < job.brief.range.size(); ++b) {
    const auto& bar = job.brief.range[b];
    const int bars = bars_of(job.brief, b);
    job.bars.push_back({bar.what_for, question_of(job, bar, all, library, shelf), bars,
                        (bars + batch - 1) / batch, batch});
  }
  return job;
}

Explored explore(const ExploreJob& job, int points, const optimise::SearchOptions& options) {
  Explored out;
  const double bars = static_cast<double>(job.bars.size());
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    const PartOf part(options, 1 / (bars - static_cast<double>(b) + 2));
    Mannerly found = find_mannerly(job.bars[b].job, part.options());
    out.bars.emplace_back();
    ExploredBar& bar = out.bars.back();
    bar.job = std::move(found.job);
    bar.manners = static_cast<MannersTold&>(found);
    bar.found = std::move(found.result);
  }
  {  // first: where time is short, what to buy matters most
    const PartOf part(options, 0.5);
    plan_range(job, part.options(), out);
  }
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    if (!out.bars[b].found.has_blend()) continue;
    const PartOf part(options, 1 / (bars - static_cast<double>(b) + 1));
    look_around(job, points, part.options(), out.bars[b]);
  }
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    out.bars[b].sureness = what_sureness_costs(job.bars[b].job, out.bars[b], options);
  }
  return out;
}

}  // namespace barwright::jobs
