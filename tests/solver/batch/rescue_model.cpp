#include "tests/solver/batch/rescue_model.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

namespace barwright::tests {
namespace {

// Molar masses, g/mol, from IUPAC atomic masses.
constexpr double kNaoh = 39.997, kKoh = 56.106;

void set_addition(Model& model, std::size_t at, double grams) {
  model.additions[at].grams = grams;
  for (auto& fat : model.fats) {
    if (fat.of_addition < 0 || fat.name != model.additions[at].name) continue;
    fat.grams = grams * fat.of_addition;
    fat.error = 0.2 * fat.grams;
  }
}

double own_lye(const Model& model) {
  double grams = model.grams_in_pot();
  for (const auto& one : model.additions) grams += one.in_lye ? one.grams : 0;
  return grams;
}

}  // namespace

double Model::grams_in_pot() const {
  double sum = water;
  for (const auto& line : alkali) sum += line.grams;
  return sum;
}

double Model::strength() const {
  double pure = 0, all = grams_in_pot();
  for (const auto& line : alkali) pure += line.grams * line.stated;
  if (!shared) {
    for (const auto& acid : acids) all += acid.grams * acid.water;
    for (const auto& one : additions) all += one.dissolves ? one.grams * one.water : 0;
  }
  return no_lye || all <= 0 ? 0 : pure / all;
}

std::pair<double, double> Model::superfat() const {
  double low = 0, need = 0, nominal = 0, most = 0;
  for (const auto& fat : fats) {
    if (fat.grams <= 0) continue;
    need += fat.grams * fat.typical / 1000 / kKoh;
    low += std::max(0.0, fat.grams - fat.error) * fat.low / 1000 / kKoh;
  }
  const double weight = std::min(making_weight, grams_in_pot());
  for (const auto& line : alkali) {
    if (line.grams <= 0 || no_lye) continue;
    if (shared) {
      // Pot, portion and total each off by the scale's error, all against you.
      nominal += line.grams * line.stated * portion / weight / line.molar;
      most += (line.grams + lye_error) * line.strongest * (portion + lye_error) /
              (weight - lye_error) / line.molar;
    } else {
      nominal += line.grams * line.stated / line.molar;
      most += (line.grams + line.error) * line.strongest / line.molar;
    }
  }
  for (const auto& acid : acids) {
    nominal -= acid.grams * acid.moles;
    most -= std::max(0.0, acid.grams - lye_error) * acid.least;
  }
  if (need <= 0) return {-1, -1};
  return {1 - nominal / need, low > 0 ? 1 - most / low : -1};
}

Model model_of(const batch::BatchPlan& plan, const batch::PartPlan& part, double cold_limit) {
  Model out;
  out.lye_error = plan.scales.lye.step;
  out.cold_limit = cold_limit;
  const auto add_fat = [&](const core::PotFat& fat, double grams) {
    const auto& span = fat.saponification_value;
    out.fats.push_back({fat.name, grams,
                        std::min(span.low, span.typical * (fat.certified ? 0.995 : 0.98)),
                        span.typical, plan.scales.oils.step});
  };
  const auto& request = part.request;
  for (std::size_t i = 0; i < request.oils.size(); ++i) {
    add_fat(request.oils[i], part.recipe.oils[i].grams);
  }
  for (std::size_t i = 0; i < request.other_fats.size(); ++i) {
    add_fat(request.other_fats[i], part.recipe.other_fats[i].grams);
  }
  const auto add_addition = [&](const core::Addition& one, double grams) {
    const bool dissolves = one.into == core::Into::lye;
    out.additions.push_back(
        {one.name, grams, one.water, dissolves || one.into == core::Into::cooled_lye, dissolves});
    if (one.fat <= 0) return;
    const auto& span = one.fat_saponification_value;
    // Milk fat by lot: a fifth either way.
    out.fats.push_back({one.name, grams * one.fat, std::min(span.low, span.typical * 0.98),
                        span.typical, 0.2 * grams * one.fat, one.fat});
  };
  for (std::size_t i = 0; i < request.liquids.size(); ++i) {
    add_addition(request.liquids[i], part.recipe.liquids[i].grams);
  }
  for (std::size_t i = 0; i < request.additives.size(); ++i) {
    add_addition(request.additives[i], part.recipe.additives[i].grams);
  }
  for (std::size_t i = 0; i < request.acids.size(); ++i) {
    const auto& acid = request.acids[i];
    Model::Acid one{acid.name, part.recipe.acids[i].grams};
    if (acid.form == core::AcidForm::citric_anhydrous) {
      one.moles = one.least = 3 / 192.123;
    } else {  // lactic, a solution that may be 5 % weaker
      REQUIRE(acid.form == core::AcidForm::lactic);
      one.moles = acid.strength / 90.078;
      one.least = 0.95 * one.moles;
      one.water = 1 - acid.strength;
    }
    out.acids.push_back(one);
  }
  const auto add_alkali = [&](core::Alkali alkali, double grams, double stated) {
    const bool soda = alkali == core::Alkali::sodium_hydroxide;
    out.alkali.push_back({grams, stated, soda ? 1 : std::min(1.0, stated + 0.01),
                          soda ? kNaoh : kKoh, plan.scales.lye.step});
  };
  if (plan.shared) {
    out.shared = true;
    for (const auto& line : plan.shared->alkali) add_alkali(line.alkali, line.grams, line.purity);
    out.water = plan.shared->water_grams;
    out.making_weight = plan.shared->making_weight;
    out.portion = part.portion->solution_grams;
  } else {
    for (const auto& line : part.recipe.alkali) add_alkali(line.alkali, line.grams, line.purity);
    out.water = part.recipe.water_grams;
  }
  return out;
}

std::vector<Line> lines_of(const Model& model) {
  std::vector<Line> out;
  for (std::size_t i = 0; i < model.fats.size(); ++i) {
    if (model.fats[i].of_addition < 0) out.push_back({Line::Kind::fat, i, model.fats[i].name});
  }
  for (std::size_t i = 0; i < model.acids.size(); ++i) {
    out.push_back({Line::Kind::acid, i, model.acids[i].name});
  }
  for (std::size_t i = 0; i < model.additions.size(); ++i) {
    out.push_back({Line::Kind::addition, i, model.additions[i].name});
  }
  for (std::size_t i = 0; i < model.alkali.size(); ++i) {
    out.push_back({Line::Kind::alkali, i, model.alkali[i].molar == kNaoh ? "NaOH" : "KOH"});
  }
  out.push_back({Line::Kind::water, 0, "water"});
  out.push_back({Line::Kind::lye, 0, "lye"});
  return out;
}

double grams_of(const Model& model, const Line& line) {
  switch (line.kind) {
    case Line::Kind::fat:
      return model.fats[line.at].grams;
    case Line::Kind::acid:
      return model.acids[line.at].grams;
    case Line::Kind::addition:
      return model.additions[line.at].grams;
    case Line::Kind::alkali:
      return model.alkali[line.at].grams;
    case Line::Kind::water:
      return model.water;
    case Line::Kind::lye:
      return model.shared ? model.portion : own_lye(model);
  }
  return 0;
}

void set_grams(Model& model, const Line& line, double grams) {
  switch (line.kind) {
    case Line::Kind::fat:
      model.fats[line.at].grams = grams;
      break;
    case Line::Kind::acid:
      model.acids[line.at].grams = grams;
      break;
    case Line::Kind::addition:
      set_addition(model, line.at, grams);
      break;
    case Line::Kind::alkali:
      model.alkali[line.at].grams = grams;
      break;
    case Line::Kind::water:
      model.water = grams;
      break;
    case Line::Kind::lye: {
      if (grams == 0) model.no_lye = true;
      if (model.shared) {
        model.portion = grams;
        break;
      }
      const double factor = grams / own_lye(model);
      for (auto& one : model.alkali) {
        one.grams *= factor;
        one.error *= std::max(1.0, factor);
      }
      model.water *= factor;
      for (std::size_t i = 0; i < model.additions.size(); ++i) {
        if (model.additions[i].in_lye) set_addition(model, i, factor * model.additions[i].grams);
      }
      break;
    }
  }
}

void change(std::vector<Model>& models, std::size_t part, const Line& line, double grams) {
  const bool all =
      models[part].shared && (line.kind == Line::Kind::alkali || line.kind == Line::Kind::water);
  for (std::size_t i = 0; i < models.size(); ++i) {
    if (all || i == part) set_grams(models[i], line, grams);
  }
}

}  // namespace barwright::tests
