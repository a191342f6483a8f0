#include "solver/batch_part.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/dose.hpp"
#include "core/error.hpp"
#include "core/pot_of.hpp"
#include "solver/known_additions.hpp"
#include "solver/recipe_request.hpp"

namespace barwright::solver {
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

core::Addition in_pot(const WeighedAddition& addition, core::Into into) {
  core::Addition out;
  out.name = addition.name;
  out.grams = addition.grams;
  out.into = into;
  if (addition.known && addition.known->holds) {
    const auto& holds = *addition.known->holds;
    out.water = holds.water;
    out.fat = holds.fat;
    out.sugar = holds.sugar;
    out.salt = holds.salt;
    out.fat_saponification_value = holds.fat_saponification_value;
  }
  return out;
}

struct Blended {
  std::vector<oils::Oil> kinds;
  std::vector<double> grams;
  std::vector<bool> certified;
};

/// The blend's grams once the wetting oil is taken off it.
Blended blend_of(const BatchPlan& batch, const targets::Part& part, double oil_grams,
                 double wet_grams, const std::optional<oils::Shelf>& shelf) {
  Blended out;
  const bool off = part.wet_colour_with && part.wet_colour_with->from_blend;
  for (const auto& one : part.blend.oils) {
    const auto holding = shelf ? shelf->holding(one.oil.name) : std::nullopt;
    out.kinds.push_back(holding ? holding->figures : oil_of(batch, one.oil.name));
    out.certified.push_back(out.kinds.back().saponification_value.mark == core::Mark::certificate);
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
  }
  return out;
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

PartPlan plan_part(const BatchPlan& batch, const targets::Part& part, double oil_grams, int bars,
                   const std::optional<oils::Shelf>& shelf) {
  PartPlan plan;
  plan.part = &part;
  plan.lye = merged(batch.file.lye, part.lye);
  const auto& wet = part.wet_colour_with;
  if (wet) {
    plan.wet_oil = wet->oil.name;
    for (const auto& colour : part.colours)
      plan.wet_grams += colour.with.empty() ? 0 : wet->each_grams;
  }
  const Blended blend = blend_of(batch, part, oil_grams, plan.wet_grams, shelf);
  std::vector<PotOil> pot;
  for (std::size_t i = 0; i < blend.kinds.size(); ++i) {
    pot.push_back({&blend.kinds[i], blend.grams[i], blend.certified[i]});
  }
  core::RecipeRequest request = recipe_request(pot, plan.lye, batch.file.scale, bars);
  if (batch.file.lye_pot == targets::BatchFile::LyePot::one) {
    // The alkali is weighed for all parts at once; share_lye() judges its errors and the portion's.
    request.scales.lye = {kFineStep, 0.0};
  }
  for (auto& fat : request.oils) fat.grams = core::rounded(fat.grams, batch.scales.oils.step);
  if (plan.wet_grams > 0) {
    const auto holding = shelf ? shelf->holding(plan.wet_oil) : std::nullopt;
    const oils::Oil kind = holding ? holding->figures : oil_of(batch, plan.wet_oil);
    core::PotFat fat =
        pot_fat({&kind, plan.wet_grams, kind.saponification_value.mark == core::Mark::certificate});
    fat.name = kind.name + " (wets colours)";
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
  for (std::size_t i = 0; i < request.additives.size(); ++i) {
    request.additives[i].grams = plan.into_lye[i].grams;
  }
  for (auto& line : plan.into_lye) {
    for (const auto& said : plan.lye.into_lye) {
      if (said.name == line.name) line.when = said.when;
    }
    if (line.when.empty() && line.known) line.when = line.known->when;
  }

  // What counts on batter and water needs the plain recipe first.
  const core::Recipe plain = core::weigh(request);
  core::DoseMasses masses{plain.oils_grams + plan.wet_grams, plain.total_grams,
                          plain.total_water_grams};
  for (const auto& addition : part.additives) {
    WeighedAddition line = weighed(batch, addition, masses, bars);
    const bool oils = line.when.find("oils") != std::string::npos;
    if (is_acid(addition)) {
      request.acids.push_back(known_acid(addition, line.grams));
    } else {
      request.additives.push_back(in_pot(line, oils ? core::Into::oils : core::Into::trace));
    }
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
      one.with.push_back(weighed(batch, addition, own, bars));
      request.additives.push_back(in_pot(one.with.back(), core::Into::trace));
      request.additives.back().name += " (" + colour.name + ")";
    }
    plan.colours.push_back(std::move(one));
  }
  for (const auto& addition : part.top_with) {
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
  recipe.water_to_alkali = recipe.total_water_grams / weighed;
  recipe.products =
      core::products_of(plan.pot.fats, recipe.alkali, plan.check.acid_moles, recipe.superfat,
                        recipe.total_water_grams,
                        std::max(0.0, recipe.total_grams - recipe.oils_grams - plan.wet_grams -
                                          weighed - recipe.total_water_grams));
  recipe.forgotten = core::if_forgotten(plan.pot, scales);
}

}  // namespace barwright::solver
