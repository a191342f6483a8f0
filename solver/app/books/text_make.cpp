#include "solver/app/books/text_make.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/units/format.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/books/text_shelf.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string asked_cell(double grams, double asked) {
  return std::abs(grams - asked) < 0.005 ? "" : fmt::format("(sheet: {})", core::grams_text(asked));
}

}  // namespace

std::string text_made(const MakeReport& report, const oils::Shelf& before) {
  const oils::Making& making = report.making;
  Screen screen(colour_wanted());
  screen.title("Recorded: " + making.id, day_words(making.date));
  if (!report.changed.empty()) screen.danger(report.changed);
  for (const auto& [part, why] : making.lye_heavy)
    screen.danger(fmt::format("The {}: {}", part, why));
  for (const auto& [part, why] : making.held) screen.danger("On hold: " + why);
  screen.heading("FROM THE SHELF");
  Rows rows;
  for (const auto& draw : report.drawn) {
    if (before.lots[draw.lot].kind == oils::StockKind::packaging) continue;
    const oils::Wanted& wanted = making.wanted[draw.wanted];
    const oils::Lot& lot = before.lots[draw.lot];
    rows.push_back({wanted.part, lot.oil, lot.lot.empty() ? "no lot number" : "lot " + lot.lot,
                    core::grams_text(oils::journal_grams(draw.grams)),
                    asked_cell(wanted.grams, wanted.asked)});
  }
  screen.table("lllrl", rows);
  rows.clear();
  for (const auto& draw : report.drawn) {
    const oils::Lot& lot = before.lots[draw.lot];
    if (lot.kind == oils::StockKind::packaging)
      rows.push_back({lot.oil, lot.lot.empty() ? "no lot number" : "lot " + lot.lot,
                      amount_words(lot.kind, draw.grams)});
  }
  if (!rows.empty()) screen.heading("PACKAGING", "taken for these bars");
  screen.table("llr", rows);
  if (!making.others.empty()) screen.heading("BESIDE IT");
  rows.clear();
  for (const auto& use : making.others) {
    rows.push_back({use.part, use.what, use.lot.empty() ? "" : "lot " + use.lot,
                    core::grams_text(oils::journal_grams(use.grams)),
                    use.asked ? asked_cell(use.grams, *use.asked) : ""});
  }
  screen.table("lllrl", rows);
  if (!making.notes.empty()) screen.heading("WRITTEN DOWN");
  for (const auto& note : making.notes) screen.sentence(note, "-");
  screen.heading("ON HOLD", "until a test of every part is recorded");
  screen.sentence(
      fmt::format("{} cut; cured {}; a bar then weighs about {} (from its water; "
                  "weigh some before you label).",
                  bars_words(making.bars), day_words(making.ready), mass_words(report.bar_grams)));
  for (const auto& remark : report.remarks) screen.sentence(remark, "!");
  for (const auto& shortage : report.shortages) screen.sentence(shortage_words(shortage), "!");
  screen.heading("NEXT");
  screen.sentence(
      fmt::format("Test each part when it is cut, then record it: barwright release {} "
                  "--test \"{}=pass, no zap\"",
                  making.id, making.parts.front().part));
  return screen.text();
}

std::string text_planned(const std::string& name, const std::vector<oils::Wanted>& wanted,
                         const std::vector<oils::Shortage>& shortages, const oils::Shelf& shelf,
                         const std::vector<std::string>& remarks) {
  Screen screen(colour_wanted());
  screen.title("Planned: " + name);
  Rows rows;
  for (const auto& each : wanted) {
    const auto kind = shelf.kind_of(each.oil).value_or(oils::StockKind::oil);
    rows.push_back({each.part, each.oil,
                    kind == oils::StockKind::packaging ? amount_words(kind, each.grams)
                                                       : core::grams_text(each.grams)});
  }
  screen.table("llr", rows);
  for (const auto& remark : remarks) screen.sentence(remark, "!");
  if (shortages.empty()) screen.sentence("The shelf holds enough for this and all other plans.");
  for (const auto& shortage : shortages) screen.sentence(shortage_words(shortage), "!");
  return screen.text();
}

}  // namespace barwright::app
