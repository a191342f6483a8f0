#include "solver/app/blend/recipe_yaml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "core/units/plain_text.hpp"
#include "oils/text/yaml.hpp"
#include "oils/text/yaml_text.hpp"
#include "solver/recipe/recipe_request.hpp"
#include "solver/recipe/sizing.hpp"

namespace barwright::app {
namespace {

std::string share(double fraction) { return fmt::format("{:.10g} %", 100 * fraction); }

std::string dose(const targets::Dose& dose) {
  switch (dose.basis) {
    case targets::Basis::total:
      return fmt::format("{:.10g} g in all", dose.value);
    case targets::Basis::per_kg_oils:
      return fmt::format("{:.10g} g per kg oils", dose.value);
    case targets::Basis::per_kg_batter:
      return fmt::format("{:.10g} g per kg batter", dose.value);
    case targets::Basis::per_bar:
      return fmt::format("{:.10g} g per bar", dose.value);
    case targets::Basis::of_oils:
      return share(dose.value) + " of oils";
    case targets::Basis::of_water:
      return share(dose.value) + " of water";
  }
  return {};
}

void add_additions(std::string& out, const char* key,
                   const std::vector<targets::Addition>& additions) {
  if (additions.empty()) return;
  out += fmt::format("  {}:\n", key);
  for (const auto& addition : additions) {
    const std::string name =
        addition.name + (addition.strength ? " " + share(*addition.strength) : std::string());
    out += fmt::format("    - {{{}: {}", oils::yaml::quoted(name), dose(addition.dose));
    if (!addition.when.empty()) out += ", when: " + oils::yaml::quoted(addition.when);
    if (addition.frozen) out += ", frozen: yes";
    if (addition.lye_corrected) {
      out += *addition.lye_corrected ? ", lye: corrected" : ", lye: superfat rises";
    }
    out += "}\n";
  }
}

std::string alkali(const targets::LyeWish& lye) {
  using Alkali = targets::LyeWish::Alkali;
  if (!lye.alkali || *lye.alkali == Alkali::sodium) return "sodium hydroxide";
  if (*lye.alkali == Alkali::potassium) return "potassium hydroxide";
  const double potash = lye.koh_share.value_or(0);
  const char* by = lye.koh_basis == targets::LyeWish::KohBasis::moles   ? "moles"
                   : lye.koh_basis == targets::LyeWish::KohBasis::grams ? "grams"
                                                                        : "fat";
  return fmt::format("{{sodium hydroxide: {}, potassium hydroxide: {}, by: {}}}", share(1 - potash),
                     share(potash), by);
}

std::string strength(const targets::StrengthWish& wish) {
  if (!wish.least && !wish.most) return share(wish.stated);
  std::string out = "{stated: " + share(wish.stated);
  if (wish.least) out += ", least: " + share(*wish.least);
  if (wish.most) out += ", most: " + share(*wish.most);
  return out + "}";
}

// The lye as the brief asked for it, at the superfat it was dosed at: nothing that bears on the
// alkali may be lost on the way from the brief to the recipe.
std::string lye_block(const targets::LyeWish& lye, const core::Recipe& recipe) {
  std::string out = fmt::format("lye:\n  alkali: {}\n", alkali(lye));
  std::string strengths;
  if (lye.naoh_strength) strengths = "sodium hydroxide: " + strength(*lye.naoh_strength);
  if (lye.koh_strength) {
    strengths += strengths.empty() ? "" : ", ";
    strengths += "potassium hydroxide: " + strength(*lye.koh_strength);
  }
  if (!strengths.empty()) out += "  strength: {" + strengths + "}\n";
  const std::string aim = share(std::max(recipe.asked_superfat, lye.superfat.value_or(0)));
  std::string superfat = aim;
  if (lye.never_below || lye.raise) {
    superfat = "{aim: " + aim;
    if (lye.never_below) superfat += ", never-below: " + share(*lye.never_below);
    if (lye.raise) superfat += std::string(", raise: ") + (*lye.raise ? "yes" : "no");
    superfat += "}";
  }
  out += "  superfat: " + superfat + "\n";
  if (lye.water_per_alkali) {
    out += fmt::format("  water-ratio: {:.10g} to 1\n", *lye.water_per_alkali);
  } else if (lye.water_of_oils) {
    out += fmt::format("  water: {} of oils\n", share(*lye.water_of_oils));
  } else {
    out += fmt::format("  concentration: {}\n", share(lye.concentration.value_or(0.33)));
  }
  if (lye.lye_celsius) out += fmt::format("  lye-at: {:.4g} C\n", *lye.lye_celsius);
  if (lye.oils_celsius) out += fmt::format("  oils-at: {:.4g} C\n", *lye.oils_celsius);
  add_additions(out, "acids", lye.acids);
  add_additions(out, "liquids", lye.liquids);
  add_additions(out, "into-lye", lye.into_lye);
  return out;
}

}  // namespace

std::string recipe_yaml(const jobs::BlendJob& job, const jobs::BlendResult& result,
                        const std::string& saved_as, std::span<const jobs::MannerTold> manners) {
  const auto& recipe = result.recipe;
  std::string out = fmt::format("# Found by barwright for the brief {}.\nformat: {}\nname: {}\n",
                                core::on_one_line(job.brief.file), oils::yaml::kPlainFormat,
                                oils::yaml::quoted(job.brief.name));
  if (job.brief.shelf) {  // its lots' certificates bear on the lye
    const auto folder = std::filesystem::absolute(saved_as).parent_path();
    const auto shelf = std::filesystem::absolute(job.brief.shelf->path);
    out +=
        fmt::format("shelf: {}\n", oils::yaml::quoted(shelf.lexically_relative(folder).string()));
  }
  out += "blend:\n";
  for (const std::size_t i : result.used) {
    out += fmt::format("  {}: {:.10g} %\n",
                       oils::yaml::bare_or_quoted(job.candidates.oils[i].oil.name),
                       100.0 * result.answer.steps[i] / result.formulation.problem.steps);
  }
  const core::Scales scales = recipe::scales(job.brief.scale);
  out += lye_block(job.brief.lye, recipe);
  const int bars = recipe::bars(job.brief.make);
  // What was asked of the scale, not what its rounded lines add to: these would round otherwise.
  const double oils = result.assumed.oil_grams;
  out += bars > 0 ? fmt::format("make: {{oils: {:.10g} g, bars: {}}}\n", oils, bars)
                  : fmt::format("oils: {:.10g} g\n", oils);
  out += fmt::format("scale: {{oils: {:.10g} g, lye: {:.10g} g}}\n", scales.oils.step,
                     scales.lye.step);
  std::string kept;
  for (const auto& manner : manners)
    if (!manner.dropped) kept += (kept.empty() ? "" : ", ") + oils::yaml::quoted(manner.rule);
  if (!kept.empty()) out += "manners: [" + kept + "]\n";
  return out;
}

}  // namespace barwright::app
