#pragma once

#include <string>

namespace barwright::app {

/// Serves the workbench over a folder until Ctrl-C; prints the address to open on stdout first.
/// Errors: InputError (no such folder, port taken).
void serve(const std::string& folder, int port);

}  // namespace barwright::app
