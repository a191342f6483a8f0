#pragma once

#include <optional>
#include <string>
#include <vector>

#include "oils/records/library.hpp"
#include "targets/brief/brief_yardstick.hpp"
#include "targets/brief/wish.hpp"
#include "targets/files/lye_file.hpp"
#include "targets/files/make_size.hpp"
#include "targets/files/oil_rules.hpp"
#include "targets/text/brief_date.hpp"

namespace barwright::targets {

/// How many bars by when.
struct SalesPlan {
  std::optional<Date> ready_for;
  int bars = 0;
  std::optional<int> bars_per_batch;
  Written written;
};

/// One bar of the range.
struct RangeBar {
  std::string what_for;
  double share_of_bars = 0;  ///< fraction; shares of the range add to 1
  std::optional<Yardstick> compared_with;
  std::vector<Wish> wishes;
  std::vector<Goal> goals;
  Written written;
};

/// What may be spent.
struct MoneyLimits {
  std::optional<Price> spend_now;  ///< at most, on oils to buy
  bool delivered = false;          ///< `spend_now` with delivery
  std::optional<Price> delivery_flat;
  std::optional<Price> delivery_free_over;
  bool delivery_by_value = false;  ///< how delivery is spread over the packs; else by weight
  bool whole_packs = true;         ///< packs are bought whole
  Written spend_written;
};

/// A look around before anything is bought.
struct ExploreBrief {
  std::string file, folder, name;
  OilsFrom oils_from;
  std::optional<OilsFrom> already_have;
  std::optional<FileName> shelf;
  std::optional<SalesPlan> plan;
  std::vector<RangeBar> range;
  std::vector<Wish> cost;        ///< on the oil cost, of every bar of the range
  std::optional<int> most_oils;  ///< different oils over the whole range
  Written most_oils_written;
  std::optional<int> most_new_oils;  ///< of them, not on the shelf
  Written most_new_oils_written;
  OilRules rules;
  MoneyLimits money;
  std::optional<MakeSize> make;  ///< what a bar weighs
  LyeWish lye;
  Scale scale;
  SureLevel sureness;
  std::vector<Written> curves;  ///< "cost against hardness", as written
};

/// Returns an explore brief. Errors: InputError at file, line and column.
ExploreBrief read_explore_brief(const std::string& path, const oils::Library& library);
ExploreBrief read_explore_brief_text(const std::string& text, const std::string& name,
                                     const std::string& folder, const oils::Library& library);

}  // namespace barwright::targets
