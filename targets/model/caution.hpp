#pragma once

#include <string>
#include <vector>

#include "targets/model/composition.hpp"

namespace barwright::targets {

/// Returns what a maker should be told about a blend beside its scores, from data/cautions.yaml:
/// wax, free acid, much polyunsaturated fat, chains whose figures are guessed. May be empty.
std::vector<std::string> cautions(const Composition& composition);

}  // namespace barwright::targets
