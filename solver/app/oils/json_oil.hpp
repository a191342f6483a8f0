#pragma once

#include "solver/app/oils/text_oil.hpp"

namespace barwright::app {

/// Returns the same as one JSON object.
std::string json_oil(const oils::Oil& oil, const oils::Library& library);

std::string json_record(const oils::RecordReport& report);

}  // namespace barwright::app
