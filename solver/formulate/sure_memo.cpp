#include "solver/formulate/sure_memo.hpp"

#include <algorithm>

namespace barwright::formulate {
namespace {

constexpr std::size_t kMostKept = 64;  // of 100 oils about 0.3 MB each

}  // namespace

// Asked at every posing, so nothing is copied for it.
bool SureMemo::Bars::are(const SureGround& ground, const KnownBar& bar) const {
  const auto same = [&](const Lots& kept, std::size_t i) {
    return kept.oil == ground.candidates[i].oil.name && kept.range == ground.book.ranges[i];
  };
  if (!(model == ground.model) || candidates.size() != ground.candidates.size() ||
      yardstick.size() != bar.parts.size() || yardstick_settings != bar.settings)
    return false;
  for (std::size_t i = 0; i < candidates.size(); ++i)
    if (!same(candidates[i], i)) return false;
  return std::equal(yardstick.begin(), yardstick.end(), bar.parts.begin(),
                    [](const Lots& kept, const KnownPart& part) {
                      return kept.oil == part.oil.name && kept.share == part.share &&
                             kept.range == targets::lot_range(part.oil);
                    });
}

SureMemo::Bars SureMemo::bars_of(const SureGround& ground, const KnownBar& yardstick) {
  Bars out{ground.model, {}, {}, yardstick.settings};
  for (std::size_t i = 0; i < ground.candidates.size(); ++i)
    out.candidates.push_back({ground.candidates[i].oil.name, ground.book.ranges[i]});
  for (const KnownPart& part : yardstick.parts)
    out.yardstick.push_back({part.oil.name, targets::lot_range(part.oil), part.share});
  return out;
}

std::vector<optimise::Reading> SureMemo::ways(
    targets::Property property, double sign, Drawn drawn, const SureGround& ground,
    const KnownBar& yardstick, const std::function<std::vector<optimise::Reading>()>& worked_out) {
  if (!bars_ || !bars_->are(ground, yardstick) || kept_.size() >= kMostKept) {
    kept_.clear();
    bars_ = bars_of(ground, yardstick);
  }
  const bool worst = ground.level == targets::Sureness::worst_case;
  const auto [place, fresh] = kept_.try_emplace(
      Key{property, sign, drawn, worst, worst ? 1 : ground.level.share, ground.settings});
  if (fresh) place->second = worked_out();
  return place->second;
}

}  // namespace barwright::formulate
