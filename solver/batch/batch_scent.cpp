#include "solver/batch/batch_scent.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/bench/mould.hpp"
#include "core/lye/dose.hpp"

namespace barwright::batch {
namespace {

double limit_of(const targets::Scent& scent) {
  if (!scent.certificate) {
    scent.written.fail(
        "'" + scent.name + "' has no certificate: how much of it may a finished bar hold?",
        "Ask its maker for the certificate, and copy the limit for a bar that is rinsed off: "
        "certificate: {file: ..., category: 9, most-in-finished-bar: ... %}. It is never guessed.");
  }
  if (!scent.certificate->most_in_bar) {
    scent.written.fail(
        "the certificate of '" + scent.name + "' is named, but not its limit",
        "Copy from it: most-in-finished-bar: ... %, for the category of a bar that is rinsed off. "
        "It is never guessed.");
  }
  return *scent.certificate->most_in_bar;
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
                                   const core::Scales& scales) {
  std::vector<ScentPlan> out;
  const double cured = without.total_grams * core::cured_fraction(without);
  const double oils = without.oils_grams;
  for (const auto& scent : plan.part->scents) {
    ScentPlan one;
    one.scent = &scent;
    one.limit = limit_of(scent);
    const auto add = [&](const std::string& colour, double share) {
      ScentPortion portion;
      portion.colour = colour;
      const double asked = dosed(scent, share * oils, share * without.total_grams);
      const double most = core::most_scent_grams(share * cured, one.limit, scales.lye.step);
      const double wanted = core::rounded(asked, scales.lye.step);
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

}  // namespace barwright::batch
