#include "solver/books/label_request.hpp"

#include <algorithm>

#include "core/bench/mould.hpp"
#include "core/trade/traits.hpp"

namespace barwright::books {
namespace {

constexpr double kWater = 2 * 1.008 + 15.999;  // g/mol

std::string becomes(core::AcidForm form) {
  switch (form) {
    case core::AcidForm::citric_anhydrous:
    case core::AcidForm::citric_monohydrate:
      return "Sodium Citrate";
    case core::AcidForm::lactic:
      return "Sodium Lactate";
    case core::AcidForm::acetic:
      return "Sodium Acetate";
    case core::AcidForm::other:
      break;
  }
  return {};
}

/// What may be otherwise in the cured bar.
void put_bands(core::LabelPart& label, const PlanPart& part) {
  const core::Span water = core::cured_water().span;
  const double dry = part.cured - part.cured_water;
  const auto beside = [dry](double share) { return dry * share / (1 - share); };
  label.cured_water_band = {
      std::min(beside(water.low), part.cured_water),
      std::max(part.cured_water, std::min(beside(water.high), part.poured - dry))};
  const core::SuperfatBand band = check_weights(part).band;
  label.superfat_band = {band.low, band.high};
  label.oils_error = part.scales.oils.error_grams();
  label.lye_error = part.scales.lye.error_grams();
}

}  // namespace

core::LabelRequest label_request(const MakePlan& plan, const oils::Library& library) {
  core::LabelRequest out;
  for (const auto& part : plan.parts) {
    core::LabelPart label;
    label.superfat = part.superfat;
    label.poured_grams = part.poured;
    label.cured_grams = part.cured;
    label.cured_water = part.cured_water;
    put_bands(label, part);
    for (const auto& line : part.lines) {
      if (line.kind == PlanKind::oil) {
        core::PotFat fat = line.fat;
        fat.grams = line.grams;
        fat.name = line.what;  // the sheet may have marked what it is for
        const oils::Oil* oil = library.find(line.what);
        if (oil != nullptr)
          label.fats.push_back(
              {fat, oil->inci, oil->saponified_name, oil->saponified_name_by_analogy});
      } else if (line.kind == PlanKind::alkali) {
        label.alkali.push_back(
            {line.alkali.alkali, line.grams, line.alkali.strength.stated, line.grams});
      } else if (line.kind == PlanKind::water) {
        label.water_grams += line.grams;
      } else {
        core::LabelAddition addition;
        addition.name = line.what;
        addition.grams = line.grams;
        addition.own_role = line.role;
        const auto brought = line.acid       ? line.acid
                             : line.addition ? line.addition->acid
                                             : line.acid;
        const double water = line.addition ? line.addition->water : 0;
        if (brought) {
          core::Acid acid = *brought;
          acid.grams *= line.grams;
          const double moles = core::alkali_moles(acid);
          addition.becomes = becomes(acid.form);
          addition.becomes_grams =
              acid.grams - core::water_grams(acid) + moles * (core::kNaohMolarMass - kWater);
        } else if (water > 0) {
          const double dry = line.grams * (1 - water);
          addition.cured_grams = dry;
          if (!line.liquid) {  // a syrup: what it is named for, and its water with the water
            addition.grams = dry;
            label.water_grams += line.grams - dry;
            if (!(dry > 0)) continue;  // water alone
          }
        }
        out.additions.push_back(std::move(addition));
      }
    }
    out.parts.push_back(std::move(label));
  }
  return out;
}

std::vector<core::InBar> in_bar(const MakePlan& plan, const core::LabelRequest& request,
                                const oils::Library& library) {
  std::vector<core::InBar> out;
  for (const auto& part : plan.parts) {
    for (const auto& line : part.lines) {
      const oils::Oil* oil = line.kind == PlanKind::oil ? library.find(line.what) : nullptr;
      if (oil == nullptr) continue;
      core::InBar one{oil->name, oil->tags, true};
      // Of what may come from either, a search takes the worse; a lie must be certain.
      if (oil->has_tag("may be animal")) one.traits.erase("animal");
      if (oil->has_tag("may be palm")) one.traits.erase("palm");
      if (one.traits.contains("animal") && oil->form == oils::Form::triglyceride)
        one.traits.insert("animal fat");
      out.push_back(std::move(one));
    }
  }
  for (const auto& addition : request.additions) {
    const auto named = core::find_ingredient_name(addition.name);
    const core::Role role = addition.own_role.value_or(named ? named->role : core::Role::plain);
    // A scent is called after what it smells of.
    if (role == core::Role::fragrance) {
      out.push_back({addition.name, {"scent"}, true});
      continue;
    }
    core::InBar one{addition.name, core::traits_of(addition.name), true};
    one.known = named.has_value() || !one.traits.empty();
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace barwright::books
