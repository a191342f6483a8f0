#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "targets/model/model.hpp"

namespace barwright::targets {

/// What a difference between two bars rests on that was judged or recalled, not read.
struct Lean {
  std::optional<core::FattyAcid> acid;  ///< the figures of one acid; else one constant:
  std::string constant;  ///< what it is about; of an acid: key of the weightiest of its figures
  core::Mark mark = core::Mark::judgement;
  double share = 0;  ///< of the difference's doubt (variance), or of its size, 0..1
  std::string why;   ///< the reason stated beside the figure
};

/// Returns what a difference leans on, weightiest first: judged or recalled constants that carry at
/// least a quarter of its variance over their spreads (each varied alone, the rest central), and
/// acids with such figures that make more than a third of its size. At most three.
std::vector<Lean> leans_on(const PropertyModel& model, Property property, const Composition& bar,
                           const BarSettings& bar_settings, const Composition& yardstick,
                           const BarSettings& yardstick_settings);

/// Returns the same for several properties at once, in their order: most of the work is shared.
std::vector<std::vector<Lean>> leans_on(const PropertyModel& model,
                                        std::span<const Property> properties,
                                        const Composition& bar, const BarSettings& bar_settings,
                                        const Composition& yardstick,
                                        const BarSettings& yardstick_settings);

/// An oil of the bar, so that a sentence can say which one brings an acid in.
struct NamedPart {
  std::string name;
  Composition composition;
  double share = 0;  ///< of the oils
};

/// Returns one plain sentence part, e.g. "leans on judged figures for C20:1 (meadowfoam)"; empty
/// when there is nothing to say.
std::string sentence(std::span<const Lean> leans, std::span<const NamedPart> parts = {});

}  // namespace barwright::targets
