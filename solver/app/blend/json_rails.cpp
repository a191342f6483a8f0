#include "solver/app/blend/json_rails.hpp"

#include <algorithm>
#include <cmath>

#include "core/lye/lye_cautions.hpp"
#include "solver/app/blend/json_wish.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/formulate/subject.hpp"
#include "targets/model/words.hpp"

namespace barwright::app {
namespace {

constexpr const char* kTooLittle = "too little to notice";

const jobs::RailReach* reach_of(const jobs::BlendReport& report, targets::Subject::Kind kind,
                                targets::Property property) {
  const auto found =
      std::find_if(report.rails.begin(), report.rails.end(), [&](const jobs::RailReach& one) {
        return one.subject.kind == kind &&
               (kind != targets::Subject::Kind::property || one.subject.property == property);
      });
  return found == report.rails.end() ? nullptr : &*found;
}

Json end_json(const explain::Extreme& end, double offset) {
  return end.steps.empty() ? Json() : finite(end.value - offset);
}

// An end that nothing was searched for is no end that was proved.
Json reach_json(const jobs::RailReach& reach) {
  return {{"low", end_json(reach.low, reach.offset)},
          {"high", end_json(reach.high, reach.offset)},
          {"low_proved", !reach.low.steps.empty() && reach.low.proved()},
          {"high_proved", !reach.high.steps.empty() && reach.high.proved()}};
}

const char* severity(core::Severity severity) {
  return severity == core::Severity::danger    ? "danger"
         : severity == core::Severity::caution ? "warning"
                                               : "note";
}

void add_line(Json& out, const jobs::PropertyLine& line) {
  const auto& words = targets::words(line.property);
  out["value"] = line.value;
  out["difference"] = line.against.value;
  out["difference_low"] = line.against.low;
  out["difference_high"] = line.against.high;
  out["sure"] = line.against.sure;
  if (line.against.too_few_pours) out["too_few_pours"] = true;
  out["leans_on"] = line.leans;
  out["words"] = std::abs(line.against.value) < words.notice ? kTooLittle
                 : line.against.value > 0                    ? words.more
                                                             : words.less;
}

}  // namespace

Json json_properties(std::span<const jobs::PropertyLine> lines) {
  Json out = Json::object();
  for (const auto& line : lines) {
    Json one = Json::object();
    add_line(one, line);
    out[std::string(targets::name(line.property))] = std::move(one);
  }
  return out;
}

Json properties_json(const jobs::BlendReport& report) {
  Json out = Json::object();
  for (const auto property : targets::all_properties()) {
    Json one = Json::object();
    for (const auto& line : report.properties)
      if (line.property == property) add_line(one, line);
    one["unit"] = property == targets::Property::titre ? "C" : "points";
    one["step"] = targets::noticeable(property);
    one["today"] =
        report.job->model.value(property, report.compared.composition, report.compared.settings);
    if (const auto* reach = reach_of(report, targets::Subject::Kind::property, property))
      one["reach"] = reach_json(*reach);
    out[std::string(targets::name(property))] = std::move(one);
  }
  return out;
}

Json cost_json(const jobs::BlendReport& report) {
  targets::Subject subject;
  subject.kind = targets::Subject::Kind::oil_cost;
  subject.currency = report.job->candidates.currency;
  Json out = {{"currency", subject.currency},
              {"per_kg", nullptr},
              {"per_batch", nullptr},
              {"per_bar", nullptr}};
  const double step = formulate::noticeable(subject);
  out["unit"] = formulate::unit(subject);
  out["step"] = step;
  const auto& bar = report.compared;
  out["today"] = bar.priced ? Json(bar.price_per_kg) : Json();
  if (report.cost) {
    out["per_kg"] = out["value"] = report.cost->per_kg;
    out["per_batch"] = report.cost->per_batch;
    if (report.cost->per_bar) out["per_bar"] = *report.cost->per_bar;
  }
  if (report.cost && bar.priced) {
    const double difference = report.cost->per_kg - bar.price_per_kg;
    for (const char* key : {"difference", "difference_low", "difference_high"})
      out[key] = difference;
    out["sure"] = std::abs(difference) >= step;
    out["words"] = std::abs(difference) < step ? kTooLittle : difference > 0 ? "dearer" : "cheaper";
  }
  if (const auto* reach = reach_of(report, subject.kind, targets::Property::hardness);
      reach != nullptr && bar.priced)
    out["reach"] = reach_json(*reach);
  return out;
}

Json superfat_json(const core::Recipe& recipe) {
  return {{"unit", "%"},
          {"aim", 100 * recipe.asked_superfat},
          {"as_made", 100 * recipe.superfat},
          {"worst", 100 * recipe.band.low},
          {"most", 100 * recipe.band.high}};
}

Json cautions_json(const jobs::BlendReport& report) {
  Json out = Json::array();
  const auto add = [&](const core::Note& note) {
    out.push_back({{"severity", severity(note.severity)}, {"say", note.text}});
  };
  for (const auto& note : core::lye_cautions(report.result.recipe)) add(note);
  for (const auto& note : report.result.recipe.notes) add(note);
  for (const auto& text : report.cautions) out.push_back({{"severity", "warning"}, {"say", text}});
  return out;
}

Json make_json(const jobs::BlendReport& report) {
  const auto& recipe = report.result.recipe;
  Json out = {{"say", size_words(report.job->brief, recipe)},
              {"bars", nullptr},
              {"oils_grams", recipe.oils_grams},
              {"total_grams", recipe.total_grams}};
  if (report.result.assumed.bars > 0) out["bars"] = report.result.assumed.bars;
  return out;
}

}  // namespace barwright::app
