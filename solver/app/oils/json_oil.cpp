#include "solver/app/oils/json_oil.hpp"

#include "solver/app/blend/json_blend.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {
namespace {

Json figure_json(const core::Figure& figure, const char* unit) {
  return {
      {"typical", figure.span.typical},
      {"low", figure.span.low},
      {"high", figure.span.high},
      {"unit", unit},
      {"source", figure.source},
      {"mark", core::word(figure.mark)},
      {"range_source", figure.range_source.empty() ? figure.source : figure.range_source},
      {"range_mark", core::word(figure.range_source.empty() ? figure.mark : figure.range_mark)}};
}

}  // namespace

std::string json_oil(const oils::Oil& oil, const oils::Library& library) {
  Json acids = Json::object();
  for (const auto& facts : core::acid_facts()) {
    const auto& figure = oil.acids[static_cast<std::size_t>(facts.acid)];
    if (figure) acids[std::string(facts.key)] = figure_json(*figure, "% of fatty acids");
  }
  const auto model = targets::PropertyModel::embedded();
  Json properties = Json::object();
  for (const auto property : targets::all_properties()) {
    properties[std::string(targets::name(property))] =
        model.value(property, targets::composition(oil), {});
  }
  Json object = {{"schema", kJsonSchema},
                 {"command", "oils"},
                 {"status", "found"},
                 {"name", oil.name},
                 {"synonyms", oil.synonyms},
                 {"inci", oil.inci},
                 {"saponified", oil.saponified_name},
                 {"saponified_by_analogy", oil.saponified_name_by_analogy},
                 {"tags", oil.tags},
                 {"form", oils::word(oil.form)},
                 {"solid_at_25c", oil.solid_at_25c},
                 {"saponification_value", figure_json(oil.saponification_value, "mg KOH/g")},
                 {"iodine_value", figure_json(oil.iodine_value, "g I2/100 g")},
                 {"unsaponifiable", figure_json(oil.unsaponifiable, "% of the fat")}};
  if (oil.acid_value) object["acid_value"] = figure_json(*oil.acid_value, "mg KOH/g");
  if (oil.titre) object["titre"] = figure_json(*oil.titre, "C");
  if (oil.density) {
    object["density"] = figure_json(*oil.density, "g/mL");
    object["density_at_celsius"] = oil.density_at_celsius;
  }
  if (oil.usual_most) object["usual_most"] = figure_json(*oil.usual_most, "% of oils");
  object["fatty_acids"] = acids;
  object["properties"] = properties;
  object["note"] = oil.note;
  object["lye_caution"] = oil.lye_caution();
  Json works = Json::object();
  for (const auto& [key, source] : library.sources()) works[key] = source.work;
  object["sources"] = works;
  return object.dump(2) + "\n";
}

std::string json_record(const oils::RecordReport& report) {
  Json findings = Json::array();
  for (const auto& finding : report.findings) {
    findings.push_back({{"weight", finding.weight == oils::Finding::Weight::fault      ? "fault"
                                   : finding.weight == oils::Finding::Weight::question ? "question"
                                                                                       : "note"},
                        {"text", finding.text},
                        {"remedy", finding.remedy},
                        {"line", finding.place.line}});
  }
  const Json object = {{"schema", kJsonSchema},   {"command", "oils"},   {"status", "checked"},
                       {"name", report.oil.name}, {"like", report.like}, {"whole", report.whole},
                       {"findings", findings}};
  return object.dump(2) + "\n";
}

}  // namespace barwright::app
