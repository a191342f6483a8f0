#include "targets/model/model.hpp"

#include <mutex>
#include <optional>
#include <random>
#include <stdexcept>
#include <utility>

#include "core/units/seeded.hpp"
#include "targets/model/coefficients.hpp"
#include "targets/model/constants_reader.hpp"
#include "targets/model/forms.hpp"
#include "targets/model/mixing.hpp"

namespace barwright::targets {

struct PropertyModel::Constants {
  Constants(std::shared_ptr<const ConstantTable> from, ConstantValues with, OilOffsets oils = {})
      : table(std::move(from)),
        values(std::move(with)),
        offsets(std::move(oils)),
        chains(derive_chains(*table, values)),
        titre_offset(targets::titre_offset(*table, values)) {}

  std::shared_ptr<const ConstantTable> table;
  ConstantValues values;
  OilOffsets offsets;
  std::optional<Tuning> tuning;
  Chains chains;
  double titre_offset;
  mutable std::once_flag read;
  mutable std::vector<PropertyModel> readings;
};

PropertyModel::PropertyModel(std::shared_ptr<const Constants> constants)
    : constants_(std::move(constants)) {}

PropertyModel PropertyModel::from_constants(std::shared_ptr<const ConstantTable> table) {
  ConstantValues values;
  for (const Constant& constant : table->constants) values.values.push_back(constant.value);
  return PropertyModel(std::make_shared<const Constants>(std::move(table), std::move(values)));
}

PropertyModel PropertyModel::embedded() {
  static const PropertyModel model = from_constants(
      read_constants(embedded_document("model.yaml"), embedded_document("model_sources.yaml"),
                     embedded_document("titres.yaml")));
  return model;
}

std::vector<PropertyModel> PropertyModel::draws(std::size_t count, unsigned long long seed) const {
  std::mt19937_64 bits(seed);
  std::vector<PropertyModel> out;
  out.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    ConstantValues values = constants_->values;
    for (std::size_t c = 0; c < kConstantCount; ++c) {
      const Constant& constant = constants_->table->constants[c];
      if (constant.spread.kind == Spread::Kind::none) continue;
      values.values[c] = constant.at(core::fraction_of(bits()));
    }
    out.push_back(
        PropertyModel(std::make_shared<const Constants>(constants_->table, std::move(values))));
  }
  return out;
}

PropertyModel PropertyModel::at_values(ConstantValues values, OilOffsets offsets) const {
  if (values.values.size() != kConstantCount)
    throw std::invalid_argument("at_values: one value per constant");
  return PropertyModel(
      std::make_shared<const Constants>(constants_->table, std::move(values), std::move(offsets)));
}

PropertyModel PropertyModel::tuned(const PropertyModel& centre, std::vector<PropertyModel> readings,
                                   Tuning tuning) {
  auto made = std::make_shared<Constants>(centre.constants_->table, centre.constants_->values,
                                          centre.constants_->offsets);
  made->tuning = std::move(tuning);
  std::call_once(made->read, [&] { made->readings = std::move(readings); });
  return PropertyModel(std::shared_ptr<const Constants>(std::move(made)));
}

const PropertyModel::Tuning* PropertyModel::tuning() const {
  return constants_->tuning ? &*constants_->tuning : nullptr;
}

std::shared_ptr<const ConstantTable> PropertyModel::table() const { return constants_->table; }

const ConstantValues& PropertyModel::values() const { return constants_->values; }

const std::vector<PropertyModel>& PropertyModel::readings() const {
  constexpr unsigned long long kSeed = 1;
  std::call_once(constants_->read, [&] { constants_->readings = draws(kReadings, kSeed); });
  return constants_->readings;
}

const std::vector<Constant>& PropertyModel::constants() const {
  return constants_->table->constants;
}

double PropertyModel::constant(std::size_t index) const {
  return constants_->values.values.at(index);
}

PropertyModel PropertyModel::with(std::size_t index, double value) const {
  ConstantValues values = constants_->values;
  values.values.at(index) = value;
  return at_values(std::move(values), constants_->offsets);
}

const std::vector<std::pair<std::string, std::string>>& PropertyModel::sources() const {
  return constants_->table->sources;
}

bool PropertyModel::has_form(Property property) {
  return property != Property::soluble_20 && property != Property::soluble_38 &&
         property != Property::titre;
}

PropertyForm PropertyModel::form(Property property, const BarSettings& settings) const {
  if (!has_form(property))
    throw std::logic_error("no form for the property " + std::string(name(property)));
  PropertyForm form = property_form(property, constants_->values, constants_->chains, settings);
  if (!constants_->offsets.oils.empty()) put_own(form, property, constants_->offsets);
  return form;
}

core::AcidProfile PropertyModel::solubility_limits(Property property,
                                                   const BarSettings& settings) const {
  check_settings(settings);
  const Chains& chains = constants_->chains;
  if (property == Property::soluble_20)
    return blend_alkali(chains.dissolved_cold, settings.koh_share);
  if (property == Property::soluble_38)
    return blend_alkali(chains.dissolved_basin, settings.koh_share);
  throw std::logic_error("no solubility limits for the property " + std::string(name(property)));
}

double PropertyModel::value(Property property, const Composition& composition,
                            const BarSettings& settings) const {
  switch (property) {
    case Property::soluble_20:
    case Property::soluble_38:
      return 100 * soluble_share(composition.acids, solubility_limits(property, settings));
    case Property::titre:
      return liquidus(constants_->values, composition.acids) + constants_->titre_offset;
    default:
      break;
  }
  const PropertyForm form = this->form(property, settings);
  return form.outer(form.inner(composition));
}

}  // namespace barwright::targets
