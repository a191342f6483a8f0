#include "core/bench/release.hpp"

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"

namespace barwright::core {

const char* word(Hold hold) {
  switch (hold) {
    case Hold::on_hold:
      return "on hold";
    case Hold::curing:
      return "curing";
    case Hold::fit_to_sell:
      return "fit to sell";
  }
  return "";
}

Release release(const ReleaseRequest& request, const Day& today) {
  Release out;
  if (request.parts.empty()) out.reasons.emplace_back("It has no part that could be tested.");
  for (const auto& part : request.parts) {
    const PartTest* last = nullptr;
    for (const auto& test : request.tests) {
      if (test.part == part && days_between(test.day, today) >= 0) last = &test;
    }
    if (last == nullptr) {
      out.untested.push_back(part);
      out.reasons.push_back("No test of the " + part + " is recorded.");
    } else if (!last->passed) {
      out.failed.push_back(part);
      out.reasons.push_back("The " + part + " failed its test on " + text(last->day) +
                            (last->how.empty() ? "." : ": " + last->how + "."));
    }
  }
  if (request.lye_heavy) {
    out.reasons.emplace_back(
        "By the weights typed in, free lye can be left in the bars: not for use on skin.");
  }
  if (!request.let_go || days_between(request.let_go->day, today) < 0) {
    out.reasons.insert(out.reasons.end(), request.held.begin(), request.held.end());
  }
  if (!out.reasons.empty()) return out;
  if (days_between(today, request.ready) > 0) {
    out.hold = Hold::curing;
    out.reasons.push_back("The cure ends on " + text(request.ready) + ".");
    return out;
  }
  out.hold = Hold::fit_to_sell;
  return out;
}

Day ready_day(const Day& made, double cure_hours) {
  if (!(cure_hours >= 0) || cure_hours > 24 * 3660) {
    throw Refusal("The cure is no time a bar can be given.", "State it in weeks or days.");
  }
  return days_after(made, static_cast<int>(std::ceil(cure_hours / 24 - 1e-9)));
}

double cured_bar_grams(std::span<const PartWeight> parts, int bars) {
  if (bars < 1) throw Refusal("The batch has no bars.", "State how many bars it was cut into.");
  double sum = 0;
  for (const auto& part : parts) sum += part.cured;
  return sum / bars;
}

double label_grams(double bar_grams) {
  const double step = bar_grams < 10 ? 0.1 : 1;
  return std::max(0.0, std::floor(bar_grams / step + 1e-9) * step);
}

}  // namespace barwright::core
