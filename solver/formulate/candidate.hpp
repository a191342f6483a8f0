#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "oils/books/shelf.hpp"
#include "oils/records/oil.hpp"
#include "targets/model/composition.hpp"

namespace barwright::formulate {

class SureMemo;

/// One oil the search may use, as this maker has it.
struct Candidate {
  oils::Oil oil;                     ///< figures of the lot's certificate put in where there is one
  targets::Composition composition;  ///< from the typical figures of `oil`
  bool on_shelf = false;
  std::optional<double> stock_grams;   ///< what may be used; absent: as much as is wanted
  std::optional<double> price_per_kg;  ///< in the shelf's currency; absent: not known
  /// What the shelf has of it, for the lye: a lot's certificate covers what the lot holds.
  std::shared_ptr<const oils::Holding> holding{};

  /// Returns the oil as the lye is to be reckoned for so many grams of it.
  oils::Oil for_lye(double grams) const { return holding ? holding->figures_for(grams) : oil; }
};

/// An oil left out before the search, and why, for the maker: "no price known".
struct LeftOut {
  std::string oil;
  std::string why;
};

struct Candidates {
  std::vector<Candidate> oils;  ///< on the shelf first, then cheapest, then by name: how ties break
  std::vector<LeftOut> left_out;
  std::string currency;              ///< label of every price
  std::shared_ptr<SureMemo> memo{};  ///< saves time where lots count; may be null
};

}  // namespace barwright::formulate
