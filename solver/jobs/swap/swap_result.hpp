#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/trade/label.hpp"
#include "solver/explain/curve.hpp"
#include "solver/jobs/swap/swap_job.hpp"
#include "targets/model/feel.hpp"

namespace barwright::jobs {

/// One oil before and after.
struct SwapLine {
  std::string oil;
  double before = 0;        ///< fraction of the oils
  double after = 0;         ///< as weighed
  double to_buy_grams = 0;  ///< for one batch, beyond what the shelf has
};

/// What a swap touches outside the pot.
struct SwapOutside {
  std::string list_before;  ///< ingredient list, as put into the pot, INCI names
  std::string list_after;
  std::vector<std::string> new_names;   ///< INCI names that come onto the list
  std::vector<std::string> gone_names;  ///< and those that leave it
  std::vector<std::string> new_tags;    ///< "soya", "tree nut": what no old oil carried
  std::vector<std::string> kept_claims;
};

/// One figure of the bench, before and after.
struct BenchLine {
  std::string what;
  std::string unit;
  double before = 0;
  double after = 0;
  std::string says;  ///< what it means, a sentence part; may be empty
};

/// One point of the price of feel.
struct FeelPrice {
  std::vector<int> steps;  ///< per candidate
  targets::FeelGap gap;    ///< at every term's own weight
  double saved_per_bar = 0;
  bool proved = false;
};

struct FeelPrices {
  std::vector<FeelPrice> points;  ///< nearest in feel first, cheapest last
  bool proved = false;
  std::string why_not;  ///< a sentence, when there are none
};

/// Both bars weighed small, side by side; or why they cannot be.
struct SideBySide {
  std::optional<core::Recipe> before;
  std::optional<core::Recipe> after;
  std::string refusal;
};

/// What is saved, currency units; positive: the new bar is cheaper.
struct Saving {
  double per_bar = 0;
  double per_batch = 0;
  double old_per_bar = 0;
  double new_per_bar = 0;
};

/// What the first batch of the new bar makes one buy, from a price list.
struct FirstOrder {
  struct Item {
    std::string oil;
    int count = 0;  ///< packs
    double pack_grams = 0;
    std::string size;  ///< of a pack, as the list writes it
    double money = 0;
    double left_grams = 0;  ///< of what is bought, after this batch
    double left_worth = 0;  ///< at what it cost
  };
  std::vector<Item> items;
  double delivery = 0;
  double left_worth = 0;
  double saved_per_bar = 0;  ///< in the first batch, delivery and what is left counted as lost
};

/// Everything an answer to a swap says beside the blend itself.
struct SwapResult {
  std::vector<SwapLine> lines;  ///< what leaves first, then what comes, then what stays
  SwapOutside outside;
  targets::FeelGap gap;
  std::optional<Saving> saving;           ///< every oil of both has a price
  std::optional<FirstOrder> first_order;  ///< where a price list says and something is to be bought
  std::vector<BenchLine> bench;
  std::optional<FeelPrices> prices;
  std::optional<SideBySide> side_by_side;
};

/// Returns what there is to say of a new blend. `found` has a blend.
SwapResult swap_result(const SwapJob& job, const BlendResult& found,
                       const optimise::SearchOptions& options);

/// Returns the price of feel in `points` steps, from the nearest to the cheapest, bench and claims
/// kept, feel and saving let go.
FeelPrices price_of_feel(const SwapJob& job, const formulate::Assumed& assumed, int points,
                         const optimise::SearchOptions& options);

}  // namespace barwright::jobs
