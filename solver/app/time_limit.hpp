#pragma once

#include <chrono>
#include <cstdint>
#include <string>

#include "solver/optimise/search.hpp"

namespace barwright::app {

/// The work a question is given where --within says nothing else (optimise::Allowance): about ten
/// seconds on an ordinary machine, and the same bytes on every machine.
inline constexpr std::uint64_t kUsualWork = 8'000'000'000;

/// Sets the end of a question: the time of --within, or, where that is empty, the allowance, which
/// must outlive the options. Errors: UsageError.
void set_limit(const std::string& within, optimise::Allowance& allowance,
               optimise::SearchOptions& options);

/// Returns now and the time of "--within": "2s", "500ms", "1min". Errors: UsageError.
std::chrono::steady_clock::time_point deadline_within(const std::string& text);

}  // namespace barwright::app
