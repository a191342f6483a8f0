#include "solver/app/blend/report_blend.hpp"

#include <algorithm>
#include <cmath>

#include "solver/app/blend/ways_out.hpp"
#include "solver/explain/posed.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/ways_out.hpp"
#include "targets/model/caution.hpp"
#include "targets/model/difference.hpp"
#include "targets/model/lean.hpp"

namespace barwright::app {
namespace {

bool wished(const targets::Brief& brief, targets::Property property) {
  const auto is = [&](const targets::Subject& subject) {
    return subject.kind == targets::Subject::Kind::property && subject.property == property;
  };
  return std::any_of(brief.wishes.begin(), brief.wishes.end(),
                     [&](const targets::Wish& wish) { return is(wish.subject); }) ||
         std::any_of(brief.goals.begin(), brief.goals.end(), [&](const targets::Goal& goal) {
           return (goal.kind == targets::Goal::Kind::most ||
                   goal.kind == targets::Goal::Kind::least) &&
                  is(goal.subject);
         });
}

std::optional<OilCost> cost_of(const jobs::BlendJob& job, const jobs::BlendResult& result,
                               const formulate::KnownBar& yardstick) {
  OilCost cost;
  for (const std::size_t i : result.used) {
    const auto& price = job.candidates.oils[i].price_per_kg;
    if (!price) return std::nullopt;
    cost.per_kg += result.shares[i] * *price;
  }
  const double kg = result.recipe.oils_grams / 1000;
  cost.per_batch = cost.per_kg * kg;
  if (result.assumed.bars > 0) {
    cost.per_bar = cost.per_batch / result.assumed.bars;
    if (yardstick.priced) {
      cost.yardstick_per_bar = yardstick.price_per_kg * kg / result.assumed.bars;
    }
  }
  return cost;
}

// A draft takes about 40 ms on an ordinary machine.
constexpr std::uint64_t kDraftWork = 32'000'000;

constexpr std::size_t kToBuy = 8, kToShow = 3;

// Leaves in what opens the way weighed out, the first few of it.
void keep_what_opens(const jobs::BlendJob& job, const jobs::BlendJob& wide,
                     const optimise::SearchOptions& options, explain::Purchases& purchases) {
  std::vector<explain::Purchase> kept;
  for (auto& purchase : purchases.found) {
    if (kept.size() == kToShow) break;
    jobs::BlendJob with = job;
    with.brief = wide.brief;
    for (const int oil : purchase.oils)
      with.candidates.oils.push_back(wide.candidates.oils[static_cast<std::size_t>(oil)]);
    with.manners = {};  // asked anew: a claim of the bar may keep out what is bought
    std::optional<bool> opened =
        jobs::opens([&] { return jobs::find_blend(with, options); }, options);
    if (opened.value_or(false))
      opened = jobs::opens([&] { return jobs::find_mannerly(with, options).result; }, options);
    if (!opened) purchases.complete = false;
    if (opened.value_or(false)) kept.push_back(std::move(purchase));
  }
  purchases.found = std::move(kept);
}

// The problem with every oil of the library the maker did not name, each to be bought in a pack.
void find_what_to_buy(const jobs::BlendJob& job, const jobs::BlendResult& result,
                      const oils::Library& library, const optimise::SearchOptions& options,
                      No& no) {
  jobs::BlendJob wide = job;
  explain::Offer offer;
  offer.to_buy.assign(job.candidates.oils.size(), false);
  for (const auto& oil : library.oils()) {
    const bool there =
        std::any_of(job.candidates.oils.begin(), job.candidates.oils.end(),
                    [&](const formulate::Candidate& c) { return c.oil.name == oil.name; });
    if (there || oil.form != oils::Form::triglyceride) continue;
    targets::Brief brief = job.brief;
    brief.oils_from = {};
    brief.oils_from.named.push_back({oil.name, job.brief.oils_from.written});
    brief.wishes.clear();
    brief.goals.clear();  // no price is asked of it
    formulate::Candidate bought = jobs::candidates_for(brief, library, std::nullopt).oils.front();
    bought.stock_grams = kUsualPackGrams;
    wide.candidates.oils.push_back(std::move(bought));
    offer.to_buy.push_back(true);
  }
  // Oils to buy have no price, so goals and wishes on cost wait: they cannot open a way anyway.
  const auto costs = [](const targets::Wish& wish) {
    return wish.subject.kind == targets::Subject::Kind::oil_cost;
  };
  const auto cheapest = [](const targets::Goal& goal) {
    return goal.kind == targets::Goal::Kind::cheapest;
  };
  if (std::any_of(wide.brief.wishes.begin(), wide.brief.wishes.end(), costs)) return;
  std::erase_if(wide.brief.goals, cheapest);
  const formulate::Formulation formulation = jobs::formulation_of(wide, result.assumed);
  optimise::Problem problem = formulation.problem;
  problem.goals.resize(std::min<std::size_t>(problem.goals.size(), 1));
  no.purchases = explain::find_purchases(problem, offer, options, {.most = kToBuy});
  keep_what_opens(job, wide, options, no.purchases);
  if (no.purchases.found.empty() && no.purchases.none) {
    no.purchases =
        explain::find_purchases(problem, offer, options, {.most = kToBuy, .pairs = true});
    keep_what_opens(job, wide, options, no.purchases);
  }
  for (const auto& candidate : wide.candidates.oils)
    no.purchase_names.push_back(candidate.oil.name);
}

// What explains an answer may be "so far" itself, and takes an end that is the same on every
// machine: so many parts of the tree for each question, and so much work for all of one kind (about
// a second), within what the whole brief is allowed.
class Explaining {
 public:
  explicit Explaining(const optimise::SearchOptions& options) : options_(options) {
    constexpr std::uint64_t kNodes = 20000, kWork = 800'000'000;
    if (options_.most_nodes == 0) options_.most_nodes = kNodes;
    allowance_ = {kWork, options.allowance};
    options_.allowance = &allowance_;
  }
  Explaining(const Explaining&) = delete;
  Explaining& operator=(const Explaining&) = delete;
  const optimise::SearchOptions& options() const { return options_; }

