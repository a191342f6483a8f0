#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "solver/explain/relax_wish.hpp"
#include "solver/formulate/candidate.hpp"
#include "solver/formulate/known_bar.hpp"
#include "targets/brief/wish.hpp"
#include "targets/model/model.hpp"

namespace barwright::formulate {

/// What turns money per kg of oils into the price a wish speaks of.
struct CostBasis {
  double kg_oils_per_batch = 1;
  int bars = 0;  ///< per batch; 0: not known
};

/// Returns how a subject is measured over the shares of the candidates: its value (`at`, in the
/// subject's own unit) and its form at any level. low and high are left open. Errors: InputError
/// at `written` for what cannot be put exactly (titre) or has no figures (a cost without prices).
explain::Measure measure(const targets::Subject& subject, const targets::Written& written,
                         std::span<const Candidate> candidates, const targets::PropertyModel& model,
                         const targets::BarSettings& settings, const CostBasis& cost);

/// Returns the subject's value for a known bar, in the subject's own unit. Errors: as above.
double value_of(const targets::Subject& subject, const targets::Written& written,
                const KnownBar& bar, const targets::PropertyModel& model, const CostBasis& cost);

/// Returns the least difference worth noticing in this subject, in its own unit.
double noticeable(const targets::Subject& subject);

/// Returns the unit a subject's figures stand in, e.g. "points", "C", "mg KOH/g"; may be empty.
std::string unit(const targets::Subject& subject);

/// Returns the shares' mix of the candidates' compositions.
targets::Composition mixed(std::span<const Candidate> candidates, std::span<const double> shares);

}  // namespace barwright::formulate
