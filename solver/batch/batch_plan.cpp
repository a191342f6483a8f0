#include "solver/batch/batch_plan.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/bench/mould.hpp"
#include "core/units/format.hpp"
#include "solver/batch/batch_lye.hpp"
#include "solver/batch/batch_part.hpp"
#include "solver/batch/batch_scent.hpp"
#include "solver/batch/part_lye.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "solver/recipe/sizing.hpp"

namespace barwright::batch {
namespace {

constexpr int kPasses = 6;              // sizes settle to a gram in three
constexpr double kFirstOils = 1000;     // g, where sizing starts
constexpr double kFoamsInBrine = 0.35;  // lauric and myristic in the fat: half of it coconut

LogPlan log_of(const targets::Mould& mould, const std::optional<targets::Cut>& cut) {
  LogPlan log;
  log.name = mould.name.empty() ? "mould" : mould.name;
  log.count = mould.count;
  if (mould.millilitres) log.volume_ml = *mould.millilitres;
  if (mould.water_grams) log.volume_ml = core::volume_ml_from_water(*mould.water_grams);
  if (!mould.inside_mm) return log;
  const auto& inside = *mould.inside_mm;
  const double fill = mould.fill_to_mm.value_or(inside[2]);
  log.volume_ml = core::volume_ml({inside[0], inside[1], fill});
  log.surface_cm2 = 2 * (inside[0] * inside[1] + inside[0] * fill + inside[1] * fill) / 100;
  log.length_mm = inside[0];
  log.bar_width_mm = inside[1];
  log.bar_height_mm = fill;
  if (cut) log.cut = core::cut_plan(inside[0], {cut->slice, cut->kerf, cut->end_trim});
  return log;
}

void plan_logs(BatchPlan& plan) {
  const auto& file = plan.file;
  const auto& moulds = file.make ? file.make->moulds : file.moulds;
  for (const auto& mould : moulds) {
    if (file.cut && !mould.inside_mm) {
      mould.written.fail("the mould '" + mould.name + "' is to be cut, but its length is not known",
                         "Write inside: [length, width, height], or leave 'cut' out for moulds "
                         "that give one bar each.");
    }
    plan.logs.push_back(log_of(mould, file.cut));
    // A log that nobody says how to cut gives no number of bars; a small mould is one bar.
    if (!mould.inside_mm || file.cut) plan.bars += plan.logs.back().bars();
  }
  if (file.make) {
    if (file.make->bars) plan.bars = file.make->bars->count;
    if (file.make->bars_per_batch) plan.bars = *file.make->bars_per_batch;
  }
}

double body_grams(const BatchPlan& plan, const PartPlan& body) {
  const auto& file = plan.file;
  double grams = 0;
  for (const auto& log : plan.logs) grams += log.count * log.volume_ml * body.batter_density;
  if (file.make && file.make->bars) {
    grams = file.make->bars->count * file.make->bars->each_grams;
    if (file.make->bars->weighed == targets::Bars::Weighed::cured) {
      grams /= core::cured_fraction(body.recipe);
    }
  }
  if (file.samples) grams += file.samples->count * file.samples->each_grams;
  // Embeds take up room, whatever they weigh.
  grams -= body.embed_ml * body.batter_density;
  if (!(grams > 0)) {
    body.part->embeds.front().written.fail("the embeds fill the moulds: no room is left for batter",
                                           "Check their volume, or the moulds' 'fill-to'.");
  }
  return grams / (1 - file.left_in_pot);
}

double topping_grams(const BatchPlan& plan, const targets::Part& part) {
  if (plan.bars == 0) {
    part.written.fail("the topping '" + part.name + "' is sized per bar, but how many bars?",
                      "Say how the logs are cut: cut: {slice: 26 mm, kerf: 1 mm, end-trim: 5 mm}.");
  }
  double grams = 0;
  for (const auto& log : plan.logs) {
    // The whole top is covered, what is trimmed off later too.
    const double bars = log.cut && plan.file.cut ? log.length_mm / plan.file.cut->slice : 1;
    grams += log.count * bars * part.size->per_bar_grams;
  }
  if (plan.logs.empty()) grams = plan.bars * part.size->per_bar_grams;
  return grams / (1 - part.size->left_in_bag);
}

/// What the body of this plan is asked to weigh, or its oils.
double wanted(const BatchPlan& plan, const PartPlan& part) {
  if (part.part->size) return topping_grams(plan, *part.part);
  return body_grams(plan, part);
}

core::LyeSettings shared_settings(const BatchPlan& plan) {
  core::LyeSettings settings = recipe::lye_settings(plan.file.lye);
  for (const auto& part : plan.file.parts) {
    const auto& lye = part.lye;
    if (!lye.liquids.empty()) {
      lye.liquids.front().written.fail(
          "'" + lye.liquids.front().name + "' takes the place of water in the lye of the part '" +
              part.name + "', but one pot of plain water is made for all",
          "Write 'lye-pot: each part', or add it at trace under the part's 'additives:', where its "
          "water is counted beside the lye's.");
    }
    if (lye.alkali || lye.naoh_strength || lye.koh_strength || lye.concentration ||
        lye.water_per_alkali || lye.water_of_oils) {
      part.written.fail("the part '" + part.name +
                            "' asks for a lye of its own, but one pot serves "
                            "all",
                        "Write alkali, strength and water once, under the batch's 'lye:', "
                        "or write 'lye-pot: each part'.");
    }
    if (lye.lye_celsius) {
      settings.lye_celsius = std::min(settings.lye_celsius.value_or(100), *lye.lye_celsius);
    }
  }
  if (!plan.file.lye.liquids.empty()) {
    plan.file.lye.liquids.front().written.fail(
        "a shared lye is made with plain water only",
        "Write 'lye-pot: each part', or add the liquid to a part at trace under 'additives'.");
  }
  return settings;
}

void weigh_parts(BatchPlan& plan, const std::vector<double>& oils,
                 const std::optional<oils::Shelf>& shelf) {
  plan.parts.clear();
  const auto sizes = part_sizes(plan, oils);
  for (std::size_t i = 0; i < oils.size(); ++i) {
    plan.parts.push_back(plan_part(plan, plan.file.parts[i], sizes[i], shelf));
  }
  if (plan.file.lye_pot != targets::BatchFile::LyePot::one) return;
  plan.needs.clear();
  double all = 0;
  for (const auto& part : plan.parts) {
    plan.needs.push_back({part.part->name, part.pot.fats, part.pot.acids,
                          part.lye.superfat.value_or(core::LyeSettings{}.superfat),
                          part.lye.never_below.value_or(0), part.lye.raise.value_or(true)});
    all += part.recipe.oils_grams;
  }
  plan.shared = core::share_lye(plan.needs, plan.settings, plan.scales, all);
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    take_portion(plan.parts[i], plan.shared->portions[i], plan.scales);
  }
}

void add_to_list(BatchPlan& plan, const std::string& name, double grams, const std::string& part,
                 bool fine) {
  if (grams <= 0) return;
  for (auto& line : plan.list) {
    if (line.name != name) continue;
    line.grams += grams;
    if (!line.parts.empty() && line.parts.back().first == part) {
      line.parts.back().second += grams;
    } else {
      line.parts.emplace_back(part, grams);
    }
    return;
  }
  plan.list.push_back({name, grams, {{part, grams}}, {}, fine});
}

void make_list(BatchPlan& plan, const std::optional<oils::Shelf>& shelf) {
  for (const auto& part : plan.parts) {
    for (std::size_t i = 0; i < part.request.oils.size(); ++i) {
      add_to_list(plan, part.request.oils[i].name, part.request.oils[i].grams, part.part->name,
                  false);
    }
    add_to_list(plan, part.wet_oil, part.wet_grams, part.part->name, false);
  }
  std::stable_sort(plan.list.begin(), plan.list.end(),
                   [](const NeedLine& a, const NeedLine& b) { return a.grams > b.grams; });
  if (shelf) {
    for (auto& line : plan.list) {
      const auto holding = shelf->holding(line.name);
      line.on_shelf = holding ? holding->usable_grams() : 0;
    }
  }
  if (plan.shared) {
    for (const auto& line : plan.shared->alkali) {
      add_to_list(plan, core::name(line.alkali), line.grams, "lye pot", true);
    }
    add_to_list(plan, "water", plan.shared->water_grams, "lye pot", true);
  }
  for (const auto& part : plan.parts) {
    const std::string& name = part.part->name;
    if (!plan.shared) {
      for (const auto& line : part.recipe.alkali) {
        add_to_list(plan, core::name(line.alkali), line.grams, name, true);
      }
      add_to_list(plan, "water", part.recipe.water_grams, name, true);
    }
    for (const auto& line : part.recipe.liquids)
      add_to_list(plan, line.name, line.grams, name, true);
    for (const auto& line : part.recipe.acids) add_to_list(plan, line.name, line.grams, name, true);
    for (const auto& line : part.into_lye) add_to_list(plan, line.name, line.grams, name, true);
    for (const auto& line : part.additions) add_to_list(plan, line.name, line.grams, name, true);
    for (const auto& colour : part.colours) {
      for (const auto& line : colour.with) add_to_list(plan, line.name, line.grams, name, true);
    }
    for (const auto& scent : part.scents) {
      add_to_list(plan, scent.scent->name, scent.grams, name, true);
      if (scent.soaked_in)
        add_to_list(plan, scent.soaked_in->name, scent.soaked_in->grams, name, true);
    }
    for (const auto& line : part.on_top) add_to_list(plan, line.name, line.grams, name, true);
    for (const auto& embed : part.part->embeds) {
      add_to_list(plan, embed.name + " of lot " + embed.lot, embed.grams, name, false);
    }
  }
}

void salt_bar_notes(const BatchPlan& plan, const PartPlan& part, std::vector<core::Note>& notes) {
  if (part.salt_of_oils < kSaltBar) return;
  const auto say = [&](const std::string& text) {
    notes.push_back({core::Severity::caution, text});
  };
  say(fmt::format(
      "Salt bar ({}): the salt goes in dry and fine at trace and stays grains; in the "
      "lye it would not dissolve. No flakes and no Dead Sea salt: they scratch or weep.",
      part.part->name));
  double foaming = 0;
  for (const auto& oil : part.recipe.oils) {
    const oils::Oil* kind = plan.library.find(oil.name);
    if (!kind) continue;
    const auto acids = kind->typical_profile();
    foaming += oil.share_of_oils * (acids[static_cast<std::size_t>(core::FattyAcid::C12_0)] +
                                    acids[static_cast<std::size_t>(core::FattyAcid::C14_0)]);
  }
  if (foaming < kFoamsInBrine) {
    say("Only soap of coconut, palm kernel or babassu foams in salt water: with so little of them "
        "this bar hardly will (common practice: 70 % of the oils or more).");
  }
}

void add_notes(BatchPlan& plan) {
  auto& notes = plan.notes;
  const auto seen = [&](const core::Note& note) {
    return std::any_of(notes.begin(), notes.end(),
                       [&](const core::Note& each) { return each.text == note.text; });
  };
  for (const auto& part : plan.parts) {
    for (const auto& note : part.recipe.notes) {
      // Of a shared lye the portion below says what was raised.
      if (!seen(note) && !(note.first && part.portion)) notes.push_back(note);
    }
    if (part.portion && part.portion->raised_superfat >
                            part.lye.superfat.value_or(core::LyeSettings{}.superfat) + 1e-12) {
      notes.push_back({core::Severity::caution,
                       fmt::format("Superfat of the {} raised to {:.1f} %: at the least figures of "
                                   "its oils it would have fallen below its floor. 'superfat: "
                                   "{{..., raise: no}}' refuses instead.",
                                   part.part->name, 100 * part.portion->raised_superfat),
                       true});
    }
    if (part.portion && part.portion->moved_by_rounding() > core::kMovedByRounding) {
      notes.push_back(
          {core::Severity::caution,
           fmt::format("Rounding the {}'s portion of lye down to steps of {} moves its superfat by "
                       "{:.1f} points. A scale of {} keeps that within 0.3 points.",
                       part.part->name, core::grams_text(plan.scales.lye.step),
                       100 * part.portion->moved_by_rounding(),
                       core::grams_text(
                           core::usual_step(core::kMovedByRounding * part.portion->exact_grams)))});
    }
    for (auto& note : scent_notes(part)) {
      if (!seen(note)) notes.push_back(std::move(note));
    }
    salt_bar_notes(plan, part, notes);
    for (const auto& embed : part.part->embeds) {
      notes.push_back({core::Severity::caution,
                       fmt::format("The {} come from lot {}: their oils, scents and limits belong "
                                   "to this bar too.",
                                   embed.name, embed.lot)});
    }
  }
  for (const auto& premix : plan.file.premixes) {
    notes.push_back({core::Severity::caution,
                     "Stir the premixed '" + premix.name +
                         "' fully liquid before weighing from it: what has settled out makes one "
                         "batch soft and the next harsh."});
  }
  core::sort_notes(notes);
}

}  // namespace

