#include "targets/text/brief_words.hpp"

#include <fmt/format.h>

namespace barwright::targets {

void Written::fail(const std::string& message, const core::Remedy& remedy) const {
  if (node) node.fail(message, remedy);
  throw core::InputError(place, message, remedy);
}

Written written(const oils::yaml::Node& node) {
  return {node.is_scalar() ? node.text() : std::string(), node.place(), node};
}
Written written(const oils::yaml::Node& key, const oils::yaml::Node& value) {
  return {key.text() + (value.is_scalar() ? ": " + value.text() : std::string()), value.place(),
          value};
}

std::string words(const SureLevel& level) {
  if (level.kind != Sureness::likely) return word(level.kind);
  return fmt::format("likely {:.6g} %", 100 * level.share);
}

const char* word(Sureness level) {
  switch (level) {
    case Sureness::typical:
      return "typical";
    case Sureness::likely:
      return "likely";
    case Sureness::worst_case:
      return "worst-case";
  }
  return "";
}

}  // namespace barwright::targets
