#include "solver/app/time_limit.hpp"

#include <fmt/format.h>

#include "core/units/number_text.hpp"
#include "solver/app/program.hpp"

namespace barwright::app {
namespace {

std::chrono::steady_clock::duration time_limit(const std::string& text) {
  double value = 0;
  const auto read = core::read_number(text.data(), text.data() + text.size(), value);
  const std::string unit(read.ptr, text.data() + text.size());
  const double seconds = unit.ends_with("ms")    ? value / 1000
                         : unit.ends_with("min") ? value * 60
                                                 : value;
  const bool known = unit == "s" || unit == " s" || unit == "ms" || unit == " ms" ||
                     unit == "min" || unit == " min";
  if (read.ec == std::errc() && known && seconds > 0 && seconds < 1e6)
    return std::chrono::duration_cast<std::chrono::steady_clock::duration>(
        std::chrono::duration<double>(seconds));
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
