#include "solver/jobs/swap/swap_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solver/formulate/subject.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/swap/swap_bench.hpp"
#include "solver/jobs/swap/swap_candidates.hpp"
#include "solver/recipe/bar_settings.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "solver/recipe/sizing.hpp"
#include "targets/model/feel.hpp"

namespace barwright::jobs {
namespace {

targets::MakeSize size_of(const targets::SwapBrief& brief) {
  if (brief.make) return *brief.make;
  targets::MakeSize make;
  make.oils_grams =
      brief.recipe.blend.grams > 0 ? brief.recipe.blend.grams : recipe::kDefaultOilGrams;
  return make;
}

std::vector<double> old_shares(const targets::SwapBrief& brief,
                               const formulate::Candidates& candidates) {
  std::vector<double> out(candidates.oils.size(), 0.0);
  for (const auto& part : brief.recipe.blend.oils) {
    for (std::size_t i = 0; i < out.size(); ++i) {
      if (candidates.oils[i].oil.name == part.oil.name) out[i] = part.share;
    }
  }
  return out;
}

core::RecipeRequest pot(const SwapJob& job, std::span<const double> shares, double oil_grams) {
  std::vector<recipe::PotOil> oils;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    if (!(shares[i] > 0)) continue;
    const double grams = shares[i] * oil_grams;
    oils.push_back({job.blend.candidates.oils[i].for_lye(grams), grams});
  }
  std::stable_sort(oils.begin(), oils.end(), [](const recipe::PotOil& a, const recipe::PotOil& b) {
    return a.grams > b.grams;
  });
  return recipe::recipe_request(oils, job.brief.lye, job.brief.scale, job.bars);
}

formulate::KnownBar old_bar(const SwapJob& job) {
  formulate::KnownBar bar;
  bar.name = job.brief.recipe.name.empty() ? "the old bar" : job.brief.recipe.name;
  bar.composition = formulate::mixed(job.blend.candidates.oils, job.old_shares);
  bar.settings = recipe::settings_of(job.old_recipe);
  bar.priced = true;
  for (std::size_t i = 0; i < job.old_shares.size(); ++i) {
    const double share = job.old_shares[i];
    if (share == 0) continue;
    const auto& candidate = job.blend.candidates.oils[i];
    bar.saponification_value += share * candidate.oil.saponification_value.span.typical;
    bar.iodine_value += share * candidate.oil.iodine_value.span.typical;
    bar.parts.push_back({candidate.oil, share});
    if (candidate.price_per_kg) {
      bar.price_per_kg += share * *candidate.price_per_kg;
    } else {
      bar.priced = false;
    }
  }
  return bar;
}

void add_claims(const SwapJob& job, targets::Brief& question) {
  for (const auto& claim : job.brief.claims) {
    if (claim.first_names > 0) continue;
    for (std::size_t i = 0; i < job.old_shares.size(); ++i) {
      if (job.old_shares[i] == 0) continue;
      const auto& oil = job.blend.candidates.oils[i].oil;
      const bool carries = std::any_of(claim.tags.begin(), claim.tags.end(),
                                       [&](const std::string& tag) { return oil.has_tag(tag); });
      if (carries != claim.all) {
        claim.written.fail(
            fmt::format("the recipe as it stands does not keep this: {}", oil.name),
            "take the claim off this list (and off the label), or replace that oil too");
      }
    }
    targets::TagRule rule;
    rule.tags = claim.tags;
    rule.written = claim.written;
    if (claim.all) {
      rule.least = 1;
    } else {
      rule.most = 0;
    }
    question.rules.tags.push_back(std::move(rule));
  }
}

void add_saving(const targets::SwapBrief& brief, targets::Brief& question) {
  if (!brief.save) return;
  targets::Wish wish;
  wish.subject.kind = targets::Subject::Kind::oil_cost;
  wish.subject.per = brief.save->per;
  wish.subject.currency = brief.save->currency;
  wish.subject.name = "oil cost";
  wish.compared = true;
  wish.high = targets::Bound{-brief.save->amount, 0};
  wish.written = brief.save_written;
  question.wishes.push_back(std::move(wish));
}

targets::Goal nearest() {
  targets::Goal goal;
  goal.kind = targets::Goal::Kind::nearest_in_feel;
  goal.written.text = "nearest in feel";
  return goal;
}

std::vector<std::string> by_weight(const targets::Blend& blend) {
  std::vector<targets::BlendOil> oils = blend.oils;
  std::stable_sort(oils.begin(), oils.end(),
                   [](const auto& a, const auto& b) { return a.share > b.share; });
  std::vector<std::string> out;
  for (const auto& part : oils) out.push_back(part.oil.name);
  return out;
}

std::vector<std::string> aspects(const targets::Keep& keep) {
  std::vector<std::string> out;
  for (const auto& aspect : keep.matters_most) {
    out.push_back(aspect.property ? std::string(targets::name(*aspect.property)) : "dry touch");
  }
  return out;
}

void keep_in_problem(BlendJob& blend, SwapKeep keep) {
  keep.first_wish = blend.brief.wishes.size();
  blend.more = [keep](formulate::Formulation& out, const formulate::Candidates& candidates,
                      const formulate::Assumed& assumed) {
    keep_swap(out, candidates, assumed, keep);
  };
}

SwapKeep what_to_keep(const SwapJob& job) {
  SwapKeep keep{.keep = job.brief.keep,
                .label = {},
                .old_bar = *job.blend.yardstick,
                .emphasis = job.emphasis,
                .feel_goals = {},
                .old_order = by_weight(job.brief.recipe.blend),
                .first_wish = 0,
                .level = job.brief.sureness,
                .model = job.blend.model};
  for (const auto& claim : job.brief.claims) {
    if (claim.first_names > 0) keep.label.push_back(claim);
  }
  for (std::size_t g = 0; g < job.blend.brief.goals.size(); ++g) {
    const auto& goal = job.blend.brief.goals[g];
    if (goal.kind == targets::Goal::Kind::nearest_in_feel && goal.feel_of.empty()) {
      keep.feel_goals.push_back(g);
    }
  }
  return keep;
}

}  // namespace

