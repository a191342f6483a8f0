#pragma once

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "solver/explain/curve.hpp"
#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// One side of a trade-off: the oil cost, the feel, or a property (more of it is wanted).
struct TradeSide {
  enum class Kind { cost, feel, property };
  Kind kind = Kind::cost;
  targets::Property property = targets::Property::hardness;
  std::string name;
};

/// "cost against hardness": the first stands upward, the second across.
struct Trade {
  TradeSide up, across;
};

/// Returns the trade-off a text names; nothing when it names none that can be traced.
std::optional<Trade> find_trade(const std::string& text);

/// Returns what find_trade takes, as a sentence.
std::string trades_known();

/// A curve with its sides in the maker's units.
struct TracedTrade {
  Trade trade;
  explain::Curve curve;
  std::string no_curve;                         ///< a sentence, when there is none
  std::vector<std::pair<double, double>> seen;  ///< per point: across, up
};

/// Returns the trade-off over a bar's blends; every point carries its own proof. `problem` is the
/// bar's, its goals are not looked at; `price_per_kg` one per candidate. Cost in money per kg of
/// oils, feel in steps, properties in points.
TracedTrade trace_trade(const BlendJob& job, const BlendResult& found, optimise::Problem problem,
                        std::span<const double> price_per_kg, const Trade& trade, int points,
                        const optimise::SearchOptions& options);

}  // namespace barwright::jobs
