#pragma once

#include <string>

namespace barwright::app {

/// Returns text safe inside HTML and SVG.
std::string escaped(const std::string& text);

}  // namespace barwright::app
