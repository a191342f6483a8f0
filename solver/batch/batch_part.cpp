#include "solver/batch/batch_part.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/lye/dose.hpp"
#include "core/lye/pot_of.hpp"
#include "core/units/error.hpp"
#include "solver/batch/batch_when.hpp"
#include "solver/recipe/known_additions.hpp"
#include "solver/recipe/recipe_request.hpp"

namespace barwright::batch {
namespace {

constexpr double kFineStep = 0.001;  // g

const oils::Oil& oil_of(const BatchPlan& batch, const std::string& name) {
  return *batch.library.find(name);
}

double amount(const targets::Dose& dose, const core::DoseMasses& masses, int bars) {
  switch (dose.basis) {
    case targets::Basis::total:
      return dose.value;
    case targets::Basis::per_kg_oils:
      return dose.value * masses.oils / 1000;
    case targets::Basis::per_kg_batter:
      return dose.value * masses.batter / 1000;
    case targets::Basis::of_oils:
      return dose.value * masses.oils;
    case targets::Basis::of_water:
      return dose.value * masses.water;
    case targets::Basis::per_bar:
      if (bars == 0) {
        dose.written.fail("a dose per bar, but the number of bars is not known",
                          "Give the dose per kg of oils, or say how the logs are cut.");
      }
      return dose.value * bars;
  }
  return 0;
}

std::string remark(const oils::Additive* known, double grams, const core::DoseMasses& masses) {
  if (known == nullptr) {
    return "nothing is known of it here: ask its supplier whether it lives in fresh soap";
  }
  const double basis = masses.of(known->basis);
  std::string out;
  if (basis > 0 && 1000 * grams / basis > known->dose.span.high * (1 + 1e-9)) {
    out = fmt::format("{:.1f} g per kg {}: more than the usual {:.4g}", 1000 * grams / basis,
                      core::word(known->basis), known->dose.span.high);
  }
  if (known->alkali == oils::InAlkali::ask) {
    out += (out.empty() ? "" : "; ") + std::string("ask whether it lives in fresh soap");
  } else if (known->alkali == oils::InAlkali::dies) {
    out += (out.empty() ? "" : "; ") + std::string("does not live in fresh soap");
  }
  return out;
}

WeighedAddition weighed(const BatchPlan& batch, const targets::Addition& addition,
                        const core::DoseMasses& masses, int bars) {
  WeighedAddition out;
  out.name = addition.name;
  out.known = batch.additives.find(addition.name);
  const double asked = amount(addition.dose, masses, bars);
  // Grams the maker wrote stay as written: they may want a finer scale, which the sheet says.
  out.grams = addition.dose.basis == targets::Basis::total
                  ? asked
                  : core::rounded(asked, batch.scales.lye.step);
  if (out.grams == 0) out.grams = asked;
  out.when = !addition.when.empty() ? addition.when : out.known ? out.known->when : "at trace";
  out.remark = remark(out.known, out.grams, masses);
  return out;
}

struct Blended {
  std::vector<oils::Oil> kinds;
  std::vector<double> grams;
};

/// Grams of one oil that the batch's other parts take, when this one takes `grams`.
double elsewhere(const PartSize& size, const std::string& oil, double grams) {
  const auto all = size.wanted.find(oil);
  return all == size.wanted.end() ? 0 : std::max(0.0, all->second - grams);
}

oils::Oil figures(const BatchPlan& batch, const PartSize& size, const std::string& oil,
                  double grams, const std::optional<oils::Shelf>& shelf) {
  if (!shelf) return oil_of(batch, oil);
  for (const auto& premix : batch.file.premixes) {
    if (premix.name != oil) continue;
    return targets::premixed(premix, [&](const targets::BlendOil& one) {
      return figures(batch, size, one.oil.name, one.share * grams, shelf);
    });
  }
  const auto holding = shelf->holding(oil);
  return holding ? holding->figures_for(grams, elsewhere(size, oil, grams)) : oil_of(batch, oil);
}

/// The blend's grams once the wetting oil is taken off it.
Blended blend_of(const BatchPlan& batch, const targets::Part& part, const PartSize& size,
                 double wet_grams, const std::optional<oils::Shelf>& shelf) {
  Blended out;
  const double oil_grams = size.oil_grams;
  const bool off = part.wet_colour_with && part.wet_colour_with->from_blend;
  for (const auto& one : part.blend.oils) {
    double grams = one.share * oil_grams;
    if (off && part.wet_colour_with->in_blend) {
      if (one.oil.name == part.wet_colour_with->oil.name) grams -= wet_grams;
    } else if (off) {
      grams *= (oil_grams - wet_grams) / oil_grams;
    }
    if (grams < 0) {
      part.wet_colour_with->oil.written.fail(
          fmt::format("wetting the colours takes {:.4g} g of {}, but the blend holds only {:.4g} g",
                      wet_grams, one.oil.name, grams + wet_grams),
          "Wet with less, or write 'taken-from: on top'.");
    }
    out.grams.push_back(grams);
    out.kinds.push_back(figures(batch, size, one.oil.name, grams, shelf));
  }
  return out;
}

/// Leaves this part its share of what is dosed in all of the batch.
void portion_out(std::vector<targets::Addition>& additions, double share) {
  for (auto& addition : additions) {
    const auto basis = addition.dose.basis;
    if (basis == targets::Basis::total || basis == targets::Basis::per_bar)
      addition.dose.value *= share;
  }
}

}  // namespace

targets::LyeWish merged(const targets::LyeWish& batch, const targets::LyeWish& part) {
  targets::LyeWish out = batch;
  const auto lay = [](auto& under, const auto& over) {
    if (over) under = over;
  };
  if (part.alkali) {
    out.alkali = part.alkali;
    out.koh_share = part.koh_share;
    out.koh_basis = part.koh_basis;
  }
  lay(out.naoh_strength, part.naoh_strength);
  lay(out.koh_strength, part.koh_strength);
  lay(out.superfat, part.superfat);
  lay(out.never_below, part.never_below);
  lay(out.raise, part.raise);
  if (part.concentration || part.water_per_alkali || part.water_of_oils) {
    out.concentration = part.concentration;
    out.water_per_alkali = part.water_per_alkali;
    out.water_of_oils = part.water_of_oils;
  }
  lay(out.lye_celsius, part.lye_celsius);
  lay(out.oils_celsius, part.oils_celsius);
  if (!part.acids.empty()) out.acids = part.acids;
  if (!part.liquids.empty()) out.liquids = part.liquids;
  if (!part.into_lye.empty()) out.into_lye = part.into_lye;
  return out;
}

std::vector<PartSize> part_sizes(const BatchPlan& batch, const std::vector<double>& oils) {
  using List = std::vector<targets::Addition> targets::LyeWish::*;
  const auto& parts = batch.file.parts;
  const auto share = [&](std::size_t at, List list) {
    if (!(parts[at].lye.*list).empty()) return 1.0;
    double all = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if ((parts[i].lye.*list).empty()) all += oils[i];
    }
    return oils[at] / all;
  };
  std::vector<PartSize> out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    out.push_back({oils[i],
                   batch.bars,
                   share(i, &targets::LyeWish::acids),
                   share(i, &targets::LyeWish::liquids),
                   share(i, &targets::LyeWish::into_lye),
                   {}});
  }
  std::map<std::string, double> wanted;
  const auto want = [&](const std::string& oil, double grams) {
    for (const auto& premix : batch.file.premixes) {
      if (premix.name != oil) continue;
      for (const auto& one : premix.blend.oils) wanted[one.oil.name] += one.share * grams;
      return;
    }
    wanted[oil] += grams;
  };
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (const auto& one : parts[i].blend.oils) want(one.oil.name, one.share * oils[i]);
    const auto& wet = parts[i].wet_colour_with;
    if (wet && !(wet->from_blend && wet->in_blend)) {
      for (const auto& colour : parts[i].colours)
        want(wet->oil.name, colour.with.empty() ? 0 : wet->each_grams);
    }
  }
  for (auto& size : out) size.wanted = wanted;
  return out;
}

