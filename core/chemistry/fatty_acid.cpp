#include "core/chemistry/fatty_acid.hpp"

namespace barwright::core {

namespace {

// IUPAC 2021 abridged standard atomic masses, g/mol.
constexpr double kCarbon = 12.011;
constexpr double kHydrogen = 1.008;
constexpr double kOxygen = 15.999;

}  // namespace

const std::array<AcidFacts, kFattyAcidCount>& acid_facts() {
  using A = FattyAcid;
  static const std::array<AcidFacts, kFattyAcidCount> facts{{
      {A::C4_0, "C4:0", "butyric", 4, 0, 0},
      {A::C6_0, "C6:0", "caproic", 6, 0, 0},
      {A::C8_0, "C8:0", "caprylic", 8, 0, 0},
      {A::C10_0, "C10:0", "capric", 10, 0, 0},
      {A::C12_0, "C12:0", "lauric", 12, 0, 0},
      {A::C14_0, "C14:0", "myristic", 14, 0, 0},
      {A::C14_1, "C14:1", "myristoleic", 14, 1, 0},
      {A::C16_0, "C16:0", "palmitic", 16, 0, 0},
      {A::C16_1, "C16:1", "palmitoleic", 16, 1, 0},
      {A::C17_0, "C17:0", "margaric", 17, 0, 0},
      {A::C18_0, "C18:0", "stearic", 18, 0, 0},
      {A::C18_1, "C18:1", "oleic", 18, 1, 0},
      {A::C18_1t, "C18:1-trans", "elaidic", 18, 1, 0},
      {A::C18_1OH, "C18:1-OH", "ricinoleic", 18, 1, 1},
      {A::C18_2, "C18:2", "linoleic", 18, 2, 0},
      {A::C18_3a, "C18:3a", "alpha-linolenic", 18, 3, 0},
      {A::C18_3g, "C18:3g", "gamma-linolenic", 18, 3, 0},
      {A::C18_4, "C18:4", "stearidonic", 18, 4, 0},
      {A::C20_0, "C20:0", "arachidic", 20, 0, 0},
      {A::C20_1, "C20:1", "gondoic", 20, 1, 0},
      {A::C20_2, "C20:2", "eicosadienoic", 20, 2, 0},
      {A::C20_3, "C20:3", "eicosatrienoic", 20, 3, 0},
      {A::C22_0, "C22:0", "behenic", 22, 0, 0},
      {A::C22_1, "C22:1", "erucic", 22, 1, 0},
      {A::C22_2, "C22:2", "docosadienoic", 22, 2, 0},
      {A::C24_0, "C24:0", "lignoceric", 24, 0, 0},
      {A::C24_1, "C24:1", "nervonic", 24, 1, 0},
  }};
  return facts;
}

std::optional<FattyAcid> find_acid(std::string_view text) {
  for (const auto& facts : acid_facts()) {
    if (facts.key == text || facts.name == text) return facts.acid;
  }
  return std::nullopt;
}

double molar_mass(FattyAcid acid) {
  const auto& facts = acid_facts()[static_cast<std::size_t>(acid)];
  const int hydrogens = 2 * facts.carbons - 2 * facts.double_bonds;
  return facts.carbons * kCarbon + hydrogens * kHydrogen + (2 + facts.hydroxyls) * kOxygen;
}

}  // namespace barwright::core
