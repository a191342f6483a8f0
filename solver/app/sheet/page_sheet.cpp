#include "solver/app/sheet/page_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/units/weight_text.hpp"
#include "solver/app/print/html.hpp"
#include "solver/app/sheet/page_ticks.hpp"

namespace barwright::app {
namespace {

// Paper: nothing smaller than 11 pt, and a common batch on two sides of A4 or Letter.
constexpr const char* kStyle = R"css(
@page { margin: 8mm 9mm; }
* { box-sizing: border-box; }
body { font: 15pt/1.3 Arial, Helvetica, "Liberation Sans", "DejaVu Sans Condensed", sans-serif; color: #000; background: #fff; max-width: 210mm; margin: 0 auto; padding: 4mm; }
h1 { font-size: 24pt; margin: 0; display: flex; justify-content: space-between; gap: 1em; border-bottom: 3px solid #000; }
h2 { font-size: 17pt; margin: 0 0 1mm; break-after: avoid; }
section { margin: 5mm 0; }
p { margin: 1mm 0; }
ul { margin: 1mm 0; padding-left: 1.2em; }
.danger { border: 4px solid #000; padding: 2mm 3mm; font-weight: bold; break-inside: avoid; }
.aid { border: 4px double #000; padding: 2mm 3mm; break-inside: avoid; }
table { border-collapse: collapse; width: 100%; }
tr { break-inside: avoid; }
thead { display: table-header-group; }
th, td { border-bottom: 1px solid #000; padding: 1mm 1.5mm; text-align: left; vertical-align: top; }
th { font-size: 11pt; border-bottom-width: 2px; }
tr.group { break-after: avoid; }
tr.group td { border-bottom-width: 2px; padding-top: 2.5mm; }
td.g { text-align: right; white-space: nowrap; font-weight: bold; font-size: 17pt; font-variant-numeric: tabular-nums; }
td.t { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
td.c { white-space: nowrap; font-weight: bold; font-size: 16pt; }
td.b, th.b { width: 8mm; padding-left: 0; }
td.n { font-weight: bold; }
td.s, .small { font-size: 12pt; }
tr.warn td.s { font-weight: bold; text-decoration: underline; }
td.w, th.w { border-left: 1px solid #000; min-width: 18mm; width: 18mm; }
td.w + td, th.w + th { border-left: 1px solid #000; }
.box { display: inline-block; width: 6mm; height: 6mm; border: 2px solid #000; vertical-align: middle; }
.gear span { display: inline-block; margin: 0 5mm 0 0; font-weight: normal; }
.record { break-inside: avoid; }
.record table { table-layout: fixed; }
.record td { border: 1px solid #000; height: 14mm; font-size: 11pt; }
.record td.notes { height: 17mm; }
.record .box { width: 4mm; height: 4mm; }
.after p { margin: 0.5mm 0; }
@media print { .after p { display: inline; } }
@media print {
  body { padding: 0; max-width: none; font-size: 11pt; line-height: 1.1; }
  h1 { font-size: 17pt; }
  h2 { font-size: 12.5pt; margin: 0; }
  section { margin: 1.1mm 0; }
  .record td { height: 12mm; }
  .record td.notes { height: 13mm; }
  p, ul { margin: 0.4mm 0; }
  .danger, .aid { padding: 1mm 2mm; border-width: 3px; }
  th, td { padding: 0.5mm 0.8mm; }
  td.w, th.w { min-width: 15mm; width: 15mm; }
  .clock td.c { width: 17mm; } .weigh td.n { width: 36mm; }
  tr.warn td.s { font-weight: normal; }
  tr.group td { padding-top: 1mm; }
  tr.line, tr.step { height: 6.4mm; }
  td.g { font-size: 13pt; } td.c { font-size: 12pt; }
  td.s, .small { font-size: 11pt; }
  .box { width: 4.5mm; height: 4.5mm; border-width: 1.5px; }
  td.b, th.b { width: 6mm; }
  .planning { display: none; }
  #changed.yes { display: block; border: 3px solid #000; padding: 1mm 2mm; font-weight: bold; }
}
)css";

const std::string kBox = "<span class=\"box\"></span>";

/// A box that ticks where a script runs; on paper a box like any other.
std::string ticking_box(const std::string& what) {
  return "<button type=\"button\" class=\"box\" aria-pressed=\"false\" aria-label=\"" +
         escaped(what) + "\"></button>";
}

/// A cell to write into: on a screen the script puts a field for it there.
std::string blank(const std::string& field, const std::string& key, const std::string& what) {
  if (key.empty()) return "<td class=\"w\"></td>";
  return fmt::format("<td class=\"w\" data-field=\"{}\" data-key=\"{}\" data-say=\"{}\"></td>",
                     field, escaped(key), escaped(what));
}

/// What 'make' takes a line by; empty where it is not typed in.
std::string key_of(const SheetTable& table, const SheetLine& line) {
  if (line.key == SheetLine::kNotTyped || table.into.empty()) return {};
  return table.into + "/" + (line.key.empty() ? line.name : line.key);
}

/// One table's lines, under a row of its own that names it. `pot` numbers the tables.
std::string group_of(const SheetTable& table, std::size_t pot) {
  const bool totals = std::any_of(table.lines.begin(), table.lines.end(),
                                  [](const SheetLine& line) { return !line.total.empty(); });
  std::string out = fmt::format(
      "<tbody><tr class=\"group\"><td colspan=\"7\"><b>{}</b>{}{}</td></tr>\n",
      escaped(table.title),
      table.beside.empty() ? "" : ". <span class=\"small\">" + escaped(table.beside) + "</span>",
      totals ? fmt::format("<b class=\"sum\" data-pot=\"{}\"></b>", pot) : "");
  for (std::size_t i = 0; i < table.lines.size(); ++i) {
    const auto& line = table.lines[i];
    const std::string key = key_of(table, line);
    out += fmt::format(
        "<tr class=\"line{}\" id=\"w{}-{}\" data-pot=\"{}\" data-weight=\"{}\"><td "
        "class=\"b\">{}</td><td class=\"n\">{}<span class=\"at\"></span></td><td "
        "class=\"g\">{}</td><td class=\"t\">{}</td>{}{}<td class=\"s\">{}</td></tr>\n",
        line.danger ? " warn" : "", pot, i, line.total.empty() ? -1 : static_cast<int>(pot),
        escaped(line.grams), ticking_box(line.name), escaped(line.name), escaped(line.grams),
        escaped(line.total), blank("weighed", key, line.name + ", weighed"),
        blank("lots", key, line.name + ", lot"), escaped(line.beside));
  }
  return out + "</tbody>\n";
}

std::string weigh_of(const Sheet& sheet) {
  std::string out =
      "<section class=\"weigh\"><table><thead><tr><th class=\"b\"></th><th>Weigh</th><th></th>"
      "<th>total</th><th class=\"w\">weighed</th><th class=\"w\">lot</th>"
      "<th>if forgotten, how, mind</th></tr></thead>\n";
  std::size_t pot = 0;
  for (const auto* tables : {&sheet.weigh, &sheet.colours}) {
    for (const auto& table : *tables) out += group_of(table, pot++);
  }
  return out + "</table></section>\n";
}

/// What is weighed once for several parts, or must be bought first; with one part it would say the
/// weigh lines twice.
std::string list_of_all(const Sheet& sheet) {
  const auto& list = sheet.list;
  const bool missing = std::any_of(list.lines.begin(), list.lines.end(),
                                   [](const SheetLine& line) { return line.danger; });
  if (sheet.parts.size() < 2 && !missing) return {};
  std::string out = fmt::format("<section><h2>{}</h2><table><tbody>\n", escaped(list.title));
  for (const auto& line : list.lines) {
    if (sheet.parts.size() < 2 && !line.danger) continue;
    out += fmt::format(
        "<tr{}><td class=\"b\">{}</td><td class=\"n\">{}</td><td class=\"g\">{}</td><td "
        "class=\"s\">{}</td></tr>\n",
        line.danger ? " class=\"warn\"" : "", kBox, escaped(line.name), escaped(line.grams),
        escaped(line.beside));
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

std::string clock_of(const Sheet& sheet) {
  std::string out =
      "<section class=\"clock\"><table><thead><tr><th class=\"b\"></th><th colspan=\"2\">By the "
      "clock: times "
      "are estimates, the signs decide</th><th class=\"w\">time</th><th class=\"w\">C</th>"
      "</tr></thead><tbody>\n";
  for (std::size_t i = 0; i < sheet.clock.size(); ++i) {
    const auto& step = sheet.clock[i];
    const bool named = !step.part.empty() && sheet.parts.size() > 1;
    out += fmt::format(
        "<tr class=\"step\" id=\"c{}\" data-minutes=\"{:.0f}\"{}><td class=\"b\">{}</td><td "
        "class=\"c\">{}. {}<span class=\"at\"></span></td><td "
        "class=\"what\">{}{}.{}</td>{}{}</tr>\n",
        i, step.minutes, step.lye ? " data-lye=\"1\"" : "", ticking_box(step.what), i + 1,
        escaped(step.when), named ? "<b>" + escaped(step.part) + ":</b> " : "", escaped(step.what),
        step.sign.empty() ? "" : " Sign: " + escaped(step.sign) + ".",
        blank("time", std::to_string(i + 1), fmt::format("step {}, time", i + 1)),
        blank("warm", std::to_string(i + 1), fmt::format("step {}, temperature", i + 1)));
  }
  return out + "</tbody></table></section>\n";
}

/// Boxes for what happened, one row for each part.
std::string record_of(const Sheet& sheet) {
  std::string out = "<section class=\"record\"><h2>What happened</h2><table><tbody>\n";
  const bool several = sheet.parts.size() > 1;
  const auto box = [&](const std::string& part, const char* name, const std::string& inside) {
    return fmt::format("<td data-box=\"{0}\" data-key=\"{1}/{0}\" data-say=\"{2}{0}\">{2}{3}</td>",
                       name, escaped(part), several ? escaped(part) + ": " : "", inside);
  };
  for (const auto& part : sheet.parts) {
    const bool first = &part == &sheet.parts.front();
    out += "<tr>" + box(part, "trace", "trace<br>time<br>C") +
           box(part, "poured", "poured<br>time<br>C") +
           box(part, "gel",
               "gel<br><span class=\"boxes\">" + kBox + " none " + kBox + " mid " + kBox +
                   " all</span>") +
           box(part, "unmould", "unmould<br>day<br>time") + box(part, "cut", "cut<br>day<br>time") +
           (first ? box(part, "each",
                        core::shown_units() == core::Units::ounces ? "bars<br>oz each"
                                                                   : "bars<br>g each")
                  : "<td></td>") +
           "</tr>\n";
  }
  return out +
         "<tr><td class=\"notes\" colspan=\"6\" data-box=\"notes\" "
         "data-say=\"notes\">notes</td></tr></tbody></table>" +
         "<p class=\"typing\">Into the books: the page saves what is typed and ticked on it as a "
         "file; or type it by hand, each line by its name, each step by its number: barwright "
         "make " +
         escaped(sheet.file) +
         " --weighed \"olive=1212 g\" --lot \"olive=A-7\" --step \"7=9:55, 60 C\" --happened "
         "\"trace=10:35, 35 C\" --note \"...\"</p></section>\n";
}

}  // namespace

std::string page_sheet(const Sheet& sheet) {
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n<meta name=\"viewport\" "
      "content=\"width=device-width, initial-scale=1\">\n{}\n<title>Bench sheet: {}</title>\n"
      "<style>{}{}</style></head><body data-sheet=\"{}\" data-batch=\"{}\" data-file=\"{}\" "
      "data-unit=\"{}\">\n<div "
      "id=\"changed\"{}>{}</div>\n<h1><span>{}</span><span>{}</span></h1>\n",
      kPageMark, escaped(sheet.title), kStyle, page_ticks_style(), escaped(sheet.mark),
      escaped(sheet.title), escaped(sheet.file),
      core::shown_units() == core::Units::ounces ? "oz" : "g",
      sheet.changed.empty() ? "" : " class=\"yes\"", escaped(sheet.changed), escaped(sheet.title),
      (sheet.number.starts_with("sheet ") ? escaped(sheet.number) + ", " : "") + "recipe " +
          escaped(sheet.mark) + ", " + escaped(sheet.date));
  out += "<p class=\"facts\">";
  for (const auto& fact : sheet.facts) out += escaped(fact) + ". ";
  if (!sheet.number.starts_with("sheet "))
    out += "<span class=\"planning\">" + escaped(sheet.number) + ".</span>";
  out += "</p>\n";
  out += "<section class=\"danger\"><h2>First</h2>" + list_of(sheet.dangers) + "<p class=\"gear\">";
  for (const auto& text : sheet.gear) out += "<span>" + kBox + " " + escaped(text) + "</span>";
  out += "</p></section>\n<section class=\"aid\"><h2>If lye touches you</h2>" +
         list_of(sheet.first_aid) + "</section>\n";
  if (!sheet.mind.empty()) {
    out += "<section class=\"mind\"><h2>Mind</h2>" + list_of(sheet.mind) + "</section>\n";
  }
  out += list_of_all(sheet) + weigh_of(sheet) + clock_of(sheet);
  out += "<section class=\"after\"><p><b>Temperatures.</b>";
  for (const auto& row : sheet.temperatures) {
    out += fmt::format(" {}oils {}, lye {}, batter {}: {}.",
                       sheet.parts.size() > 1 ? escaped(row[0]) + ": " : "", escaped(row[1]),
                       escaped(row[2]), escaped(row[3]), escaped(row[4]));
  }
  out += "</p>\n";
  for (const auto& block : sheet.after) {
    out += "<p><b>" + escaped(block.title) + ".</b>";
    for (const auto& text : block.lines) out += " " + escaped(text);
    out += "</p>\n";
  }
  out += "</section>\n" + record_of(sheet);
  out +=
      "<section class=\"planning\"><h2>Beside common practice</h2><table><thead><tr><th></th><th>"
      "practice, no source</th><th>here</th><th>why it differs</th></tr></thead><tbody>" +
      rows_of(sheet.checks) + "</tbody></table></section>\n";
  return out + "<script>" + page_ticks_script() + "</script></body></html>\n";
}

}  // namespace barwright::app
