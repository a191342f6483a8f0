#pragma once

#include <array>
#include <memory>
#include <random>
#include <span>
#include <vector>

#include "core/units/figure.hpp"
#include "oils/records/oil.hpp"
#include "targets/model/composition.hpp"
#include "targets/model/property_form.hpp"

namespace barwright::targets {

/// What the lots of one oil can be: every profile within the published range of each acid whose
/// acids sum to the whole. A certificate has put its own figures there for its own lot.
struct LotRange {
  Composition typical;
  core::AcidProfile low{};  ///< mass fractions; low <= typical <= high
  core::AcidProfile high{};
  double unsaponifiable_low = 0;  ///< mass fraction of the fat
  double unsaponifiable_high = 0;
  bool operator==(const LotRange&) const = default;
};
LotRange lot_range(const oils::Oil& oil);

/// Returns the lot in the range with the least weights . components (or, for `most`, the most): a
/// fractional knapsack, so exact. Every acid starts at its low; what the sum still lacks is filled
/// from the acid of the best weight on.
Composition extreme_lot(const LotRange& range, const Weights& weights, bool most);

/// Returns a lot drawn from the range: each figure by a triangular law from low to high with its
/// peak at the typical figure (judgement: what is printed as typical is met most often, nothing
/// outside the range is met), then the acids' sum made whole by moving each in proportion to the
/// room it has left.
Composition draw_lot(const LotRange& range, std::mt19937_64& bits);

/// Returns a figure drawn by the same triangular law, in the span's unit.
double draw_figure(const core::Span& span, std::mt19937_64& bits);

/// What a score or a figure does over the lots of one oil, in its own unit.
struct LotSpread {
  double mean = 0;
  /// The spread per unit of `deviations(share)`: the standard deviation, or more where the law's
  /// own tail on the bad side is longer than a normal one, so that one oil alone keeps the share,
  /// too.
  double size = 0;
};

/// Returns how many standard deviations below the mean a normal figure lies in all but 1 - share of
/// the cases, e.g. 1.645 for 0.95. share in [0.5, 1).
double deviations(double share);

/// Drawn lots of one oil, kept to be looked at through many weights.
class LotSample {
 public:
  /// Draws kDraws lots; the same oil gives the same lots whatever stands beside it. What was drawn
  /// before is kept: a search asks for the same oils again at every superfat.
  LotSample(const oils::Oil& oil, const LotRange& range);
  /// Returns what weights . components does over these lots; `most`: the bad side is above.
  LotSpread spread(const Weights& weights, double share, bool most) const;
  /// Returns the mean lot.
  const Composition& mean() const { return drawn_->mean; }

  static constexpr std::size_t kDraws = 1000;

 private:
  struct Drawn {
    std::vector<std::size_t> varied;  ///< components that vary
    std::vector<double> values;       ///< kDraws rows of the varied components
    Composition mean;
  };
  static Drawn drawn(const oils::Oil& oil, const LotRange& range);
  static std::shared_ptr<const Drawn> kept(const oils::Oil& oil, const LotRange& range);

  Composition typical_;
  std::shared_ptr<const Drawn> drawn_;
};

/// Returns what a figure printed as a span does over lots, by the same law.
LotSpread figure_spread(const core::Span& span, double share, bool most);

}  // namespace barwright::targets
