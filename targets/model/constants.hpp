#pragma once

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/chemistry/fatty_acid.hpp"
#include "core/units/figure.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::targets {

/// The model's single constants, in the order of data/model.yaml, which says what each means.
enum class Scalar {
  bar_temperature,
  basin_temperature,
  cold_temperature,
  skin_temperature,
  bench_temperature,
  concentrated_point_laurate,
  concentrated_point_myristate,
  concentrated_point_stearate,
  potassium_point_myristate,
  potassium_point_stearate,
  potassium_point_oleate,
  cure_shift,
  reference_lye,
  reference_cut,
  reference_cure,
  cured_water,
  drying_time,
  alkali_per_oil,
  setting_time,
  gelled_setting_time,
  lactate_cut_gain,
  lactate_cured_gain,
  lactate_scale,
  lather_strength,
  refill,
  foam_floor,
  ricinoleate_cover,
  castor_full,
  castor_lather,
  castor_staying,
  gel_cold,
  gel_warm,
  polyunsaturated_irritancy,
  mildness_share,
  fat_after_feel,
  unsaponifiable_after_feel,
  unsaponifiable_full,
  free_fat_scale,
  fat_softens,
  fat_damps_foam,
  fat_soothes,
  oxidation_ratios,
  oxidation_trans,
  oxidation_hydroxy,
  oxidation_half,
  thickening_crystal,
  thickening_short,
  thickening_ricinoleic,
  thickening_free_acid,
  thickening_half,
  thickening_lye_power,
  palmitic_stearic_dip,
  wax_hardness,
  wax_cut_firmness,
  wax_lather,
  wax_quickness,
  wax_staying,
  wax_irritancy,
  wax_after_feel,
  wax_wear,
  wax_oxidisability,
  wax_thickening,
  fat_turns,
  thickening_unsaponifiable,
  thickening_lard,
  hard_wax_hardness,
  hard_wax_cut_firmness,
  hard_wax_thickening,
  short_foam_fleeting,
  salt_hardens,
  salt_scale,
};
inline constexpr std::size_t kScalarCount = 71;
/// The model's constants of each fatty acid. `concentrated_point` holds unsaturated acids only.
enum class Table {
  melting_enthalpy,
  melting_point,
  krafft_point,
  concentrated_point,
  critical_micelle,
};
inline constexpr std::size_t kTableCount = 5;
inline constexpr std::size_t kConstantCount = kScalarCount + kTableCount * core::kFattyAcidCount;

/// How far a constant may be off; see the head of data/model.yaml.
struct Spread {
  enum class Kind { none, plus_minus, relative, factor, between, choices } kind = Kind::none;
  double size = 0;           ///< half width, relative half width, factor, or number of choices
  double low = 0, high = 0;  ///< of `between`
};

/// One constant with where it comes from.
struct Constant {
  std::string key;                      ///< as data/model.yaml writes it, e.g. "cure-shift"
  std::optional<core::FattyAcid> acid;  ///< of a table's entry
  double value = 0;                     ///< in `unit`
  std::string unit;
  core::Mark mark = core::Mark::judgement;
  std::string source;  ///< key of data/model_sources.yaml
  Spread spread;
  std::string why;    ///< one line of reason
  std::string about;  ///< of a single constant with a spread: its matter in a maker's words
  bool used = true;   ///< false for the saturated acids of `concentrated_point`

  /// Returns the value a share `u` (0..1) of the way through the spread.
  double at(double u) const;
};

/// One set of relative oxidation rates of chains with one, two and three bonds.
struct OxidationRates {
  double monoene = 1, diene = 0, triene = 0;
  core::Mark mark = core::Mark::judgement;
  std::string source;
};

/// A published titre with the profile the offset's fit uses.
struct PrintedTitre {
  std::string oil;
  double printed = 0;  ///< C
  core::AcidProfile acids{};
};

/// Everything data/model.yaml, data/titres.yaml and data/model_sources.yaml say.
struct ConstantTable {
  std::vector<Constant> constants;  ///< kConstantCount: scalars, then table by table
  std::vector<OxidationRates> oxidation;
  std::vector<PrintedTitre> titres;
  std::vector<std::pair<std::string, std::string>> sources;  ///< key, work
};

/// Returns the place of a constant in ConstantTable::constants.
inline std::size_t index(Scalar scalar) { return static_cast<std::size_t>(scalar); }
inline std::size_t index(Table table, core::FattyAcid acid) {
  return kScalarCount + static_cast<std::size_t>(table) * core::kFattyAcidCount +
         static_cast<std::size_t>(acid);
}
/// The names as data/model.yaml writes them, in enum order.
const std::array<std::string_view, kScalarCount>& scalar_names();
const std::array<std::string_view, kTableCount>& table_names();

/// One value per constant.
struct ConstantValues {
  std::vector<double> values;
  double operator[](Scalar scalar) const { return values[index(scalar)]; }
  double of(Table table, core::FattyAcid acid) const { return values[index(table, acid)]; }
};

/// Return one of the program's own data files: its text, or parsed. Errors: std::logic_error.
std::string embedded_text(std::string_view file_name);
oils::yaml::Document embedded_document(std::string_view file_name);

}  // namespace barwright::targets
