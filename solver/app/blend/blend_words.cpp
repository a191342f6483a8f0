#include "solver/app/blend/blend_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/units/weight_text.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {

std::string blend_words(std::span<const formulate::Candidate> oils, std::span<const int> steps,
                        int all) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i] > 0) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return steps[a] > steps[b]; });
  const auto unbroken = [](std::string text) {
    for (std::size_t at = 0; (at = text.find(' ', at)) != std::string::npos;) {
      text.replace(at, 1, kNoBreak);
    }
    return text;
  };
  // As many decimals as tell two neighbouring steps apart.
  const int decimals = all <= 200 ? 1 : all <= 2000 ? 2 : 3;
  std::string out;
  for (const std::size_t i : order) {
    out +=
        (out.empty() ? "" : ", ") +
        unbroken(oils[i].oil.name + " " + percent(static_cast<double>(steps[i]) / all, decimals));
  }
  return out;
}

std::string pack_words(const std::string& size, double grams) {
  std::string weight = core::shown_units() == core::Units::ounces ? core::round_grams(grams)
                       : grams >= 1000 ? fmt::format("{:.4g} kg", grams / 1000)
                                       : fmt::format("{:.4g} g", grams);
  if (size.empty() || size == weight) return weight;
  const bool by_weight = size.ends_with("g") || size.ends_with("lb") ||
                         (size.ends_with("oz") && !size.ends_with("fl oz"));
  return by_weight ? size : fmt::format("{} ({})", size, weight);
}

std::string unproved_words(const optimise::Answer& answer) {
  return (answer.cut_short ? "The search was cut short, and this is the best so far: "
                           : "Not proved the best: ") +
         answer.reason + ".";
}

}  // namespace barwright::app
