#include "targets/model/constants.hpp"

#include <cmath>
#include <stdexcept>

#include "targets/embedded.hpp"

namespace barwright::targets {

const std::array<std::string_view, kScalarCount>& scalar_names() {
  static constexpr std::array<std::string_view, kScalarCount> kNames = {
      "bar-temperature",
      "basin-temperature",
      "cold-temperature",
      "skin-temperature",
      "bench-temperature",
      "concentrated-point-laurate",
      "concentrated-point-myristate",
      "concentrated-point-stearate",
      "potassium-point-myristate",
      "potassium-point-stearate",
      "potassium-point-oleate",
      "cure-shift",
      "reference-lye",
      "reference-cut",
      "reference-cure",
      "cured-water",
      "drying-time",
      "alkali-per-oil",
      "setting-time",
      "gelled-setting-time",
      "lactate-cut-gain",
      "lactate-cured-gain",
      "lactate-scale",
      "lather-strength",
      "refill",
      "foam-floor",
      "ricinoleate-cover",
      "castor-full",
      "castor-lather",
      "castor-staying",
      "gel-cold",
      "gel-warm",
      "polyunsaturated-irritancy",
      "mildness-share",
      "fat-after-feel",
      "unsaponifiable-after-feel",
      "unsaponifiable-full",
      "free-fat-scale",
      "fat-softens",
      "fat-damps-foam",
      "fat-soothes",
      "oxidation-ratios",
      "oxidation-trans",
      "oxidation-hydroxy",
      "oxidation-half",
      "thickening-crystal",
      "thickening-short",
      "thickening-ricinoleic",
      "thickening-free-acid",
      "thickening-half",
      "thickening-lye-power",
      "palmitic-stearic-dip",
      "wax-hardness",
      "wax-cut-firmness",
      "wax-lather",
      "wax-quickness",
      "wax-staying",
      "wax-irritancy",
      "wax-after-feel",
      "wax-wear",
      "wax-oxidisability",
      "wax-thickening",
      "fat-turns",
      "thickening-unsaponifiable",
      "thickening-lard",
      "hard-wax-hardness",
      "hard-wax-cut-firmness",
      "hard-wax-thickening",
      "short-foam-fleeting",
      "salt-hardens",
      "salt-scale",
  };
  return kNames;
}

const std::array<std::string_view, kTableCount>& table_names() {
  static constexpr std::array<std::string_view, kTableCount> kNames = {
      "melting-enthalpy", "melting-point", "krafft-point", "concentrated-point",
      "critical-micelle"};
  return kNames;
}

double Constant::at(double u) const {
  const double side = 2 * u - 1;
  switch (spread.kind) {
    case Spread::Kind::plus_minus:
      return value + side * spread.size;
    case Spread::Kind::relative:
      return value * (1 + side * spread.size);
    case Spread::Kind::factor:
      return value * std::pow(spread.size, side);
    case Spread::Kind::between:
      return spread.low + u * (spread.high - spread.low);
    case Spread::Kind::choices:
      return std::fmin(std::floor(u * spread.size), spread.size - 1);
    case Spread::Kind::none:
      break;
  }
  return value;
}

namespace {

const oils::EmbeddedFile& embedded(std::string_view file_name) {
  for (const oils::EmbeddedFile& file : embedded_files())
    if (file.name == file_name) return file;
  throw std::logic_error("no data file '" + std::string(file_name) + "' in the program");
}

}  // namespace

std::string embedded_text(std::string_view file_name) {
  return std::string(embedded(file_name).text);
}

oils::yaml::Document embedded_document(std::string_view file_name) {
  const auto& file = embedded(file_name);
  return oils::yaml::Document::from_tree(file.tree, file.text, std::string(file_name));
}

}  // namespace barwright::targets