 private:
  optimise::SearchOptions options_;
  optimise::Allowance allowance_;
};

No why_not(const jobs::BlendJob& job, const jobs::BlendResult& result, const oils::Library& library,
           const ReportOptions& asked) {
  No no;
  const Explaining conflict(asked.search), reach(asked.search), fixes(asked.search);
  std::vector<explain::Posed> posed;
  for (const auto& slice : result.slices) posed.push_back({&slice.problem, &slice.wishes});
  no.conflict = explain::find_conflict(posed, conflict.options());
  no.reach = explain::find_reach(posed, reach.options());
  // What only weighing shows to be in the way has no smaller set to name.
  if (!no.conflict.proved) {
    no.conflict.wishes = explain::wish_ids(*posed.front().problem, *posed.front().wishes);
    no.conflict.sides.assign(no.conflict.wishes.size(), explain::Side::both);
  }
  std::vector<int> all = explain::wish_ids(*posed.front().problem, *posed.front().wishes);
  std::erase_if(all, [&](int wish) { return !can_be_changed(result.formulation, wish); });
  std::vector<int> which = no.conflict.wishes.empty() ? all : no.conflict.wishes;
  std::erase_if(which, [&](int wish) { return !can_be_changed(result.formulation, wish); });
  const Explaining written(asked.search);
  const auto seek = [&](const std::vector<int>& wishes) {
    jobs::WaysOut ways = jobs::ways_out(job, result, wishes, fixes.options());
    no.fixes = std::move(ways.fixes);
    no.ways = jobs::written_ways(job, result.formulation, no.fixes.fixes, written.options());
    if (!no.ways.empty() || !ways.together) return;
    const auto together =
        jobs::written_ways(job, result.formulation, {*ways.together}, written.options());
    if (!together.empty()) no.together = together.front();
  };
  seek(which);
  // Where other wishes collide as well, no change of these alone is a way out.
  if (no.ways.empty() && !no.together && which.size() < all.size()) seek(all);
  const Explaining purchases(asked.search);
  find_what_to_buy(job, result, library, purchases.options(), no);
  return no;
}

std::vector<explain::View> views(const jobs::BlendResult& result) {
  std::vector<explain::View> out;
  for (const auto& goal : result.formulation.problem.goals) {
    if (goal.pulls.empty()) out.push_back({goal.form, false, 0});
  }
  return out;
}

}  // namespace

std::vector<PropertyLine> property_lines(const targets::PropertyModel& model,
                                         const targets::Composition& bar,
                                         const targets::BarSettings& settings,
                                         const formulate::KnownBar& yardstick,
                                         std::span<const targets::NamedPart> parts) {
  std::vector<PropertyLine> lines;
  const auto& draws = model.readings();
  const auto& properties = targets::all_properties();
  const auto leans = targets::leans_on(model, properties, bar, settings, yardstick.composition,
                                       yardstick.settings);
  for (std::size_t p = 0; p < properties.size(); ++p) {
    const auto property = properties[p];
    PropertyLine line;
    line.property = property;
    line.value = model.value(property, bar, settings);
    line.against = targets::difference(model, draws, property, bar, settings, yardstick.composition,
                                       yardstick.settings);
    line.leans = targets::sentence(leans[p], parts);
    lines.push_back(std::move(line));
  }
  return lines;
}

const char* word(Depth depth) {
  return depth == Depth::draft ? "draft" : depth == Depth::reach ? "reach" : "full";
}

BlendReport report_blend(const jobs::BlendJob& asked, const oils::Library& library,
                         const ReportOptions& options) {
  BlendReport report;
  optimise::SearchOptions search = options.search;
  optimise::Allowance quick{kDraftWork, search.allowance};
  if (options.depth != Depth::full) search.allowance = &quick;
  report.manners = jobs::find_mannerly(asked, search);
  report.result = std::move(report.manners.result);
  const jobs::BlendJob& job = *report.manners.job;
  report.job = &job;
  report.compared = report.manners.held.bar;
  report.depth = options.depth;
  auto& result = report.result;
  const bool full = options.depth == Depth::full;
  if (options.depth == Depth::reach) {
    const Explaining reach(options.search);
    report.rails = jobs::rail_reach(asked, report.manners.held, result, reach.options());
  }
  if (full && result.answer.status == optimise::Status::infeasible) {
    report.no = why_not(job, result, library, options);
  }
  const bool teach = options.teach && full;
  if (teach && jobs::asks_for_sureness(job.brief)) {
    const Explaining sureness(options.search);
    report.sureness = jobs::price_of_sureness(job, result, {}, sureness.options());
  }
  if (!result.has_blend()) return report;
  if (options.try_lots > 0 || options.measured) {
    report.trial = jobs::try_lots(job, result, options.try_lots, options.seed, options.measured);
    if (options.measured) report.trial_of = options.measured->oil + " in " + options.measured_file;
  }
  std::vector<targets::NamedPart> parts;
  for (const std::size_t i : result.used) {
    const auto& candidate = job.candidates.oils[i];
    parts.push_back({candidate.oil.name, candidate.composition, result.shares[i]});
  }
  report.properties =
      property_lines(job.model, result.composition, result.settings, report.compared, parts);
  for (auto& line : report.properties) line.wished = wished(job.brief, line.property);
  report.cost = cost_of(job, result, report.compared);
  report.cautions = targets::cautions(result.composition);
  const bool proved = result.answer.status == optimise::Status::optimal;
  if (teach && proved && !result.formulation.problem.goals.empty() &&
      result.formulation.fewest_oils_at < 0) {
    optimise::Problem first = result.formulation.problem;
    first.goals.resize(1);
    // Priced at the first goal's own best, not where ties let it give way to a later goal.
    const Explaining explaining(options.search);
    const optimise::Answer best = optimise::search(first, explaining.options());
    if (best.status == optimise::Status::optimal) {
      report.prices =
          explain::find_prices(first, result.formulation.wishes, best, explaining.options(),
                               {.most_steps = 8, .most_slack = 0.5});
    }
  }
  if (full && options.answers > 1) {
    report.alternatives =
        explain::find_alternatives(result.formulation.problem, options.answers - 1, options.apart,
                                   views(result), options.search);
  }
  return report;
}

}  // namespace barwright::app
