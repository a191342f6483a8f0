#pragma once

#include <span>
#include <vector>

#include "solver/optimise/problem.hpp"
#include "solver/optimise/search.hpp"

namespace barwright::explain {

/// Oils that are not on the shelf, and what a pack of each would give and cost.
struct Offer {
  std::vector<bool> to_buy;        ///< one per oil of the problem; false: on hand
  std::vector<double> pack_price;  ///< per oil, any one currency; infinite or empty: not known
};

/// Oils which, bought, open the way.
struct Purchase {
  std::vector<int> oils;    ///< one, or two in ascending order
  double price = 0;         ///< of the packs, the offer's currency; infinite: not known
  optimise::Answer answer;  ///< the best blend with them, and what was proved about it
};

struct Purchases {
  std::vector<Purchase> found;  ///< cheapest packs first, then the better first goal
  bool complete = false;        ///< proved: `found` misses none that is cheaper than its last
  bool none = false;            ///< proved: no single oil (with pairs: no two oils) opens the way
};

struct PurchaseOptions {
  std::size_t most = 10;  ///< how many to hand back
  bool pairs = false;     ///< look for two oils that open it together, where neither does alone
};

/// Returns the single oils (or pairs) that open the way. `problem` holds every oil, on hand or not,
/// each with its own most (for one to buy: what its usual pack gives); on hand alone it has no
/// blend. Whole groups of oils are barred or let in at once and split only where a blend exists,
/// so an oil without use costs little. Errors: std::invalid_argument for an offer of another size.
Purchases find_purchases(const optimise::Problem& problem, const Offer& offer,
                         const optimise::SearchOptions& options = {},
                         const PurchaseOptions& how = {});

}  // namespace barwright::explain
