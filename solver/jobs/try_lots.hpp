#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "oils/records/lots_file.hpp"
#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// How one wish fared over the lots tried.
struct WishTrial {
  int asked = -1;   ///< index into Formulation::asked
  int held = 0;     ///< lots that kept it
  double low = 0;   ///< 95 % interval of the share of all lots that would keep it, fractions:
  double high = 0;  ///< Wilson's score interval (Wilson 1927; recalled)
};

/// A recipe made again and again from other lots.
struct LotTrial {
  int lots = 0;
  std::uint64_t seed = 0;
  std::vector<WishTrial> wishes;  ///< those that lots can move, in the brief's order
  WishTrial all;                  ///< all of them at once; `asked` is -1
  bool measured_used = false;     ///< the measured oil is in the bar, or in one it is compared with
};

/// Returns how often each wish holds when the recipe as weighed is made from `count` other lots of
/// its oils, drawn within the published ranges (targets::draw_lot; a certificate's lot does not
/// vary), judged by the property model at its central constants. The bar compared with is made from
/// the same lot of each oil the two share. `measured`: lots of one oil come from its file instead,
/// chosen at random; with a count of 0 each of them is tried once, the other oils as typical.
LotTrial try_lots(const BlendJob& job, const BlendResult& result, int count, std::uint64_t seed,
                  const std::optional<oils::MeasuredLots>& measured = std::nullopt);

/// Returns Wilson's score interval, 95 %, of the share that `held` of `tries` speaks for.
std::pair<double, double> share_interval(int held, int tries);

}  // namespace barwright::jobs
