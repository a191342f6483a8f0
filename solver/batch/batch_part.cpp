#include "solver/batch/batch_part.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/lye/dose.hpp"
#include "core/lye/pot_of.hpp"
#include "core/units/error.hpp"
#include "core/units/format.hpp"
#include "core/units/weight_text.hpp"
#include "solver/batch/batch_dose.hpp"
#include "solver/batch/batch_scent.hpp"
#include "solver/batch/batch_when.hpp"
#include "solver/batch/part_lye.hpp"
#include "solver/recipe/known_additions.hpp"
#include "solver/recipe/recipe_request.hpp"

namespace barwright::batch {
namespace {

constexpr const char* kSlurryWater = "slurry water";
constexpr double kFineStep = 0.001;    // g
constexpr double kSaltDensity = 2.16;  // g/mL of the grains, usual tables, recalled
constexpr double kMostSaltBar = 1000;  // g per kg of oils, common practice, no source

const oils::Oil& oil_of(const BatchPlan& batch, const std::string& name) {
  return *batch.library.find(name);
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
          fmt::format("wetting the colours takes {} of {}, but the blend holds only {}",
                      core::grams_text(wet_grams), one.oil.name,
                      core::grams_text(grams + wet_grams)),
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

/// Plans one part, line by line in the order in which one needs the other.
class PartPlanner {
 public:
  PartPlanner(const BatchPlan& batch, const targets::Part& part, const PartSize& size,
              const std::optional<oils::Shelf>& shelf)
      : batch_(batch),
        part_(part),
        size_(size),
        shelf_(shelf),
        one_pot_(batch.file.lye_pot == targets::BatchFile::LyePot::one) {}

  PartPlan plan() && {
    plan_.part = &part_;
    settings();
    const Blended blend = blend_of(batch_, part_, size_, plan_.wet_grams, shelf_);
    fats(blend);
    wet_oil();
    into_lye();
    acids();
    // What counts on batter and water needs the plain recipe first.
    const core::Recipe plain = core::weigh(request_);
    masses_ = {plain.oils_grams + plan_.wet_grams, plain.total_grams, plain.total_water_grams};
    for (const auto& addition : part_.additives) add(addition);
    for (const auto& colour : part_.colours) add(colour, plain);
    for (const auto& addition : part_.top_with) {
      refuse_on_top(addition);
      plan_.on_top.push_back(weighed(batch_, addition, masses_, size_.bars));
    }
    for (const auto& embed : part_.embeds) {
      plan_.embed_grams += embed.grams;
      plan_.embed_ml += embed.volume_ml;
    }
    slurry();
    scents();
    plan_.recipe = core::weigh(request_);
    plan_.request = request_;
    plan_.pot = core::pot_of(request_, plan_.recipe);
    plan_.check = core::check_pot(plan_.pot, batch_.scales);
    density();
    melting(blend);
    return std::move(plan_);
  }

 private:
  void settings() {
    plan_.lye = merged(batch_.file.lye, part_.lye);
    portion_out(plan_.lye.acids, size_.acids_share);
    portion_out(plan_.lye.liquids, size_.liquids_share);
    portion_out(plan_.lye.into_lye, size_.into_lye_share);
    const auto& wet = part_.wet_colour_with;
    if (!wet) return;
    plan_.wet_oil = wet->oil.name;
    for (const auto& colour : part_.colours)
      plan_.wet_grams += colour.with.empty() ? 0 : wet->each_grams;
  }

  void fats(const Blended& blend) {
    std::vector<recipe::PotOil> pot;
    for (std::size_t i = 0; i < blend.kinds.size(); ++i) {
      pot.push_back({blend.kinds[i], blend.grams[i]});
    }
    request_ = recipe::recipe_request(pot, plan_.lye, batch_.file.scale, size_.bars);
    // The alkali is weighed for all parts at once; share_lye() judges its errors and the portion's.
    if (one_pot_) request_.scales.lye = {kFineStep, 0.0};
    for (auto& fat : request_.oils) fat.grams = core::rounded(fat.grams, batch_.scales.oils.step);
  }

  void wet_oil() {
    if (!(plan_.wet_grams > 0)) return;
    core::PotFat fat = recipe::pot_fat(
        {figures(batch_, size_, plan_.wet_oil, plan_.wet_grams, shelf_), plan_.wet_grams});
    fat.name = plan_.wet_oil + " (wets colours)";
    fat.grams = core::rounded(fat.grams, batch_.scales.oils.step);
    plan_.wet_grams = fat.grams;
    request_.other_fats.push_back(fat);
  }

  void into_lye() {
    for (auto& addition : request_.additives) {
      WeighedAddition line{addition.name,
                           core::rounded(addition.grams, batch_.scales.lye.step),
                           {},
                           batch_.additives.find(addition.name),
                           {}};
      addition.grams = line.grams;
      // The one lye is made already: what belongs to a part's lye joins its portion.
      if (one_pot_) addition.into = core::Into::cooled_lye;
      for (const auto& said : plan_.lye.into_lye) {
        if (said.name != line.name) continue;
        refuse_beside_lye(said);
        line.when = said.when;
      }
      if (line.when.empty() && line.known) line.when = line.known->when;
      plan_.into_lye.push_back(std::move(line));
    }
  }

  void acids() {
    for (auto& acid : request_.acids) {
      if (one_pot_) acid.into = core::Into::oils;
      const double shown = core::rounded(acid.grams, batch_.scales.lye.step);
      if (shown > 0) acid.grams = shown;
    }
  }

  void add(const targets::Addition& addition) {
    refuse_into_lye(addition);
    WeighedAddition line = weighed(batch_, addition, masses_, size_.bars);
    if (recipe::is_acid(addition)) {
      add_acid(addition, std::move(line));
      return;
    }
    core::Addition in =
        recipe::known_in_part(addition, line.known, batch_.library, line.grams, into_of(line.when));
    if (in.salt > in.water) salt_at_trace(addition, in, line);
    if (addition.when.empty() && in.water > 0.5) {  // its record also says how it goes into the lye
      line.when = "at light trace";
      line.how = "as warm as the batter, in a thin stream";
      in.into = core::Into::trace;
    }
    request_.additives.push_back(std::move(in));
    plan_.additions.push_back(std::move(line));
  }

  // Reckoned as grains in the batter: nothing is told to dissolve that does not.
  void salt_at_trace(const targets::Addition& addition, core::Addition& in, WeighedAddition& line) {
    const double salt = in.salt * line.grams;
    plan_.salt_of_oils += salt / masses_.oils;
    if (addition.when.empty()) line.when = "at trace";
    in.into = into_of(line.when);
    line.how = "dry and fine, stir until it is even; it stays grains";
    const double per_kg = 1000 * salt / masses_.oils;
    line.remark = per_kg > kMostSaltBar
                      ? core::rate_text(per_kg) + " oils: more than the oils themselves"
                      : fmt::format("{:.0f} % of the oils", per_kg / 10);
  }

  /// Petals and the like lie on the soap; what brings fat, acid or alkali is part of the batter.
  void refuse_on_top(const targets::Addition& addition) {
    recipe::refuse_alkali(addition);
    refuse_into_lye(addition);
    const core::Addition in = recipe::known_in_part(addition, batch_.additives.find(addition.name),
                                                    batch_.library, 1, core::Into::trace);
    if (!(in.fat > 0) && !in.acid) return;
    addition.written.fail("'" + addition.name + "' on top brings " + (in.fat > 0 ? "fat" : "acid") +
                              " that the lye is not reckoned for",
                          "Write it under the part's 'additives:', where it is counted.");
  }

  // Weighed with the lye it takes part of, and only there, unless the maker's own word is 'at
  // trace'; where the one lye is made already it meets the oils.
  void add_acid(const targets::Addition& addition, WeighedAddition line) {
    request_.acids.push_back(recipe::known_acid(addition, line.grams));
    const bool at_trace = addition.when.find("trace") != std::string::npos;
    request_.acids.back().into = at_trace   ? core::Into::trace
                                 : one_pot_ ? core::Into::oils
                                            : core::Into::lye;
    if (at_trace) plan_.additions.push_back(std::move(line));
  }

  void add(const targets::Colour& colour, const core::Recipe& plain) {
    ColourPlan one;
    one.name = colour.name;
    one.share = colour.share;
    one.batter_grams = colour.share * plain.total_grams;
    one.oils_grams = colour.share * masses_.oils;
    const auto& wet = part_.wet_colour_with;
    one.wet_grams = wet && !colour.with.empty() ? wet->each_grams : 0;
    const core::DoseMasses own{one.oils_grams, one.batter_grams,
                               colour.share * plain.total_water_grams};
    for (const auto& addition : colour.with) {
      refuse_into_lye(addition);
      one.with.push_back(weighed(batch_, addition, own, size_.bars));
      request_.additives.push_back(recipe::known_in_part(addition, one.with.back().known,
                                                         batch_.library, one.with.back().grams,
                                                         core::Into::trace));
      request_.additives.back().name += " (" + colour.name + ")";
    }
    plan_.colours.push_back(std::move(one));
  }

  /// Water that clays are stirred up with: kept back from that of the lye, or beside the one lye
  /// that is made for all; counted with it. None where oil wets the colours, or it is said how.
  void slurry() {
    double water = 0;
    std::string clays;
    const auto count = [&](const WeighedAddition& line) {
      if (line.known == nullptr || !(line.known->slurry > 0) || !line.how.empty()) return;
      water += line.known->slurry * line.grams;
      clays += (clays.empty() ? "" : ", ") + line.name;
    };
    for (const auto& line : plan_.additions) count(line);
    for (const auto& colour : plan_.colours) {
      if (colour.wet_grams > 0) continue;
      for (const auto& line : colour.with) count(line);
    }
    core::Addition in;
    in.name = kSlurryWater;
    in.grams = core::rounded(water, batch_.scales.lye.step);
    in.water = 1;
    in.into = core::Into::trace;
    if (!(in.grams > 0)) return;
    WeighedAddition line;
    line.name = in.name;
    line.grams = in.grams;
    line.when = "an hour before";
    line.how = "stir the " + clays + " into it; " +
               (one_pot_ ? "beside the lye's water, and counted with it"
                         : "kept back from the lye's water");
    request_.additives.push_back(std::move(in));
    plan_.additions.push_back(std::move(line));
  }

  void scents() {
    const core::Recipe without = core::weigh(request_);
    plan_.scents = plan_scents(plan_, without, batch_.scales, batch_.additives);
    for (auto& scent : plan_.scents) {
      soak(scent);
      core::Addition addition;
      addition.name = scent.scent->name;
      addition.grams = scent.grams;
      request_.additives.push_back(addition);
    }
  }

  void soak(ScentPlan& scent) {
    for (const auto& clay : scent.scent->soaked_in) {
      refuse_into_lye(clay);
      scent.soaked_in = weighed(batch_, clay, masses_, size_.bars);
      request_.additives.push_back(recipe::known_in_part(
          clay, scent.soaked_in->known, batch_.library, scent.soaked_in->grams, core::Into::trace));
    }
  }

  /// g/mL of this batter: salt that stays grains is heavier than the rest.
  void density() {
    const double salt = plan_.salt_of_oils * masses_.oils / plan_.recipe.total_grams;
    plan_.batter_density =
        1 / ((1 - salt) / core::batter_density().span.typical + salt / kSaltDensity);
  }

  void melting(const Blended& blend) {
    std::vector<targets::Composition> compositions;
    std::vector<double> shares;
    const auto melt = [&](const oils::Oil& oil, double grams) {
      plan_.melting.push_back(
          {oil.typical_profile(), grams / masses_.oils, oil.form == oils::Form::wax});
      compositions.push_back(targets::composition(oil));
      shares.push_back(grams / masses_.oils);
    };
    for (std::size_t i = 0; i < blend.kinds.size(); ++i)
      melt(blend.kinds[i], request_.oils[i].grams);
    if (plan_.wet_grams > 0) melt(oil_of(batch_, plan_.wet_oil), plan_.wet_grams);
    plan_.composition = targets::mix(compositions, shares);
  }

  const BatchPlan& batch_;
  const targets::Part& part_;
  const PartSize& size_;
  const std::optional<oils::Shelf>& shelf_;
  const bool one_pot_;
  PartPlan plan_;
  core::RecipeRequest request_;
  core::DoseMasses masses_;
};

}  // namespace

PartPlan plan_part(const BatchPlan& batch, const targets::Part& part, const PartSize& size,
                   const std::optional<oils::Shelf>& shelf) {
  return PartPlanner(batch, part, size, shelf).plan();
}

}  // namespace barwright::batch
