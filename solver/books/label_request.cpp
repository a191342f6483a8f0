#include "solver/books/label_request.hpp"

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

}  // namespace

core::LabelRequest label_request(const MakePlan& plan, const oils::Library& library) {
  core::LabelRequest out;
  for (const auto& part : plan.parts) {
    core::LabelPart label;
    label.superfat = part.superfat;
    label.poured_grams = part.poured;
    label.cured_grams = part.cured;
    label.cured_water = part.cured_water;
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
          }
        }
        out.additions.push_back(std::move(addition));
      }
    }
    out.parts.push_back(std::move(label));
  }
  return out;
}

}  // namespace barwright::books
