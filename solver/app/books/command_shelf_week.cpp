#include "solver/app/books/command_shelf_week.hpp"

#include <algorithm>

#include "oils/books/draw.hpp"

namespace barwright::app {

Week week(const oils::Books& books, const core::Day& today) {
  Week out;
  out.today = today;
  const oils::Shelf& shelf = books.shelf();
  for (const std::size_t i : oils::use_up_order(shelf)) {
    const oils::Lot& lot = shelf.lots[i];
    const auto day = core::find_day(lot.best_before);
    if (!day || lot.grams <= 0) continue;
    const int days = core::days_between(today, *day);
    if (days < kUseUpDays) out.use_up.push_back({&lot, *day, days});
  }
  for (const auto& [oil, level] : books.ledger().reorder) {
    const double free = books.free_amount(oil);
    if (free < level) out.reorder.push_back({oil, free, level});
  }
  for (const auto& batch : books.ledger().batches) {
    BatchState state{&batch, core::release(batch.release_request(), today)};
    if (batch.bars_left() == 0) continue;
    switch (state.release.hold) {
      case core::Hold::on_hold:
        out.on_hold.push_back(std::move(state));
        break;
      case core::Hold::curing:
        out.curing.push_back(std::move(state));
        break;
      case core::Hold::fit_to_sell:
        out.bars_fit_to_sell += batch.bars_left();
        out.ready.push_back(std::move(state));
        break;
    }
  }
  const auto sooner = [](const BatchState& a, const BatchState& b) {
    return a.batch->ready < b.batch->ready;
  };
  std::stable_sort(out.on_hold.begin(), out.on_hold.end(), sooner);
  std::stable_sort(out.curing.begin(), out.curing.end(), sooner);
  std::stable_sort(out.ready.begin(), out.ready.end(), sooner);
  out.planned = books.ledger().reserved;
  out.shortages = books.shortages();
  return out;
}

}  // namespace barwright::app
