#pragma once

#include "oils/embedded.hpp"

namespace barwright::targets {

/// Returns the property model's data files, sorted by name.
std::span<const oils::EmbeddedFile> embedded_files();

}  // namespace barwright::targets