PartPlan plan_part(const BatchPlan& batch, const targets::Part& part, const PartSize& size,
                   const std::optional<oils::Shelf>& shelf) {
  const int bars = size.bars;
  PartPlan plan;
  plan.part = &part;
  plan.lye = merged(batch.file.lye, part.lye);
  portion_out(plan.lye.acids, size.acids_share);
  portion_out(plan.lye.liquids, size.liquids_share);
  portion_out(plan.lye.into_lye, size.into_lye_share);
  const auto& wet = part.wet_colour_with;
  if (wet) {
    plan.wet_oil = wet->oil.name;
    for (const auto& colour : part.colours)
      plan.wet_grams += colour.with.empty() ? 0 : wet->each_grams;
  }
  const Blended blend = blend_of(batch, part, size, plan.wet_grams, shelf);
  std::vector<recipe::PotOil> pot;
  for (std::size_t i = 0; i < blend.kinds.size(); ++i) {
    pot.push_back({blend.kinds[i], blend.grams[i]});
  }
  core::RecipeRequest request = recipe::recipe_request(pot, plan.lye, batch.file.scale, bars);
  const bool one_pot = batch.file.lye_pot == targets::BatchFile::LyePot::one;
  if (one_pot) {
    // The alkali is weighed for all parts at once; share_lye() judges its errors and the portion's.
    request.scales.lye = {kFineStep, 0.0};
  }
  for (auto& fat : request.oils) fat.grams = core::rounded(fat.grams, batch.scales.oils.step);
  if (plan.wet_grams > 0) {
    core::PotFat fat = recipe::pot_fat(
        {figures(batch, size, plan.wet_oil, plan.wet_grams, shelf), plan.wet_grams});
    fat.name = plan.wet_oil + " (wets colours)";
    fat.grams = core::rounded(fat.grams, batch.scales.oils.step);
    plan.wet_grams = fat.grams;
    request.other_fats.push_back(fat);
  }
  for (const auto& addition : request.additives) {
    plan.into_lye.push_back({addition.name,
                             core::rounded(addition.grams, batch.scales.lye.step),
                             {},
                             batch.additives.find(addition.name),
                             {}});
  }
  if (one_pot) {
    for (auto& acid : request.acids) acid.into = core::Into::oils;
  }
  for (std::size_t i = 0; i < request.additives.size(); ++i) {
    request.additives[i].grams = plan.into_lye[i].grams;
    // The one lye is made already: what belongs to a part's lye joins its portion.
    if (one_pot) request.additives[i].into = core::Into::cooled_lye;
  }
  for (auto& line : plan.into_lye) {
    for (const auto& said : plan.lye.into_lye) {
      if (said.name != line.name) continue;
      refuse_beside_lye(said);
      line.when = said.when;
    }
    if (line.when.empty() && line.known) line.when = line.known->when;
  }

  for (auto& acid : request.acids) {
    const double shown = core::rounded(acid.grams, batch.scales.lye.step);
    if (shown > 0) acid.grams = shown;
  }

  // What counts on batter and water needs the plain recipe first.
  const core::Recipe plain = core::weigh(request);
  core::DoseMasses masses{plain.oils_grams + plan.wet_grams, plain.total_grams,
                          plain.total_water_grams};
  for (const auto& addition : part.additives) {
    refuse_into_lye(addition);
    WeighedAddition line = weighed(batch, addition, masses, bars);
    if (recipe::is_acid(addition)) {  // weighed with the lye it takes part of, and only there
      request.acids.push_back(recipe::known_acid(addition, line.grams));
      // The maker's own word 'at trace' stands; else it meets the lye's water, or the oils where
      // the one lye is made already.
      const bool at_trace = addition.when.find("trace") != std::string::npos;
      request.acids.back().into = at_trace  ? core::Into::trace
                                  : one_pot ? core::Into::oils
                                            : core::Into::lye;
      if (at_trace) plan.additions.push_back(std::move(line));
      continue;
    }
    request.additives.push_back(
        recipe::known_in_part(addition, line.known, batch.library, line.grams, into_of(line.when)));
    plan.additions.push_back(std::move(line));
  }
  for (const auto& colour : part.colours) {
    ColourPlan one;
    one.name = colour.name;
    one.share = colour.share;
    one.batter_grams = colour.share * plain.total_grams;
    one.oils_grams = colour.share * masses.oils;
    one.wet_grams = wet && !colour.with.empty() ? wet->each_grams : 0;
    const core::DoseMasses own{one.oils_grams, one.batter_grams,
                               colour.share * plain.total_water_grams};
    for (const auto& addition : colour.with) {
      refuse_into_lye(addition);
      one.with.push_back(weighed(batch, addition, own, bars));
      request.additives.push_back(recipe::known_in_part(addition, one.with.back().known,
                                                        batch.library, one.with.back().grams,
                                                        core::Into::trace));
      request.additives.back().name += " (" + colour.name + ")";
    }
    plan.colours.push_back(std::move(one));
  }
  for (const auto& addition : part.top_with) {
    recipe::refuse_alkali(addition);
    refuse_into_lye(addition);
    plan.on_top.push_back(weighed(batch, addition, masses, bars));
  }
  for (const auto& embed : part.embeds) plan.embed_grams += embed.grams;

  const core::Recipe without = core::weigh(request);
  plan.scents = plan_scents(plan, without, batch.scales);
  for (const auto& scent : plan.scents) {
    core::Addition addition;
    addition.name = scent.scent->name;
    addition.grams = scent.grams;
    request.additives.push_back(addition);
  }
  plan.recipe = core::weigh(request);
  plan.request = request;
  for (auto& colour : plan.colours) colour.batter_grams = colour.share * plain.total_grams;

  plan.pot = core::pot_of(request, plan.recipe);
  plan.check = core::check_pot(plan.pot, batch.scales);

  std::vector<targets::Composition> compositions;
  std::vector<double> shares;
  const double all = plain.oils_grams + plan.wet_grams;
  const auto melt = [&](const oils::Oil& oil, double grams) {
    plan.melting.push_back({oil.typical_profile(), grams / all, oil.form == oils::Form::wax});
    compositions.push_back(targets::composition(oil));
    shares.push_back(grams / all);
  };
  for (std::size_t i = 0; i < blend.kinds.size(); ++i) melt(blend.kinds[i], request.oils[i].grams);
  if (plan.wet_grams > 0) melt(oil_of(batch, plan.wet_oil), plan.wet_grams);
  plan.composition = targets::mix(compositions, shares);
  return plan;
}

