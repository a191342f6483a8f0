#pragma once

#include <string>

namespace barwright::app {

/// Returns the workbench's page as it is served: one HTML text, @TOKEN@ in the place of the token.
std::string workbench_page();

}  // namespace barwright::app
