#pragma once

#include <string>

#include "oils/text/yaml.hpp"

namespace barwright::app {

/// Returns where a node stands in its file, as 'edit' takes it: "want.hardness"; empty for no node.
std::string edit_path(const oils::yaml::Node& node);
/// Returns the same of a way as errors tell it: "want > hardness".
std::string edit_path(const std::string& way);

}  // namespace barwright::app
