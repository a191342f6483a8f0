#pragma once

#include <optional>
#include <vector>

#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// What a brief comes to at one level of sureness.
struct AtLevel {
  targets::SureLevel level;
  bool asked = false;             ///< the brief as it stands, its wishes' own levels among it
  bool manners_gave_way = false;  ///< more than at the first level: costs do not compare with it
  optimise::Status status = optimise::Status::undecided;
  std::optional<double> cost_per_kg =
      {};  ///< of the oils; absent: no blend, or a price is not known
  std::optional<double> cost_per_bar = {};  ///< likewise; absent too where bars are not counted
  /// What typical lots make of the blend in the brief's first goal, that goal's unit; absent: no
  /// blend or no such goal.
  std::optional<double> goal = {};
  /// By how much the first goal might still be bettered, its own unit; 0 where it is proved.
  double open = 0;
};

/// The price of sureness.
struct SurenessPrice {
  std::vector<AtLevel> levels;  ///< rising sureness; the brief as asked in its place
  std::string goal;             ///< "most hardness", may be empty
  std::string goal_unit;
};

/// Returns whether any wish or goal of the brief asks for more than typical lots.
bool asks_for_sureness(const targets::Brief& brief);

/// Returns the job with every wish at this level; soluble shares stay typical.
BlendJob at_level(const BlendJob& job, const targets::SureLevel& level);

/// Returns the brief's answers with every wish at typical, then as asked, then at worst-case; with
/// `shares`, at `likely` of those shares, too; each as a brief that asks for it is answered.
/// `asked` is its own answer, found already, and `given` what its manners gave way by.
SurenessPrice price_of_sureness(const BlendJob& job, const BlendResult& asked, int given,
                                std::span<const double> shares,
                                const optimise::SearchOptions& options);

}  // namespace barwright::jobs
