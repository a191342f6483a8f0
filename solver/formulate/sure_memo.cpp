#include "solver/formulate/sure_memo.hpp"

#include <utility>

namespace barwright::formulate {
namespace {

constexpr std::size_t kMostKept = 64;  // of 100 oils about 0.3 MB each

}  // namespace

SureMemo::Bars SureMemo::bars_of(const SureGround& ground, const KnownBar& yardstick) {
  Bars out{ground.model, {}, {}, yardstick.settings};
  for (std::size_t i = 0; i < ground.candidates.size(); ++i)
    out.candidates.push_back({ground.candidates[i].oil.name, ground.book.ranges[i]});
  for (const KnownPart& part : yardstick.parts)
    out.yardstick.push_back({part.oil.name, targets::lot_range(part.oil), part.share});
  return out;
}

std::vector<optimise::Reading> SureMemo::ways(targets::Property property, double sign, Drawn drawn,
                                              const SureGround& ground, const KnownBar& yardstick,
                                              const Comparison& comparison) {
  Bars bars = bars_of(ground, yardstick);
  if (!bars_ || !(*bars_ == bars) || kept_.size() >= kMostKept) {
    kept_.clear();
    bars_ = std::move(bars);
  }
  const bool worst = ground.level == targets::Sureness::worst_case;
  const auto [place, fresh] = kept_.try_emplace(
      Key{property, sign, drawn, worst, worst ? 1 : ground.level.share, ground.settings});
  if (fresh) place->second = comparison.ways(drawn);
  return place->second;
}

}  // namespace barwright::formulate
