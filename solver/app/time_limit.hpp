#pragma once

#include <chrono>
#include <string>

namespace barwright::app {

/// Returns now and the time of "--within": "2s", "500ms", "1min". Errors: UsageError.
std::chrono::steady_clock::time_point deadline_within(const std::string& text);

}  // namespace barwright::app