void take_portion(PartPlan& plan, const core::LyePortion& portion, const core::Scales& scales) {
  plan.portion = portion;
  plan.pot.alkali = portion.alkali;
  plan.check = core::check_pot(plan.pot, scales);
  core::Recipe& recipe = plan.recipe;
  double before = recipe.water_grams, after = portion.water_grams, pure = 0, weighed = 0;
  for (const auto& line : recipe.alkali) before += line.grams;
  recipe.alkali.clear();
  for (const auto& line : portion.alkali) {
    recipe.alkali.push_back({line.alkali, line.grams, line.strength.stated, line.grams});
    after += line.grams;
    weighed += line.grams;
    pure += line.grams * line.strength.stated;
  }
  recipe.total_water_grams += portion.water_grams - recipe.water_grams;
  recipe.water_grams = portion.water_grams;
  recipe.total_grams += after - before;
  recipe.superfat = plan.check.superfat;
  recipe.band = plan.check.band;
  recipe.lye_concentration = pure / (weighed + recipe.total_water_grams);
  recipe.mixed_concentration = pure / portion.solution_grams;
  recipe.pot_water_grams = portion.water_grams;
  recipe.water_to_alkali = recipe.total_water_grams / weighed;
  double fat_grams = 0;  // milk fat and the like too: it is no dry matter
  for (const auto& fat : plan.pot.fats) fat_grams += fat.grams;
  recipe.products = core::products_of(
      plan.pot.fats, recipe.alkali, plan.check.acid_moles, recipe.superfat,
      recipe.total_water_grams,
      std::max(0.0, recipe.total_grams - fat_grams - weighed - recipe.total_water_grams));
  recipe.forgotten = core::if_forgotten(plan.pot, scales);
}

}  // namespace barwright::batch
