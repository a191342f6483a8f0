#include "solver/app/books/text_shelf.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/units/format.hpp"
#include "core/units/weight_text.hpp"
#include "oils/books/draw.hpp"
#include "oils/text/yaml.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string lot_cell(const std::string& lot) { return lot.empty() ? "no lot number" : lot; }

/// An oil by its name; of all else what it is too, and how pure.
std::string stock_cell(const oils::Lot& lot) {
  if (lot.kind == oils::StockKind::oil) return lot.oil;
  if (lot.strength) return fmt::format("{}, {}", lot.oil, core::percent_text(lot.strength->stated));
  return lot.kind == oils::StockKind::lye ? lot.oil
                                          : fmt::format("{} ({})", lot.oil, word(lot.kind));
}

std::string joined(const std::vector<std::string>& words, const char* between = ", ") {
  std::string out;
  for (const auto& word : words) out += (out.empty() ? "" : between) + word;
  return out;
}

std::string traced_words(bool pieces, double amount) {
  return amount_words(pieces ? oils::StockKind::packaging : oils::StockKind::oil, amount);
}

void show_use_up(Screen& screen, const Week& week) {
  screen.heading("USE UP", fmt::format("best before within {} days", kUseUpDays));
  if (week.use_up.empty()) screen.sentence("Nothing presses.");
  Rows rows;
  for (const auto& each : week.use_up) {
    rows.push_back({each.lot->oil, lot_cell(each.lot->lot),
                    amount_words(each.lot->kind, each.lot->grams), each.days < 0 ? "PAST" : "by",
                    core::text(each.best_before), days_words(each.days)});
  }
  screen.table("llrlll", rows);
}

void show_reorder(Screen& screen, const Week& week, const oils::Books& books) {
  screen.heading("REORDER");
  if (books.ledger().reorder.empty()) {
    screen.sentence(
        fmt::format("No level is set yet: 'barwright shelf reorder olive \"{}\"' sets one.",
                    core::shown_units() == core::Units::ounces ? "5 lb" : "2 kg"));
    return;
  }
  if (week.reorder.empty()) screen.sentence("Everything is above its level.");
  Rows rows;
  for (const auto& each : week.reorder) {
    rows.push_back({each.oil, amount_words(books.shelf(), each.oil, each.free), "free, level",
                    amount_words(books.shelf(), each.oil, each.level)});
  }
  screen.table("lrlr", rows);
}

void show_batches(Screen& screen, const Week& week) {
  if (!week.on_hold.empty()) {
    screen.heading("ON HOLD", "not to be sold");
    for (const auto& each : week.on_hold) {
      screen.sentence(fmt::format("{}, {}, cured {}: {}", each.batch->id,
                                  bars_words(each.batch->bars_left()), day_words(each.batch->ready),
                                  joined(each.release.reasons, " ")));
    }
  }
  if (!week.curing.empty()) {
    screen.heading("CURING");
    Rows rows;
    for (const auto& each : week.curing) {
      rows.push_back({each.batch->id, bars_words(each.batch->bars_left()),
                      "ready " + day_words(each.batch->ready),
                      days_words(core::days_between(week.today, each.batch->ready))});
    }
    screen.table("lrll", rows);
  }
  screen.heading("READY TO SELL", bars_words(week.bars_fit_to_sell));
  Rows rows;
  for (const auto& each : week.ready) {
    rows.push_back({each.batch->id, bars_words(each.batch->bars_left()),
                    each.batch->counted ? "counted in" : "not counted yet",
                    "since " + core::text(each.batch->ready)});
  }
  screen.table("lrll", rows);
}

void show_planned(Screen& screen, const oils::Books& books, const Week& week) {
  if (week.planned.empty()) return;
  screen.heading("PLANNED");
  for (const auto& plan : week.planned) {
    std::string oils;
    for (const auto& [oil, grams] : plan.grams) {
      oils += (oils.empty() ? "" : ", ") + oil + " " + amount_words(books.shelf(), oil, grams);
    }
    screen.sentence(fmt::format("{}: {}", plan.batch, oils));
  }
  for (const auto& shortage : week.shortages) {
    screen.sentence(shortage_words(shortage), "!");
  }
}

std::string next_step(const Week& week) {
  for (const auto& each : week.on_hold) {
    if (!each.release.untested.empty())
      return fmt::format("Test {} and record it: barwright release {} --test \"{}=pass, no zap\"",
                         each.batch->id, each.batch->id, each.release.untested.front());
  }
  if (!week.use_up.empty() && week.use_up.front().lot->kind == oils::StockKind::oil)
    return fmt::format("Plan a bar that uses the {} first ('then: use up {}' in a brief).",
                       week.use_up.front().lot->oil, week.use_up.front().lot->oil);
  if (!week.reorder.empty()) return fmt::format("Order {}.", week.reorder.front().oil);
  return "A lot came in: 'barwright shelf receive'. A batch was made: 'barwright make'.";
}

}  // namespace

