#include "solver/formulate/subject.hpp"

#include <cmath>

#include "solver/formulate/blend_forms.hpp"
#include "targets/model/words.hpp"

namespace barwright::formulate {
namespace {

using targets::Property;
using Kind = targets::Subject::Kind;

double acid_sum(const std::vector<core::FattyAcid>& acids, const targets::Composition& c) {
  double sum = 0;
  for (const auto acid : acids) sum += core::at(c.acids, acid);
  return sum;
}

double cost_factor(const targets::Subject& subject, const targets::Written& written,
                   const CostBasis& cost) {
  switch (subject.per) {
    case targets::Per::kg_oils:
      return 1;
    case targets::Per::bar:
      if (cost.bars == 0) {
        written.fail("a price per bar, but the brief does not say how many bars",
                     "give the number of bars under 'make:', or the price per kg");
      }
      return cost.kg_oils_per_batch / cost.bars;
    case targets::Per::batch:
    case targets::Per::all:
      return cost.kg_oils_per_batch;
  }
  return 1;
}

// A measure whose form at a level is form(0) - level.
explain::Measure plain(optimise::Form form) {
  explain::Measure result;
  result.shifts = true;
  result.at = [form](std::span<const double> x) { return form.at(x); };
  result.form = [form = std::move(form)](double level) {
    optimise::Form moved = form;
    moved.constant -= level;
    return moved;
  };
  return result;
}

explain::Measure property_measure(const targets::Subject& subject, const targets::Written& written,
                                  const std::vector<targets::Composition>& oils,
                                  const targets::PropertyModel& model,
                                  const targets::BarSettings& settings) {
  if (subject.property == Property::titre) {
    written.fail("titre can be shown but not wished for: it does not follow the shares evenly",
                 "wish for hardness or cut-firmness, or set a range on the fatty acids");
  }
  explain::Measure result;
  // Beside the form, `at` asks the model itself: the verdict does not rest on our own translation.
  result.at = [oils, model, settings, property = subject.property](std::span<const double> x) {
    return model.value(property, targets::mix(oils, x), settings);
  };
  if (!targets::PropertyModel::has_form(subject.property)) {  // the soluble shares
    const auto limits = model.solubility_limits(subject.property, settings);
    result.form = [limits, oils](double level) { return soluble_floor(limits, level / 100, oils); };
    return result;
  }
  const targets::PropertyForm form = model.form(subject.property, settings);
  const optimise::Form inner = over_oils(form, oils);
  result.shifts = form.scale == targets::PropertyForm::Scale::identity;
  const double sign = form.rising() ? 1 : -1;
  result.form = [form, inner, sign](double level) {
    optimise::Form moved = inner;
    moved.constant -= form.inverse(level);
    return optimise::scaled(std::move(moved), sign);
  };
  return result;
}

}  // namespace

targets::Composition mixed(std::span<const Candidate> candidates, std::span<const double> shares) {
  std::vector<targets::Composition> parts;
  parts.reserve(candidates.size());
  for (const auto& candidate : candidates) parts.push_back(candidate.composition);
  return targets::mix(parts, shares);
}

explain::Measure measure(const targets::Subject& subject, const targets::Written& written,
                         std::span<const Candidate> candidates, const targets::PropertyModel& model,
                         const targets::BarSettings& settings, const CostBasis& cost) {
  std::vector<double> figures;
  std::vector<targets::Composition> oils;
  for (const auto& candidate : candidates) oils.push_back(candidate.composition);
  switch (subject.kind) {
    case Kind::property:
      return property_measure(subject, written, oils, model, settings);
    case Kind::saponification_value:
      for (const auto& c : candidates) figures.push_back(c.oil.saponification_value.span.typical);
      break;
    case Kind::iodine_value:
      for (const auto& c : candidates) figures.push_back(c.oil.iodine_value.span.typical);
      break;
    case Kind::unsaponifiable:
      for (const auto& c : oils) figures.push_back(100 * c.unsaponifiable);
      break;
    case Kind::acids:
      for (const auto& c : oils) figures.push_back(100 * acid_sum(subject.acids, c));
      break;
    case Kind::oil_cost: {
      const double factor = cost_factor(subject, written, cost);
      for (const auto& c : candidates) figures.push_back(factor * c.price_per_kg.value_or(NAN));
      break;
    }
    case Kind::acid_ratio: {
      explain::Measure result;
      std::vector<double> top;
      std::vector<double> bottom;
      for (const auto& c : oils) {
        top.push_back(acid_sum(subject.acids, c));
        bottom.push_back(acid_sum(subject.over, c));
      }
      const optimise::Form above = optimise::weighted_sum(top);
      const optimise::Form below = optimise::weighted_sum(bottom);
      result.at = [above, below](std::span<const double> x) { return above.at(x) / below.at(x); };
      result.form = [top, bottom](double level) {
        std::vector<double> rest(top.size());
        for (std::size_t i = 0; i < top.size(); ++i) rest[i] = top[i] - level * bottom[i];
        return optimise::weighted_sum(rest);
      };
      return result;
    }
  }
  return plain(optimise::weighted_sum(figures));
}

double value_of(const targets::Subject& subject, const targets::Written& written,
                const KnownBar& bar, const targets::PropertyModel& model, const CostBasis& cost) {
  switch (subject.kind) {
    case Kind::property:
      return model.value(subject.property, bar.composition, bar.settings);
    case Kind::saponification_value:
      return bar.saponification_value;
    case Kind::iodine_value:
      return bar.iodine_value;
    case Kind::unsaponifiable:
      return 100 * bar.composition.unsaponifiable;
    case Kind::acids:
      return 100 * acid_sum(subject.acids, bar.composition);
    case Kind::acid_ratio:
      return acid_sum(subject.acids, bar.composition) / acid_sum(subject.over, bar.composition);
    case Kind::oil_cost:
      if (!bar.priced) {
        written.fail("not every oil of " + bar.name + " has a price, so its cost is not known",
                     "give the missing prices in the shelf file, or a ceiling in money");
      }
      return cost_factor(subject, written, cost) * bar.price_per_kg;
  }
  return 0;
}

double noticeable(const targets::Subject& subject) {
  switch (subject.kind) {
    case Kind::property:
      return targets::noticeable(subject.property);
    case Kind::saponification_value:
    case Kind::iodine_value:
      return 2;  // judgement: what two careful laboratories may differ by
    case Kind::unsaponifiable:
      return 0.5;
    case Kind::acids:
      return 1;
    case Kind::acid_ratio:
      return 0.1;
    case Kind::oil_cost:
      return subject.per == targets::Per::bar       ? 0.01
             : subject.per == targets::Per::kg_oils ? 0.1
                                                    : 0.5;
  }
  return 1;
}

std::string unit(const targets::Subject& subject) {
  switch (subject.kind) {
    case Kind::property:
      return subject.property == Property::titre ? "C" : "points";
    case Kind::saponification_value:
      return "mg KOH/g";
    case Kind::iodine_value:
      return "g I2/100 g";
    case Kind::unsaponifiable:
    case Kind::acids:
      return "%";
    case Kind::acid_ratio:
      return "";
    case Kind::oil_cost:
      return subject.currency + (subject.per == targets::Per::bar       ? " per bar"
                                 : subject.per == targets::Per::kg_oils ? " per kg of oils"
                                                                        : " per batch");
  }
  return "";
}

}  // namespace barwright::formulate
