#include "solver/jobs/report/what_to_buy.hpp"

#include <algorithm>

#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/mannerly.hpp"

namespace barwright::jobs {

namespace {

constexpr std::size_t kToBuy = 8, kToShow = 3;

// Leaves in what opens the way weighed out, the first few of it.
void keep_what_opens(const BlendJob& job, const BlendJob& wide,
                     const optimise::SearchOptions& options, explain::Purchases& purchases) {
  std::vector<explain::Purchase> kept;
  for (auto& purchase : purchases.found) {
    if (kept.size() == kToShow) break;
    BlendJob with = job;
    with.brief = wide.brief;
    for (const int oil : purchase.oils)
      with.candidates.oils.push_back(wide.candidates.oils[static_cast<std::size_t>(oil)]);
    with.manners = {};  // asked anew: a claim of the bar may keep out what is bought
    std::optional<bool> opened = opens([&] { return find_blend(with, options); }, options);
    if (opened.value_or(false))
      opened = opens([&] { return find_mannerly(with, options).result; }, options);
    if (!opened) purchases.complete = false;
    if (opened.value_or(false)) kept.push_back(std::move(purchase));
  }
  purchases.found = std::move(kept);
}

}  // namespace

// The problem with every oil of the library the maker did not name, each to be bought in a pack.
void find_what_to_buy(const BlendJob& job, const BlendResult& result, const oils::Library& library,
                      const optimise::SearchOptions& options, No& no) {
  BlendJob wide = job;
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
    formulate::Candidate bought = candidates_for(brief, library, std::nullopt).oils.front();
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
  const formulate::Formulation formulation = formulation_of(wide, result.assumed);
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

}  // namespace barwright::jobs
