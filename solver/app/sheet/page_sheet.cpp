#include "solver/app/sheet/page_sheet.hpp"

#include <fmt/format.h>

#include "solver/app/print/html.hpp"

namespace barwright::app {
namespace {

constexpr const char* kStyle = R"css(
@page { margin: 12mm; }
* { box-sizing: border-box; }
body { font: 15pt/1.3 sans-serif; color: #000; background: #fff; max-width: 190mm; margin: 0 auto; padding: 4mm; }
h1 { font-size: 26pt; margin: 0; display: flex; justify-content: space-between; gap: 1em; border-bottom: 3px solid #000; }
h2 { font-size: 18pt; margin: 0 0 1mm; break-after: avoid; }
section { margin: 6mm 0; break-inside: avoid; }
section.long { break-inside: auto; }
section.clock { break-before: page; }
p { margin: 1mm 0; }
ul { margin: 1mm 0; padding-left: 1.2em; }
.danger { border: 4px solid #000; padding: 3mm 4mm; font-weight: bold; }
.aid { border: 4px double #000; padding: 3mm 4mm; }
table { border-collapse: collapse; width: 100%; }
section > table { break-inside: avoid; }
section.long > table { break-inside: auto; }
tr { break-inside: avoid; }
thead { display: table-header-group; }
th, td { border-bottom: 1px solid #000; padding: 1.6mm 2mm; text-align: left; vertical-align: top; }
th { font-size: 11pt; border-bottom-width: 2px; }
td.g { text-align: right; white-space: nowrap; font-weight: bold; font-size: 18pt; font-variant-numeric: tabular-nums; }
td.t { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
td.c { white-space: nowrap; font-weight: bold; font-size: 17pt; }
td.b, th.b { width: 9mm; padding-left: 0; }
td.n { font-weight: bold; }
td.s, .small { font-size: 12pt; }
tr.warn td.s { font-weight: bold; text-decoration: underline; }
.box { display: inline-block; width: 7mm; height: 7mm; border: 2px solid #000; vertical-align: middle; }
.gear span { display: inline-block; margin: 1mm 5mm 1mm 0; font-weight: normal; }
@media print { body { padding: 0; max-width: none; font-size: 13pt; } td.g { font-size: 16pt; } td.s, .small { font-size: 11pt; } }
)css";

const std::string kBox = "<span class=\"box\"></span>";

std::string table_of(const SheetTable& table, bool may_break) {
  bool totals = false;
  for (const auto& line : table.lines) totals = totals || !line.total.empty();
  std::string out = fmt::format("<section{}><h2>{}</h2>", may_break ? " class=\"long\"" : "",
                                escaped(table.title));
  if (!table.beside.empty()) out += fmt::format("<p class=\"small\">{}</p>", escaped(table.beside));
  out += fmt::format(
      "<table><thead><tr><th class=\"b\"></th><th></th><th>weigh</th>{}<th>{}</th></tr>"
      "</thead><tbody>\n",
      totals ? "<th>running total</th>" : "", escaped(table.column));
  for (const auto& line : table.lines) {
    out += fmt::format(
        "<tr{}><td class=\"b\">{}</td><td class=\"n\">{}</td><td class=\"g\">{}</td>{}<td "
        "class=\"s\">{}</td></tr>\n",
        line.danger ? " class=\"warn\"" : "", kBox, escaped(line.name), escaped(line.grams),
        totals ? "<td class=\"t\">" + escaped(line.total) + "</td>" : "", escaped(line.beside));
  }
  return out + "</tbody></table></section>\n";
}

std::string list_of(const std::vector<std::string>& lines) {
  std::string out = "<ul>";
  for (const auto& line : lines) out += "<li>" + escaped(line) + "</li>";
  return out + "</ul>";
}

std::string rows_of(const std::vector<std::vector<std::string>>& rows) {
  std::string out;
  for (const auto& row : rows) {
    out += "<tr>";
    for (const auto& cell : row) out += "<td class=\"s\">" + escaped(cell) + "</td>";
    out += "</tr>\n";
  }
  return out;
}

// A table longer than this would not fit one page and may break between rows.
constexpr std::size_t kRowsOfAPage = 20;

}  // namespace

std::string page_sheet(const Sheet& sheet) {
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n<meta name=\"viewport\" "
      "content=\"width=device-width, initial-scale=1\">\n{}\n<title>Bench sheet: {}</title>\n"
      "<style>{}</style></head><body>\n<h1><span>{}</span><span>{}</span></h1>\n",
      kPageMark, escaped(sheet.title), kStyle, escaped(sheet.title), escaped(sheet.date));
  for (const auto& fact : sheet.facts) out += "<p>" + escaped(fact) + "</p>\n";
  out += "<section class=\"danger\"><h2>First</h2>" + list_of(sheet.dangers) + "<p class=\"gear\">";
  for (const auto& text : sheet.gear) out += "<span>" + kBox + " " + escaped(text) + "</span>";
  out += "</p></section>\n<section class=\"aid\"><h2>If lye touches you</h2>" +
         list_of(sheet.first_aid) + "</section>\n";
  out +=
      "<section class=\"long clock\"><h2>By the clock</h2><p class=\"small\">Times are estimates: "
      "the "
      "signs decide.</p><table><thead><tr><th class=\"b\"></th><th>when</th><th>what</th>"
      "<th>sign</th></tr></thead><tbody>\n";
  for (const auto& row : sheet.clock) {
    out += fmt::format(
        "<tr><td class=\"b\">{}</td><td class=\"c\">{}</td><td>{}{}</td><td "
        "class=\"s\">{}</td></tr>\n",
        kBox, escaped(row[0]), row[1].empty() ? "" : "<b>" + escaped(row[1]) + ":</b> ",
        escaped(row[2]), escaped(row[3]));
  }
  out += "</tbody></table></section>\n";
  out += table_of(sheet.list, sheet.list.lines.size() > kRowsOfAPage);
  for (const auto& table : sheet.weigh) out += table_of(table, table.lines.size() > kRowsOfAPage);
  for (const auto& table : sheet.colours) out += table_of(table, table.lines.size() > kRowsOfAPage);
  out +=
      "<section><h2>Temperatures</h2><table><thead><tr><th></th><th>oils</th><th>lye</th>"
      "<th>batter</th><th></th></tr></thead><tbody>" +
      rows_of(sheet.temperatures) + "</tbody></table></section>\n";
  for (const auto& block : sheet.after) {
    out += "<section><h2>" + escaped(block.title) + "</h2>";
    for (const auto& text : block.lines) out += "<p>" + escaped(text) + "</p>";
    out += "</section>\n";
  }
  out +=
      "<section><h2>Beside common practice</h2><table><thead><tr><th></th><th>practice, no source"
      "</th><th>here</th><th>why it differs</th></tr></thead><tbody>" +
      rows_of(sheet.checks) + "</tbody></table></section>\n";
  out += "<section class=\"long\"><h2>Mind</h2>" + list_of(sheet.mind) + "</section>\n";
  return out + "</body></html>\n";
}

}  // namespace barwright::app
