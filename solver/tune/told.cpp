#include "solver/tune/told.hpp"

#include <algorithm>
#include <cmath>

#include "solver/tune/dice.hpp"

namespace barwright::tune {

using targets::Property;
using targets::PropertyModel;

namespace {

constexpr double kWorthTelling = 0.5;  // steps
constexpr double kSureSide = 0.9;      // of the readings
constexpr double kDoubted = 0.5;

// Whether these steps of the readings are worth a word, and their mean.
bool worth_telling(const std::vector<double>& steps, double& mean) {
  mean = 0;
  double above = 0;
  for (const double one : steps) {
    mean += one / static_cast<double>(steps.size());
    above += one > 0 ? 1 / static_cast<double>(steps.size()) : 0;
  }
  return std::abs(mean) >= kWorthTelling && std::max(above, 1 - above) >= kSureSide;
}

std::vector<Change> changes(const NotesModel& model, const PropertyModel& tuned) {
  std::vector<Change> out;
  const PropertyModel print = PropertyModel::embedded();
  // Doubt beforehand, with what oils may do, so that a first note is not told as making less sure.
  Dice dice(1);
  std::vector<PropertyModel> beforehand;
  for (std::size_t r = 0; r < PropertyModel::kReadings; ++r) {
    std::vector<double> z(model.size());
    for (double& one : z) one = dice.normal();
    beforehand.push_back(model.model(z));
  }
  for (const Asked& asked : model.asked()) {
    const DistinctBar &bar = model.bars()[asked.bar], &against = model.bars()[asked.against];
    const auto between = [&](const PropertyModel& with, const std::vector<PropertyModel>& draws) {
      return targets::difference(with, draws, asked.property, bar.composition, bar.settings,
                                 against.composition, against.settings);
    };
    Change change;
    change.asked = asked;
    change.bar = bar.name;
    change.against = against.name;
    change.print = between(print, print.readings());
    change.tuned = between(tuned, tuned.readings());
    const targets::Difference before = between(print, beforehand);
    if (before.high > before.low)
      change.doubt_left = (change.tuned.high - change.tuned.low) / (before.high - before.low);
    out.push_back(std::move(change));
  }
  return out;
}

std::vector<std::string> at_limit(const NotesModel& model, const Learned& learned) {
  std::vector<std::string> out;
  const PropertyModel print = PropertyModel::embedded();
  std::vector<double> near(targets::kConstantCount, 0.0);
  const auto count = static_cast<double>(learned.states.size());
  for (const auto& z : learned.states) {
    const auto values = model.constants(z).values;
    for (std::size_t c = 0; c < values.size(); ++c) {
      const targets::Constant& constant = print.constants()[c];
      using Kind = targets::Spread::Kind;
      if (constant.spread.kind == Kind::none || constant.spread.kind == Kind::choices) continue;
      // Within the outer tenth of its spread at one end.
      const double low = constant.at(0), high = constant.at(1), tenth = (high - low) / 10;
      if (std::abs(values[c] - high) < std::abs(tenth)) near[c] += 1 / count;
      if (std::abs(values[c] - low) < std::abs(tenth)) near[c] -= 1 / count;
    }
  }
  constexpr double kMost = 0.4;  // a tenth beforehand
  for (std::size_t c = 0; c < near.size(); ++c)
    if (std::abs(near[c]) > kMost && !print.constants()[c].about.empty())
      out.push_back(print.constants()[c].about);
  return out;
}

}  // namespace

Told told(const NotesModel& model, const Learned& learned, const PropertyModel& tuned) {
  Told out;
  out.changes = changes(model, tuned);
  std::vector<double> steps(learned.states.size());
  for (const Property property : model.properties()) {
    for (std::size_t o = 0; o < model.oils().size(); ++o) {
      for (std::size_t r = 0; r < steps.size(); ++r)
        steps[r] = model.offset(learned.states[r], o, property);
      Own own{model.oils()[o]->name, property, 0};
      if (worth_telling(steps, own.steps)) out.oils.push_back(own);
    }
    for (std::size_t p = 0; p < model.notes().pours.size(); ++p) {
      for (std::size_t r = 0; r < steps.size(); ++r)
        steps[r] = model.pour_effect(learned.states[r], p, property);
      Own own{model.notes().pours[p].name, property, 0};
      if (worth_telling(steps, own.steps)) out.pours.push_back(own);
    }
  }
  for (std::size_t s = 0; s < model.sayings().size(); ++s)
    if (learned.strays[s] > kDoubted)
      out.doubted.push_back(
          {model.sayings()[s].place, model.sayings()[s].words, learned.strays[s]});
  for (const std::size_t pour : model.notes().without_note())
    out.without_note.push_back(model.notes().pours[pour].name);
  out.at_limit = at_limit(model, learned);
  return out;
}

}  // namespace barwright::tune
