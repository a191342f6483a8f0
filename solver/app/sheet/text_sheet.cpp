#include "solver/app/sheet/text_sheet.hpp"

#include <fmt/format.h>

#include "solver/app/print/screen.hpp"

namespace barwright::app {
namespace {

void show(Screen& screen, const SheetTable& table) {
  screen.heading(table.title, table.beside);
  bool totals = false;
  for (const auto& line : table.lines) totals = totals || !line.total.empty();
  std::vector<std::vector<std::string>> rows;
  rows.push_back({"", "", "", totals ? "total" : "", table.column});
  for (const auto& line : table.lines) {
    rows.push_back({"[ ]", line.name, line.grams, line.total, line.beside});
  }
  screen.table("llrrl", rows);
}

}  // namespace

std::string text_sheet(const Sheet& sheet, bool colour) {
  Screen screen(colour);
  screen.title("BENCH SHEET: " + sheet.title, sheet.date);
  if (!sheet.changed.empty()) screen.danger(sheet.changed);
  for (const auto& fact : sheet.facts) screen.sentence(fact);
  screen.sentence(fmt::format("recipe {}; {}", sheet.mark, sheet.number));
  screen.heading("FIRST");
  for (const auto& text : sheet.dangers) screen.danger(text);
  std::string gear;
  for (const auto& text : sheet.gear) gear += "[ ] " + text + "  ";
  screen.sentence(gear);
  screen.heading("IF LYE TOUCHES YOU");
  for (const auto& text : sheet.first_aid) screen.sentence(text, "-");
  screen.heading("BY THE CLOCK", "times are estimates: the signs decide");
  std::size_t number = 0;
  for (const auto& step : sheet.clock) {
    screen.sentence(fmt::format("{}{}{}", step.part.empty() ? "" : step.part + ": ", step.what,
                                step.sign.empty() ? "." : ". Sign: " + step.sign + "."),
                    fmt::format("[ ] {:>2}. {}", ++number, step.when));
  }
  show(screen, sheet.list);
  for (const auto& table : sheet.weigh) show(screen, table);
  for (const auto& table : sheet.colours) show(screen, table);
  screen.heading("TEMPERATURES");
  std::vector<std::vector<std::string>> rows = {{"", "oils", "lye", "batter", ""}};
  rows.insert(rows.end(), sheet.temperatures.begin(), sheet.temperatures.end());
  screen.table("lrrrl", rows);
  for (const auto& block : sheet.after) {
    screen.heading(block.title);
    for (const auto& text : block.lines) screen.sentence(text);
  }
  screen.heading("BESIDE COMMON PRACTICE", "practice has no source; where ours differ, why");
  for (const auto& row : sheet.checks) {
    screen.sentence(fmt::format("{}. Practice: {}. Here: {}.{}", row[0], row[1], row[2],
                                row[3].empty() ? "" : " Why: " + row[3] + "."),
                    "-");
  }
  screen.heading("MIND");
  for (const auto& text : sheet.mind) screen.sentence(text, "-");
  return screen.text();
}

}  // namespace barwright::app
