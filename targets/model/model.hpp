#pragma once

#include <array>
#include <memory>
#include <string>
#include <vector>

#include "targets/model/composition.hpp"
#include "targets/model/constants.hpp"
#include "targets/model/own_offsets.hpp"
#include "targets/model/property.hpp"
#include "targets/model/property_form.hpp"

namespace barwright::targets {

/// The property model: constants with sources, coefficients derived from them in code.
class PropertyModel {
 public:
  /// Returns the model compiled into the program, at its central constants.
  static PropertyModel embedded();
  /// Returns `count` models with constants drawn from their stated spreads. Same seed, same draws.
  std::vector<PropertyModel> draws(std::size_t count, unsigned long long seed) const;
  /// Returns kReadings models so drawn, the same ones behind every band that is shown and every
  /// wish that counts doubt; made at the first call and kept.
  const std::vector<PropertyModel>& readings() const;
  /// With more, the ends of a band move by less than a tenth of a point.
  static constexpr std::size_t kReadings = 400;
  /// Returns the model that other constants give. Errors: core::InputError of the reader.
  static PropertyModel from_constants(std::shared_ptr<const ConstantTable> table);

  /// Returns a model of the same table at other values, with what single oils do besides.
  PropertyModel at_values(ConstantValues values, OilOffsets offsets) const;
  /// What a model learned from notes, beside its readings.
  struct Tuning {
    /// Per pour that notes speak of, how much each reading counts without that pour's notes.
    std::vector<std::vector<double>> without_pour;
  };
  /// Returns a centre whose doubt are these readings: one model as notes have it.
  static PropertyModel tuned(const PropertyModel& centre, std::vector<PropertyModel> readings,
                             Tuning tuning);
  /// Returns what it learned; null for a model of print alone.
  const Tuning* tuning() const;
  /// Returns the figures it was made from.
  std::shared_ptr<const ConstantTable> table() const;
  const ConstantValues& values() const;

  /// Returns every constant with its source, and this model's value of one of them.
  const std::vector<Constant>& constants() const;
  double constant(std::size_t index) const;
  /// Returns this model with one constant set to another value.
  PropertyModel with(std::size_t index, double value) const;
  /// Returns the figures the model's data rest on: key and work.
  const std::vector<std::pair<std::string, std::string>>& sources() const;

  /// Returns one property of a bar: points 0..100, or C for titre. Errors: std::invalid_argument
  /// for a lye strength outside (0, 1), a share outside [0, 1] or a negative time.
  double value(Property property, const Composition& composition,
               const BarSettings& settings) const;

  /// Returns the form the search uses; form.outer(form.inner(c)) equals value(). Properties that
  /// have none (titre, soluble share) throw std::logic_error: see has_form().
  PropertyForm form(Property property, const BarSettings& settings) const;
  static bool has_form(Property property);
  /// Whether both are the very same model; the same figures read again are another.
  bool operator==(const PropertyModel& other) const { return constants_ == other.constants_; }

  /// soluble-20 and soluble-38 are the most S in [0, 1] with sum_k min(x_k, S a_k) >= S
  /// (a small linear programme, concave in x). Returns the a_k, one per acid.
  core::AcidProfile solubility_limits(Property property, const BarSettings& settings) const;

 private:
  struct Constants;
  explicit PropertyModel(std::shared_ptr<const Constants> constants);
  std::shared_ptr<const Constants> constants_;
};

/// The difference between two bars, both drawn together from the constants' spreads.
struct Difference {
  double value = 0;  ///< bar minus yardstick at the central constants
  double low = 0;    ///< 5th percentile of the draws
  double high = 0;   ///< 95th percentile
  /// Whether the sign holds in the whole band and the value is not within the least step one can
  /// notice.
  bool sure = false;
  /// Tuned only: sure by the notes, but not by print, and by too few pours to say so.
  bool too_few_pours = false;
};

}  // namespace barwright::targets
