#include "solver/batch/batch_scent.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "core/bench/mould.hpp"
#include "core/lye/dose.hpp"
#include "core/units/format.hpp"
#include "core/units/weight_text.hpp"

namespace barwright::batch {
namespace {

constexpr double kMostScent = 50;  // g per kg oils, common practice, no source

std::optional<double> limit_of(const targets::Scent& scent) {
  return scent.certificate ? scent.certificate->most_in_bar : std::nullopt;
}

/// What it does, and how soon it may burn: the maker's own entry goes before the records.
void tell_manners(ScentPlan& one, const oils::Additive* known) {
  const auto& scent = *one.scent;
  one.behaves = scent.behaves;
  one.behaves_said = !one.behaves.empty();
  if (!one.behaves_said && known) one.behaves = known->behaves;
  if (scent.vanillin && *scent.vanillin > 0 && !one.behaves.contains("colours")) {
    // Common practice, no source.
    one.behaves["colours"] =
        fmt::format("{} ({:.3g} % vanillin), over days to weeks",
                    *scent.vanillin < 0.01 ? "cream to tan" : "brown", 100 * *scent.vanillin);
  }
  one.flash_said = scent.flash_celsius.has_value();
  one.flash_celsius = scent.flash_celsius;
  if (!one.flash_celsius && known && known->flash_celsius) {
    one.flash_celsius = known->flash_celsius->span.typical;
  }
}

double dosed(const targets::Scent& scent, double oils, double batter) {
  switch (scent.dose.basis) {
    case targets::Basis::per_kg_oils:
      return scent.dose.value * oils / 1000;
    case targets::Basis::of_oils:
      return scent.dose.value * oils;
    case targets::Basis::per_kg_batter:
      return scent.dose.value * batter / 1000;
    default:
      scent.dose.written.fail("a scent is dosed on the oils",
                              "Write such as '24 g per kg oils', or '2.4 % of oils'.");
  }
}

}  // namespace

std::vector<ScentPlan> plan_scents(const PartPlan& plan, const core::Recipe& without,
                                   const core::Scales& scales, const oils::Additives& additives) {
  std::vector<ScentPlan> out;
  const double cured = without.total_grams * core::cured_fraction(without);
  const double oils = without.oils_grams;
  for (const auto& scent : plan.part->scents) {
    ScentPlan one;
    one.scent = &scent;
    one.limit = limit_of(scent);
    tell_manners(one, additives.find(scent.name));
    const auto add = [&](const std::string& colour, double share) {
      ScentPortion portion;
      portion.colour = colour;
      const double asked = dosed(scent, share * oils, share * without.total_grams);
      const double wanted = core::rounded(asked, scales.lye.step);
      const double most =
          one.limit ? core::most_scent_grams(share * cured, *one.limit, scales.lye.step) : wanted;
      portion.grams = std::min(wanted, most);
      one.capped = one.capped || most < wanted;
      one.asked_grams += asked;
      one.grams += portion.grams;
      portion.in_bar = core::scent_share(portion.grams, share * cured);
      one.portions.push_back(portion);
    };
    if (scent.goes_in.empty()) {
      if (plan.colours.empty()) add({}, 1);
      for (const auto& colour : plan.colours) add(colour.name, colour.share);
    }
    for (const auto& name : scent.goes_in) {
      for (const auto& colour : plan.colours) {
        if (colour.name == name) add(name, colour.share);
      }
    }
    out.push_back(std::move(one));
  }
  return out;
}

std::vector<core::Note> scent_notes(const PartPlan& part) {
  std::vector<core::Note> notes;
  const auto say = [&](core::Severity severity, const std::string& text) {
    notes.push_back({severity, text});
  };
  double all = 0;
  std::map<std::string, double> of_limits;
  for (const auto& scent : part.scents) {
    const std::string& name = scent.scent->name;
    all += scent.grams;
    if (scent.capped) {
      say(core::Severity::caution,
          fmt::format("{} is capped at {} (asked: {}): its certificate allows {:.4g} % "
                      "of the finished bar.",
                      name, core::grams_text(scent.grams), core::grams_text(scent.asked_grams),
                      100 * *scent.limit));
    }
    if (!scent.limit) {
      say(core::Severity::caution,
          fmt::format(
              "No certificate limit for {}: the dose is yours, nothing holds it down. Ask its "
              "maker how much a rinsed-off bar may hold, before a bar is sold or given away. "
              "Most allowed in the finished bar: ______ %",
              name));
    }
    for (const auto& [what, how] : scent.behaves) {
      say(core::Severity::note,
          fmt::format("{} {}: {}{}.", name, what, how,
                      scent.behaves_said ? "" : " (common practice, no source)"));
    }
    for (const auto& portion : scent.portions) {
      if (scent.limit && *scent.limit > 0)
        of_limits[portion.colour] += portion.in_bar / *scent.limit;
    }
  }
  if (part.scents.size() < 2) return notes;
  for (const auto& [colour, share] : of_limits) {
    if (share <= 1 + 1e-9) continue;
    say(core::Severity::caution,
        fmt::format(
            "The scents of the {}{} come to {:.0f} % of their limits taken together: each is "
            "within its own, but two may hold the same limited substance. Ask their makers, "
            "or take less of each.",
            part.part->name, colour.empty() ? "" : ", " + colour, 100 * share));
    break;
  }
  const double per_kg = 1000 * all / part.recipe.oils_grams;
  if (per_kg > kMostScent) {
    say(core::Severity::caution,
        fmt::format("All scents of the {} together are {} of its oils; {} is usually "
                    "the most (common practice, no source).",
                    part.part->name, core::rate_text(per_kg), core::rate_text(kMostScent)));
  }
  return notes;
}

}  // namespace barwright::batch
