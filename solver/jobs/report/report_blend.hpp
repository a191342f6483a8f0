#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "solver/explain/alternatives.hpp"
#include "solver/explain/prices.hpp"
#include "solver/jobs/blend_job.hpp"
#include "solver/jobs/mannerly.hpp"
#include "solver/jobs/rail_reach.hpp"
#include "solver/jobs/report/property_lines.hpp"
#include "solver/jobs/report/why_not.hpp"
#include "solver/jobs/sureness.hpp"
#include "solver/jobs/try_lots.hpp"
#include "targets/model/lean.hpp"
#include "targets/model/model.hpp"

namespace barwright::jobs {

/// What the oils cost, in the shelf's currency.
struct OilCost {
  double per_kg = 0;
  double per_batch = 0;
  std::optional<double> per_bar;
  std::optional<double> yardstick_per_bar;
};

/// How much is worked out of an answer.
enum class Depth {
  draft,  ///< the blend and what it is like, while a wish is still being pulled
  reach,  ///< that, and how far each figure can be pulled
  full,   ///< weighed and explained
};
const char* word(Depth depth);

/// Everything an answer to a brief shows, text and JSON alike.
struct BlendReport {
  const BlendJob* job = nullptr;  ///< the one in `manners`
  BlendResult result;
  Mannerly manners;              ///< what the house kept; its result stands above
  formulate::KnownBar compared;  ///< the maker's bar, or the plain one
  std::vector<PropertyLine> properties;
  std::optional<OilCost> cost;
  std::vector<explain::Price> prices;  ///< what binds, dearest first
  std::optional<explain::Alternatives> alternatives;
  std::vector<std::string> cautions;
  Depth depth = Depth::full;
  std::vector<RailReach> rails;  ///< Depth::reach only
  std::string brief_hash;        ///< of the brief and all files it read; empty: not asked for
  std::optional<No> no;
  std::optional<SurenessPrice> sureness;  ///< when more than typical lots is asked for
  std::optional<LotTrial> trial;
  std::string trial_of;  ///< the oil whose lots were measured, and where; may be empty
};

/// Returns a line of what was asked, by the index that answers speak of it with.
inline const formulate::Asked& asked_of(const BlendReport& report, int wish) {
  return report.result.formulation.asked[static_cast<std::size_t>(wish)];
}

/// How an answer is worked out beside the search itself.
struct ReportOptions {
  optimise::SearchOptions search;
  Depth depth = Depth::full;
  int answers = 1;      ///< how many blends in all
  double apart = 0.10;  ///< share moved between any two of them
  bool teach = true;    ///< what binds and what it costs
  int try_lots = 0;     ///< lots to try the recipe with
  std::uint64_t seed = 1;
  std::optional<oils::MeasuredLots> measured;  ///< lots of one oil, tried in place of drawn ones
  std::string measured_file;
};

/// Returns the finished report: properties with their doubt, cost, what binds, or why not.
BlendReport report_blend(const BlendJob& job, const oils::Library& library,
                         const ReportOptions& options);

}  // namespace barwright::jobs
