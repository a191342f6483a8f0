#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "oils/books/price_list.hpp"
#include "oils/books/shelf.hpp"
#include "oils/records/library.hpp"
#include "solver/jobs/blend_job.hpp"
#include "targets/brief/swap_brief.hpp"

namespace barwright::jobs {

/// A swap, read and resolved: the old bar, and the question whose answer is the new one.
struct SwapJob {
  targets::SwapBrief brief;
  BlendJob blend;  ///< yardstick: the old bar; `more` keeps bench and feel
  core::Recipe old_recipe;
  std::vector<double> old_shares;  ///< one per candidate, fractions
  std::vector<double> emphasis;    ///< one per term of the feel
  int bars = 0;
  double bar_grams = 0;                ///< > 0: bars of this weight were assumed, g as cut
  std::map<std::string, double> have;  ///< g on the shelf per oil
  oils::PriceList prices;              ///< packs on offer; may be empty
  double delivery = 0;                 ///< what an order costs to bring, currency units
};

/// What else a swap may use beside its brief.
struct SwapSources {
  std::optional<oils::Shelf> shelf;
  std::vector<oils::Shelf> others;  ///< shelves whose oils may take the place too
  oils::PriceList
      prices;           ///< of oils to buy; where an oil stands on it, the shelf's price gives way
  double delivery = 0;  ///< what an order costs to bring, currency units
  targets::PropertyModel model = targets::PropertyModel::embedded();
};

/// Returns the job of a swap brief. A swap changes a recipe for good, so what the shelf holds today
/// is no limit; what the next batch lacks is for the answer to say. Errors: InputError, Refusal
/// (the old recipe cannot be made as it stands).
SwapJob swap_job(targets::SwapBrief brief, const oils::Library& library,
                 const SwapSources& sources);

/// Returns the swap brief that a recipe and a command line pose: these oils out, or down to
/// `keep_at_most` (fraction).
targets::SwapBrief swap_of_recipe(const targets::RecipeFile& recipe,
                                  const std::vector<std::string>& out, double keep_at_most,
                                  const targets::OilsFrom& using_oils);

/// Returns the question without what the maker wants of feel and saving: the nearest there is.
BlendJob nearest_anyway(const SwapJob& job);

/// Returns what is asked of core::weigh for shares of the job's candidates, sized to `oil_grams`.
core::RecipeRequest swap_request(const SwapJob& job, std::span<const double> shares,
                                 double oil_grams);

/// Bars are taken to weigh this much, g as cut, when a recipe does not say how many it gives.
inline constexpr double kAssumedBarGrams = 100;

}  // namespace barwright::jobs
