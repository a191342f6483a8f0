#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/bench/release.hpp"
#include "oils/books/stock.hpp"

namespace barwright::app {

/// Lots whose best-before is nearer than this are to be used up, days (judgement: the oil must
/// outlast making and cure).
inline constexpr int kUseUpDays = 90;

struct UseUp {
  const oils::Lot* lot = nullptr;
  core::Day best_before{};
  int days = 0;  ///< from today; negative: past
};
struct Reorder {
  std::string oil;
  double free = 0;   ///< g usable and not planned for
  double level = 0;  ///< g
};
struct BatchState {
  const oils::BatchRecord* batch = nullptr;
  core::Release release;
};

/// The workshop at a glance.
struct Week {
  core::Day today{};
  std::vector<UseUp> use_up;
  std::vector<Reorder> reorder;
  std::vector<BatchState> on_hold, curing, ready;  ///< batches with bars left
  std::vector<oils::Reservation> planned;
  std::vector<oils::Shortage> shortages;
  int bars_fit_to_sell = 0;
};

/// Returns what the books say on this day. Points into `books`.
Week week(const oils::Books& books, const core::Day& today);

}  // namespace barwright::app