const PartPlan& BatchPlan::body() const {
  for (const auto& part : parts) {
    if (!part.part->size) return part;
  }
  return parts.front();
}

BatchPlan plan_batch(targets::BatchFile file, const oils::Library& library,
                     const std::optional<oils::Shelf>& shelf) {
  BatchPlan plan;
  plan.file = std::move(file);
  check_lye_used(plan.file);
  plan.library = targets::with_premixes(shelf ? shelf->library : library, plan.file.premixes);
  plan.additives = oils::Additives::embedded();
  plan.scales = recipe::scales(plan.file.scale);
  if (plan.file.lye_pot == targets::BatchFile::LyePot::one) plan.settings = shared_settings(plan);
  plan_logs(plan);
  std::vector<double> oils(plan.file.parts.size(), kFirstOils);
  const bool by_oils = plan.file.make && plan.file.make->oils_grams;
  for (std::size_t i = 0; i < oils.size(); ++i) {
    if (by_oils && !plan.file.parts[i].size) oils[i] = *plan.file.make->oils_grams;
  }
  for (int pass = 0; pass < kPasses; ++pass) {
    weigh_parts(plan, oils, shelf);
    for (std::size_t i = 0; i < oils.size(); ++i) {
      PartPlan& part = plan.parts[i];
      part.wanted_grams =
          by_oils && !part.part->size ? part.recipe.total_grams : wanted(plan, part);
      if (pass + 1 < kPasses) oils[i] *= part.wanted_grams / part.recipe.total_grams;
    }
  }
  if (plan.file.cut) {
    const auto& cut = *plan.file.cut;
    for (const auto& log : plan.logs) {
      if (!log.cut) continue;
      plan.trim_grams += log.count * log.volume_ml * plan.body().batter_density *
                         (1 - log.cut->bars * cut.slice / log.length_mm);
    }
  }
  make_list(plan, shelf);
  add_notes(plan);
  return plan;
}

}  // namespace barwright::batch
