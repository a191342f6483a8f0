#pragma once

#include <string>

namespace barwright::app {

/// Returns "0.1.0".
std::string version();
/// Returns what --version prints: the program's version, and the library's date and size.
std::string version_text();

}  // namespace barwright::app
