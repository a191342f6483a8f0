#include "solver/app/time_limit.hpp"

#include <fmt/format.h>

#include "solver/app/program.hpp"

namespace barwright::app {
namespace {

std::chrono::steady_clock::duration time_limit(const std::string& text) {
  try {
    std::size_t used = 0;
    const double value = std::stod(text, &used);
    const std::string unit = text.substr(used);
    const double seconds = unit == "ms" ? value / 1000 : unit == "min" ? value * 60 : value;
    if ((unit == "s" || unit == " s" || unit == "ms" || unit == "min" || unit == " min") &&
        seconds > 0 && seconds < 1e6) {
      return std::chrono::duration_cast<std::chrono::steady_clock::duration>(
          std::chrono::duration<double>(seconds));
    }
  } catch (const std::logic_error&) {  // no number: falls through
  }
  throw UsageError{fmt::format("--within {}: write a time such as 2s, 500ms or 1min", text)};
}

}  // namespace

void set_limit(const std::string& within, optimise::Allowance& allowance,
               optimise::SearchOptions& options) {
  if (!within.empty()) {
    options.deadline = deadline_within(within);
    return;
  }
  allowance.most = kUsualWork;
  options.allowance = &allowance;
}

std::chrono::steady_clock::time_point deadline_within(const std::string& text) {
  return std::chrono::steady_clock::now() + time_limit(text);
}

}  // namespace barwright::app
