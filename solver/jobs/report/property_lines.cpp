#include "solver/jobs/report/property_lines.hpp"

namespace barwright::jobs {

std::vector<PropertyLine> property_lines(const targets::PropertyModel& model,
                                         const targets::Composition& bar,
                                         const targets::BarSettings& settings,
                                         const formulate::KnownBar& yardstick,
                                         std::span<const targets::NamedPart> parts) {
  std::vector<PropertyLine> lines;
  const auto& draws = model.readings();
  const auto& properties = targets::all_properties();
  const auto leans = targets::leans_on(model, properties, bar, settings, yardstick.composition,
                                       yardstick.settings);
  for (std::size_t p = 0; p < properties.size(); ++p) {
    const auto property = properties[p];
    PropertyLine line;
    line.property = property;
    line.value = model.value(property, bar, settings);
    line.against = targets::difference(model, draws, property, bar, settings, yardstick.composition,
                                       yardstick.settings);
    line.leans = targets::sentence(leans[p], parts);
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace barwright::jobs
