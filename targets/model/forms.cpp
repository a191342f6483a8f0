#include "targets/model/forms.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace barwright::targets {
namespace {

using core::AcidProfile;

// Every score is built as a mean of parts that each lie in 0..100, so that it stays there whatever
// the blend and whatever the constants drawn.
struct Builder {
  const ConstantValues& v;
  const Chains& chains;
  const BarSettings& settings;
  PropertyForm out{};

  void chains_part(const AcidProfile& points, double wax, double factor) {
    for (std::size_t k = 0; k < points.size(); ++k) out.linear[k] += factor * points[k];
    out.linear[kWax] += factor * wax;
  }

  // `points` of the score at `full` and beyond, of component `component`.
  void saturating_part(double points, std::size_t component, double full) {
    Bend bend{points, {}, 1};
    bend.slope[component] = 1 / full;
    out.bends.push_back(bend);
  }

  void firmness(double shift, double wax, double hard_wax, double factor, double most_gain) {
    const double lactate =
        most_gain * (1 - std::exp(-settings.sodium_lactate / v[Scalar::lactate_scale]));
    const double salt =
        v[Scalar::salt_hardens] * (1 - std::exp(-settings.salt / v[Scalar::salt_scale]));
    const double gain = 1 - (1 - lactate) * (1 - salt);
    AcidProfile points = crystalline(v, chains, shift, settings.koh_share);
    for (double& x : points) x *= 100;
    const double soft = 1 - v[Scalar::fat_softens] * free_fat_level(v, settings.superfat);
    chains_part(points, wax, (1 - gain) * soft * factor);
    out.linear[kHardWax] += (hard_wax - wax) * (1 - gain) * soft * factor;
    out.constant = 100 * gain * factor;
  }

  void hardness() {
    const double water = bar_water(v, settings.lye_concentration, settings.cure_days);
    firmness(drying_shift(v, water), v[Scalar::wax_hardness], v[Scalar::hard_wax_hardness], 1,
             v[Scalar::lactate_cured_gain]);
  }

  void cut_firmness() {
    const double water = bar_water(v, settings.lye_concentration, settings.cut_hours / 24);
    const double pace = v[settings.gelled ? Scalar::gelled_setting_time : Scalar::setting_time];
    const double turned_to_soap = 1 - std::exp(-settings.cut_hours / pace);
    firmness(drying_shift(v, water), v[Scalar::wax_cut_firmness], v[Scalar::hard_wax_cut_firmness],
             turned_to_soap, v[Scalar::lactate_cut_gain]);
  }

  void lather() {
    const double damped = 1 - v[Scalar::fat_damps_foam] * free_fat_level(v, settings.superfat);
    const double castor = v[Scalar::castor_lather];
    chains_part(foam(v, chains, settings.koh_share), v[Scalar::wax_lather], damped * (1 - castor));
    saturating_part(100 * damped * castor, static_cast<std::size_t>(core::FattyAcid::C18_1OH),
                    v[Scalar::castor_full]);
  }

  void quickness() {
    chains_part(first_foam(chains, settings.koh_share), v[Scalar::wax_quickness], 1);
  }

  void staying() {
    AcidProfile points = chains.stiff;
    for (const core::AcidFacts& facts : core::acid_facts()) {
      double& held = points[static_cast<std::size_t>(facts.acid)];
      held *= 100;
      if (facts.carbons <= 14) held *= 1 - v[Scalar::short_foam_fleeting];
    }
    const double castor = v[Scalar::castor_staying];
    chains_part(points, v[Scalar::wax_staying], 1 - castor);
    saturating_part(100 * castor, static_cast<std::size_t>(core::FattyAcid::C18_1OH),
                    v[Scalar::castor_full]);
  }

  // Points of mildness per chain at the settings' superfat.
  AcidProfile mild() const {
    AcidProfile points = irritancy(v, chains, settings.koh_share);
    for (double& x : points) x = 100 - soothed() * x;
    return points;
  }
  double wax_mild() const { return 100 - soothed() * v[Scalar::wax_irritancy]; }
  double soothed() const {
    return 1 - v[Scalar::fat_soothes] * free_fat_level(v, settings.superfat);
  }

  void mildness() { chains_part(mild(), wax_mild(), 1); }

