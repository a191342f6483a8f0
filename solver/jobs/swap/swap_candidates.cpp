#include "solver/jobs/swap/swap_candidates.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/units/error.hpp"
#include "solver/jobs/blend_job_reader.hpp"

namespace barwright::jobs {
namespace {

bool asks_money(const targets::SwapBrief& brief) {
  const auto costs = [](const targets::Wish& wish) {
    return wish.subject.kind == targets::Subject::Kind::oil_cost;
  };
  const auto cheap = [](const targets::Goal& goal) {
    return goal.kind == targets::Goal::Kind::cheapest ||
           goal.subject.kind == targets::Subject::Kind::oil_cost;
  };
  return brief.save.has_value() || std::any_of(brief.wishes.begin(), brief.wishes.end(), costs) ||
         std::any_of(brief.goals.begin(), brief.goals.end(), cheap);
}

// Every holding, however little is left of it.
oils::Shelf well_filled(oils::Shelf shelf) {
  for (auto& lot : shelf.lots) {
    lot.keep_grams = 0;
    lot.grams = std::max(lot.grams, 1.0);
  }
  return shelf;
}

// Adds what stands on another shelf; an oil that is known already may get its price from there.
void add_shelf(formulate::Candidates& out, const oils::Shelf& other, const oils::Library& library) {
  targets::Brief question;
  question.oils_from.shelf = true;
  for (auto& candidate : candidates_for(question, library, well_filled(other)).oils) {
    const auto known = std::find_if(
        out.oils.begin(), out.oils.end(),
        [&](const formulate::Candidate& one) { return one.oil.name == candidate.oil.name; });
    if (known == out.oils.end()) {
      out.oils.push_back(std::move(candidate));
    } else if (!known->price_per_kg) {
      known->price_per_kg = candidate.price_per_kg;
    }
  }
  if (out.currency.empty()) out.currency = other.currency;
}

// Puts the true holding in, and its figures.
void as_held(formulate::Candidate& candidate, const SwapSources& sources) {
  std::vector<const oils::Shelf*> shelves;
  if (sources.shelf) shelves.push_back(&*sources.shelf);
  for (const auto& other : sources.others) shelves.push_back(&other);
  for (const auto* shelf : shelves) {
    auto holding = shelf->holding(candidate.oil.name);
    if (!holding) continue;
    auto tags = std::move(candidate.oil.tags);
    candidate.oil = holding->figures;
    candidate.oil.tags = std::move(tags);
    candidate.composition = targets::composition(candidate.oil);
    candidate.holding = std::make_shared<const oils::Holding>(std::move(*holding));
    return;
  }
}

}  // namespace

void check_currency(const targets::SwapBrief& brief, const SwapSources& sources) {
  std::vector<std::pair<std::string, std::string>> named;
  if (sources.shelf) named.emplace_back(sources.shelf->currency, sources.shelf->file);
  for (const auto& other : sources.others) named.emplace_back(other.currency, other.file);
  named.emplace_back(sources.prices.currency, sources.prices.file);
  if (brief.save) named.emplace_back(brief.save->currency, "'" + brief.save_written.text + "'");
  std::erase_if(named, [](const auto& one) { return one.first.empty(); });
  for (const auto& [currency, whose] : named) {
    if (currency == named[0].first) continue;
    throw core::InputError(
        {brief.file, 0, 0},
        fmt::format("{} is in {}, {} in {}", whose, currency, named[0].second, named[0].first),
        "Bring them to one currency: no rate of exchange is known here.");
  }
}

formulate::Candidates swap_candidates(const targets::SwapBrief& brief, const oils::Library& library,
                                      const SwapSources& sources) {
  targets::Brief question;
  question.file = brief.file;
  question.oils_from = brief.using_oils;
  question.oils_from.price_list.reset();
  question.oils_from.shelves.clear();
  for (const auto& part : brief.recipe.blend.oils) {
    question.oils_from.named.push_back(part.oil);
  }
  std::optional<oils::Shelf> shelf;
  if (sources.shelf) shelf = well_filled(*sources.shelf);
  if (brief.using_oils.price_list) {
    for (const auto& pack : sources.prices.packs) {
      question.oils_from.named.push_back({pack.oil, brief.using_oils.price_list->written});
    }
  }
  formulate::Candidates out = candidates_for(question, library, shelf);
  for (const auto& other : sources.others) add_shelf(out, other, library);
  if (out.currency.empty()) out.currency = sources.prices.currency;
  // The pails were filled up to be found; for the lye they hold what they hold.
  for (auto& candidate : out.oils) as_held(candidate, sources);
  const auto in_recipe = [&](const formulate::Candidate& candidate) {
    const auto& oils = brief.recipe.blend.oils;
    return std::any_of(oils.begin(), oils.end(), [&](const targets::BlendOil& part) {
      return part.oil.name == candidate.oil.name;
    });
  };
  for (auto& candidate : out.oils) {
    candidate.stock_grams.reset();
    // What is bought again costs what the list says now.
    const auto* pack = sources.prices.cheapest(candidate.oil.name);
    if (pack != nullptr) candidate.price_per_kg = pack->per_kg();
    // A recipe may well keep its own oil above its usual most: it was made so.
    if (in_recipe(candidate)) candidate.oil.usual_most.reset();
  }
  if (asks_money(brief)) {
    std::erase_if(out.oils, [&](const formulate::Candidate& candidate) {
      if (candidate.price_per_kg) return false;
      if (in_recipe(candidate)) {
        throw core::InputError(
            brief.recipe.blend.place,
            fmt::format("a saving is asked for, but {} of the old recipe has no price",
                        candidate.oil.name),
            "Put its price into the shelf file, or name a price list with --prices.");
      }
      out.left_out.push_back({candidate.oil.name, "no price is known"});
      return true;
    });
  }
  return out;
}

}  // namespace barwright::jobs