std::string shortage_words(const oils::Shortage& shortage) {
  const double all = shortage.reserved + shortage.wanted;
  std::string who = joined(shortage.batches);
  return fmt::format(
      "{}: {} on the shelf, {} planned for{}: {} short.", shortage.oil,
      amount_words(shortage.kind, shortage.there), amount_words(shortage.kind, all),
      who.empty() ? "" : fmt::format(" ({}{})", who, shortage.wanted > 0 ? " and this one" : ""),
      amount_words(shortage.kind, all - shortage.there));
}

std::string text_week(const oils::Books& books, const Week& week) {
  Screen screen(colour_wanted());
  screen.title(books.shelf().name, day_words(week.today));
  show_use_up(screen, week);
  show_reorder(screen, week, books);
  show_batches(screen, week);
  show_planned(screen, books, week);
  screen.heading("NEXT");
  screen.sentence(next_step(week));
  return screen.text();
}

std::string text_stock(const oils::Books& books, const core::Day& today) {
  Screen screen(colour_wanted());
  const oils::Shelf& shelf = books.shelf();
  screen.title(shelf.name, "in the order to use up");
  Rows rows{{"", "lot", "there", "kept", "per kg", "best before", "supplier"}};
  double worth = 0;
  bool all_priced = true;
  for (const std::size_t i : oils::use_up_order(shelf)) {
    const oils::Lot& lot = shelf.lots[i];
    if (lot.price_per_kg)
      worth += *lot.price_per_kg * lot.grams / 1000;
    else
      all_priced = all_priced && lot.grams <= 0;
    const auto day = core::find_day(lot.best_before);
    const bool pieces = lot.kind == oils::StockKind::packaging;
    rows.push_back({stock_cell(lot), lot_cell(lot.lot), amount_words(lot.kind, lot.grams),
                    lot.keep_grams > 0 ? amount_words(lot.kind, lot.keep_grams) : "",
                    !lot.price_per_kg ? ""
                    : pieces          ? fmt::format("{:.2f} each", *lot.price_per_kg / 1000)
                                      : fmt::format("{:.2f}", *lot.price_per_kg),
                    lot.best_before + (day && *day < today ? " PAST" : ""), lot.supplier});
  }
  screen.table("llrrrll", rows);
  if (!shelf.currency.empty())
    screen.sentence(fmt::format("Worth {}{}.", money(worth, shelf.currency),
                                all_priced ? "" : ", lots without a price left out"));
  return screen.text();
}

std::string text_lot_traces(const std::vector<oils::LotTrace>& traces) {
  Screen screen(colour_wanted());
  for (const auto& trace : traces) {
    screen.title(fmt::format("lot {} of {}", trace.lot, trace.what));
    if (trace.receipt) {
      screen.sentence(
          fmt::format("Received {}, {}{}.", core::text(trace.receipt->date),
                      traced_words(trace.pieces, trace.receipt->grams),
                      trace.receipt->supplier.empty() ? "" : ", from " + trace.receipt->supplier));
    }
    if (trace.batches.empty()) screen.sentence("In no batch.");
    Rows rows;
    for (const auto& each : trace.batches) {
      rows.push_back({each.batch->id, joined(each.parts), traced_words(trace.pieces, each.grams),
                      fmt::format("{} sold,", each.batch->sold),
                      fmt::format("{} left", each.batch->bars_left())});
    }
    screen.table("llrrr", rows);
    if (!trace.batches.empty())
      screen.sentence(fmt::format("{} used in all; {} with it sold, {} here.",
                                  traced_words(trace.pieces, trace.grams_used),
                                  bars_words(trace.bars_sold), trace.bars_left));
    screen.blank();
  }
  return screen.text();
}

std::string text_batch_trace(const oils::BatchRecord& batch,
                             const std::vector<oils::TracedLot>& lots) {
  Screen screen(colour_wanted());
  screen.title(batch.id, "made " + day_words(batch.made));
  Rows rows{{"what", "lot", "weight", "part", "supplier"}};
  for (const auto& lot : lots) {
    rows.push_back({lot.what, lot_cell(lot.lot),
                    lot.pieces ? traced_words(true, lot.grams) : core::grams_text(lot.grams),
                    joined(lot.parts), lot.supplier});
  }
  screen.table("llrll", rows);
  screen.sentence(fmt::format("{} cut, {} sold, {} lost, {} left.", bars_words(batch.bars),
                              batch.sold, batch.lost, batch.bars_left()));
  for (const auto& note : batch.notes) screen.sentence(note, "-");
  return screen.text();
}

}  // namespace barwright::app