  void conditioning() {
    const double fat = v[Scalar::fat_after_feel];
    const double unsaponifiable = v[Scalar::unsaponifiable_after_feel];
    const double share = v[Scalar::mildness_share];
    AcidProfile points = mild();
    for (std::size_t k = 0; k < points.size(); ++k)
      points[k] = share * points[k] + (1 - share) * 100 * chains.mobile[k];
    chains_part(points, v[Scalar::wax_after_feel], 1 - fat - unsaponifiable);
    out.constant = 100 * fat * free_fat_level(v, settings.superfat);
    saturating_part(100 * unsaponifiable, kUnsaponifiable, v[Scalar::unsaponifiable_full]);
  }

  void thrift() {
    const AcidProfile dissolved = blend_alkali(chains.dissolved_basin, settings.koh_share);
    AcidProfile left{};
    for (std::size_t k = 0; k < left.size(); ++k)
      left[k] = 100 * (1 - dissolved[k] * chains.gel_basin[k]);
    chains_part(left, 100 - v[Scalar::wax_wear], 1);
  }

  void keeping() {
    // Free fat turns before its soap does; the scale is set at the usual superfat.
    constexpr double kUsualSuperfat = 0.05;
    const double turns = v[Scalar::fat_turns];
    const double pace =
        (1 + turns * std::max(0.0, settings.superfat)) / (1 + turns * kUsualSuperfat);
    chains_part(chains.oxidisability, v[Scalar::wax_oxidisability], pace);
    out.scale = PropertyForm::Scale::keeping;
    out.scale_parameter = v[Scalar::oxidation_half];
  }

  void working_time() {
    const double lye = std::pow(settings.lye_concentration / v[Scalar::reference_lye],
                                v[Scalar::thickening_lye_power]);
    chains_part(thickening(v, chains, settings.koh_share), v[Scalar::wax_thickening], lye);
    out.linear[kHardWax] += lye * (v[Scalar::hard_wax_thickening] - v[Scalar::wax_thickening]);
    out.linear[kLard] += lye * v[Scalar::thickening_lard];
    out.linear[kFreeAcid] += lye * v[Scalar::thickening_free_acid];
    out.linear[kUnsaponifiable] += lye * v[Scalar::thickening_unsaponifiable];
    out.scale = PropertyForm::Scale::keeping;
    out.scale_parameter = v[Scalar::thickening_half];
  }
};

}  // namespace

void check_settings(const BarSettings& s) {
  const auto need = [](bool holds, const char* what) {
    if (!holds) throw std::invalid_argument(std::string("bar settings: ") + what);
  };
  need(s.lye_concentration > 0 && s.lye_concentration < 1, "lye strength must be between 0 and 1");
  need(s.koh_share >= 0 && s.koh_share <= 1, "the potash share must be from 0 to 1");
  need(s.superfat > -1 && s.superfat < 1, "the superfat must be between -1 and 1");
  need(s.sodium_lactate >= 0 && s.sodium_lactate < 1, "sodium lactate must be from 0 to 1 g per g");
  need(s.salt >= 0 && std::isfinite(s.salt), "salt must not be negative");
  need(s.cut_hours >= 0 && s.cure_days >= 0 && std::isfinite(s.cut_hours + s.cure_days),
       "times must not be negative");
}

PropertyForm property_form(Property property, const ConstantValues& values, const Chains& chains,
                           const BarSettings& settings) {
  check_settings(settings);
  Builder build{values, chains, settings};
  switch (property) {
    case Property::hardness:
      build.hardness();
      break;
    case Property::lather:
      build.lather();
      break;
    case Property::conditioning:
      build.conditioning();
      break;
    case Property::cut_firmness:
      build.cut_firmness();
      break;
    case Property::quickness:
      build.quickness();
      break;
    case Property::staying:
      build.staying();
      break;
    case Property::mildness:
      build.mildness();
      break;
    case Property::thrift:
      build.thrift();
      break;
    case Property::keeping:
      build.keeping();
      break;
    case Property::working_time:
      build.working_time();
      break;
    case Property::soluble_20:
    case Property::soluble_38:
    case Property::titre:
      throw std::logic_error("this property has no form");
  }
  return build.out;
}

}  // namespace barwright::targets
