#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "solver/explain/relax_wish.hpp"
#include "solver/formulate/candidate.hpp"
#include "solver/formulate/known_bar.hpp"
#include "solver/formulate/subject.hpp"
#include "targets/brief/wish.hpp"
#include "targets/model/lots.hpp"
#include "targets/model/model.hpp"

namespace barwright::formulate {

/// The lots of every candidate, worked out once for all wishes of a question.
struct LotBook {
  std::vector<targets::LotRange> ranges;
  std::vector<targets::LotSample> samples;
};
/// Returns the lots of the candidates. `drawn`: with samples, which `likely` needs.
LotBook lot_book(std::span<const Candidate> candidates, bool drawn);

/// What sure figures are reckoned from. References must outlive the call only.
struct SureGround {
  std::span<const Candidate> candidates;
  const LotBook& book;
  const targets::PropertyModel& model;
  const targets::BarSettings& settings;
  targets::SureLevel level;  ///< likely or worst-case
  SureMemo* memo = nullptr;  ///< may be null
};

enum class End { floor, ceiling };

/// Returns the subject as surely as the level asks, as a measure of one end: its value is what the
/// lots leave of the subject on the side that `end` keeps, in the subject's own unit. Worst-case:
/// every oil at its worst lot for it (exact for a floor; where castor's or the unsaponifiables'
/// help bends a ceiling, the better of two readings of the help, no less strict than exact).
/// Likely: the mean less a cone over the lots' spreads, the bent help at its least (or most).
/// Errors: InputError at `written` for titre and the soluble shares.
explain::Measure sure_measure(const targets::Subject& subject, const targets::Written& written,
                              End end, const SureGround& ground);

/// Whether sure_difference can compare this subject: every kind but ratios and costs.
bool compares_lots(const targets::Subject& subject);

/// Returns the same of the difference (bar - yardstick): of a figure what the lots leave of it, in
/// its own unit; of a property, in points, the lesser of
///  - what the lots leave of it. Both bars are made from the same lots of the oils they share: at
///    their worst lots for the difference (worst-case), or at mean lots less the cone over what the
///    two bars do not share (likely);
///  - what the doubt of the model leaves of it, and a noticeable step: both bars are read together
///    by PropertyModel::readings(), and the value is the mean of the least favourable ones, as many
///    as the level's share leaves (worst-case: a twentieth). A doubt that no hand can feel costs a
///    wish nothing; what it is met by in that step is a tie.
explain::Measure sure_difference(const targets::Subject& subject, const targets::Written& written,
                                 End end, const SureGround& ground, const KnownBar& yardstick);

/// Returns what a goal makes the most of: rises with what is sure of the property (`most`: above
/// the yardstick; otherwise: below it). On even scales points of difference; for keeping and
/// working time the sure distance on the score's inner scale, in halves.
optimise::Form sure_goal(const targets::Subject& subject, const targets::Written& written,
                         bool most, const SureGround& ground, const KnownBar& yardstick);

/// Share of the model's readings that a worst-case wish must keep: no range of them is published,
/// so there is no worst one.
inline constexpr double kReadingsKept = 0.95;

}  // namespace barwright::formulate