core::RecipeRequest swap_request(const SwapJob& job, std::span<const double> shares,
                                 double oil_grams) {
  return pot(job, shares, oil_grams);
}

SwapJob swap_job(targets::SwapBrief brief, const oils::Library& library,
                 const SwapSources& sources) {
  SwapJob job{.brief = std::move(brief),
              .blend = {{}, {}, {}, sources.model, {}, {}},
              .old_recipe = {},
              .old_shares = {},
              .emphasis = {},
              .have = {},
              .prices = sources.prices,
              .delivery = sources.delivery};
  check_currency(job.brief, sources);
  auto& question = job.blend.brief;
  question.file = job.brief.file;
  question.folder = job.brief.folder;
  question.name = job.brief.name;
  question.oils_from = job.brief.using_oils;
  question.wishes = job.brief.wishes;
  question.goals = job.brief.goals.empty() ? std::vector{nearest()} : job.brief.goals;
  question.rules = job.brief.rules;
  // What stays is to stay as it was, to the per cent; what comes in is the question. How near the
  // feel has to stay is the swap's own limit, and what more of it would cost is shown.
  for (const char* other : {"round shares", "own oils", "hardness", "lather", "mildness",
                            "conditioning", "thrift", "staying", "quickness"})
    question.rules.manners.off.emplace_back(other);
  for (const auto& limit : job.brief.replace) question.rules.oils.push_back(limit);
  question.lye = job.brief.lye;
  question.scale = job.brief.scale;
  question.sureness = job.brief.sureness;
  job.blend.candidates = swap_candidates(job.brief, library, sources);
  job.old_shares = old_shares(job.brief, job.blend.candidates);
  std::vector<const oils::Shelf*> shelves;
  if (sources.shelf) shelves.push_back(&*sources.shelf);
  for (const auto& other : sources.others) shelves.push_back(&other);
  for (const auto* shelf : shelves) {
    for (const auto& holding : shelf->holdings()) {
      job.have[holding.oil] += holding.usable_grams();
    }
  }
  question.make = size_of(job.brief);
  job.bars = recipe::bars(question.make);
  job.old_recipe = core::weigh(
      recipe::sized([&](double grams) { return pot(job, job.old_shares, grams); }, question.make));
  if (job.bars == 0) {
    job.bars =
        std::max(1, static_cast<int>(std::lround(job.old_recipe.total_grams / kAssumedBarGrams)));
    job.bar_grams = job.old_recipe.total_grams / job.bars;
    question.make->bars_per_batch = job.bars;
  }
  add_claims(job, question);
  add_saving(job.brief, question);
  job.blend.yardstick = old_bar(job);
  const auto matters = aspects(job.brief.keep);
  job.emphasis = targets::emphasis(matters);
  job.blend.plain_bar = [library](const std::string& name, const targets::Written& written) {
    targets::Yardstick plain;
    plain.name = plain.shipped = name;
    plain.written = written;
    return known_bar(plain, library, std::nullopt);
  };
  keep_in_problem(job.blend, what_to_keep(job));
  return job;
}

BlendJob nearest_anyway(const SwapJob& job) {
  BlendJob out = job.blend;
  if (job.brief.save) out.brief.wishes.pop_back();
  out.brief.goals = {nearest()};
  SwapKeep keep = what_to_keep(job);
  keep.keep.feel = targets::Keep::Feel::free;
  keep.feel_goals = {0};
  keep_in_problem(out, std::move(keep));
  return out;
}

targets::SwapBrief swap_of_recipe(const targets::RecipeFile& recipe,
                                  const std::vector<std::string>& out, double keep_at_most,
                                  const targets::OilsFrom& using_oils) {
  targets::SwapBrief brief;
  brief.file = recipe.file;
  brief.folder = recipe.folder;
  brief.recipe = recipe;
  brief.make = recipe.make;
  brief.lye = recipe.lye;
  brief.scale = recipe.scale;
  brief.shelf = recipe.shelf;
  brief.using_oils = using_oils;
  brief.name = recipe.name.empty() ? recipe.file : recipe.name;
  // One oil more than before: an answer of many dabs is no recipe to pour from.
  brief.rules.most_oils = static_cast<int>(recipe.blend.oils.size()) + 1;
  brief.rules.most_oils_written = {"oils: at most one more than now", {recipe.file, 0, 0}, {}};
  for (const auto& name : out) {
    targets::OilLimit limit;
    limit.oil = {name, {"--out " + name, {recipe.file, 0, 0}, {}}};
    limit.most = keep_at_most;
    limit.written = {keep_at_most > 0
                         ? fmt::format("{}: at most {:.4g} %", name, 100 * keep_at_most)
                         : name + ": none",
                     {recipe.file, 0, 0},
                     {}};
    brief.replace.push_back(std::move(limit));
    brief.name += (brief.replace.size() == 1 ? " without " : ", ") + name;
  }
  return brief;
}

}  // namespace barwright::jobs
