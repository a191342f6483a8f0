#pragma once

#include <memory>
#include <vector>

#include "solver/jobs/buying/buying_joint.hpp"
#include "solver/jobs/buying/buying_plan.hpp"
#include "solver/jobs/buying/free_delivery.hpp"

namespace barwright::jobs {

/// A kind of pack on offer.
struct PackKind {
  int oil = -1, pack = -1;
  double grams = 0, price = 0;
};

/// A part of all purchases: packs bought already, kinds of which no more is bought, oils that are
/// counted in or left out.
struct BuyingPart {
  enum class Oil : signed char { free, in, out };
  double bound = 0;  ///< no purchase in it costs less, delivered
  int depth = 0;
  long order = 0;
  double goods = 0;
  std::vector<int> counts;
  std::vector<char> closed;
  std::vector<Oil> oils;
  std::vector<double> used, bought;  ///< kg per oil, in the relaxation
  bool tried = false;  ///< what is at hand was put to the test already, and did not make the range
};

/// Parts of all purchases for one question: what they hold, and bounds on what they cost.
class BuyingParts {
 public:
  BuyingParts(const BuyingQuestion& question, optimise::Allowance* allowance);

  const std::vector<PackKind>& kinds() const { return kinds_; }
  const FreeDelivery& free_delivery() const { return free_; }
  std::size_t oils() const { return question_.stock_grams.size(); }
  bool fresh(std::size_t oil) const { return question_.stock_grams[oil] <= 0; }
  /// Returns the most of an oil that the whole range could take, g: proved, not the least such.
  double most_grams(std::size_t oil) const { return most_grams_[oil]; }

  /// Returns the part that holds every purchase.
  BuyingPart all() const;
  /// Buys packs of one kind.
  void buy(BuyingPart& part, std::size_t kind, int packs) const;
  /// Bounds a part by packs cut to measure, and fills in what the relaxation uses. Returns false
  /// when no purchase in it costs less than `cap`.
  bool bound(BuyingPart& part, double cap) const;
  /// Returns g per oil of stock and packs.
  std::vector<double> there(const BuyingPart& part) const;
  /// Returns the oils that may be used and are there.
  std::vector<int> at_hand(const BuyingPart& part) const;
  /// Returns the oils the relaxation uses.
  std::vector<int> used(const BuyingPart& part) const;
  /// Returns whether so many different oils are allowed.
  bool counts_kept(const std::vector<int>& set) const;
  /// Returns the kind of pack that brings an oil at the least price per kg used; kinds().size():
  /// none is open.
  std::size_t cheapest_open(const BuyingPart& part, std::size_t oil) const;
  /// Returns what whole packs of an oil would cost beyond what the relaxation counts.
  double gap(const BuyingPart& part, std::size_t oil, std::size_t kind) const;

 private:
  bool count(BuyingPart& part) const;
  double per_gram(std::size_t kind) const;
  void limit_counts(Joint& joint, const std::vector<JointColumn>& columns,
                    const BuyingPart& part) const;

  const BuyingQuestion& question_;
  optimise::Allowance* allowance_;
  std::vector<double> most_grams_;
  std::vector<PackKind> kinds_;
  FreeDelivery free_;
  double hint_most_ = 0;
};

/// Less than this of an oil in the relaxation is rounding, kg.
inline constexpr double kUsedKilograms = 1e-6;

}  // namespace barwright::jobs
