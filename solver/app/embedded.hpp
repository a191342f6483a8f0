#pragma once

#include "oils/embedded.hpp"

namespace barwright::app {

/// Returns the files of examples/, sorted by name: what 'barwright new' writes is taken from them.
std::span<const oils::EmbeddedFile> embedded_files();

}  // namespace barwright::app
