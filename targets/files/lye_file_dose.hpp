#pragma once

#include <vector>

#include "targets/files/lye_file.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// Whether plain grams may stand alone as the amount in all.
enum class PlainGrams { are_total, need_basis };
Dose read_dose(const oils::yaml::Node& node, PlainGrams plain);
/// Returns a list of {name: dose, when:, total:, ...}, or one block {name: dose, name: dose}.
std::vector<Addition> read_additions(const oils::yaml::Node& node, PlainGrams plain);

}  // namespace barwright::targets
