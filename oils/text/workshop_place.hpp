#pragma once

#include <optional>
#include <string>

#include "oils/text/yaml.hpp"

namespace barwright::oils {

/// The name of a workshop's one file; it lies beside the files it speaks for.
inline constexpr const char* kWorkshopFile = "workshop.yaml";

/// Returns the workshop's file of a folder, parsed; nothing where none lies there. Errors:
/// InputError for one that is no YAML, or does not say that it is one ("workshop: ...").
std::optional<yaml::Document> workshop_document(const std::string& folder);

}  // namespace barwright::oils
