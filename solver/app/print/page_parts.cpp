#include "solver/app/print/page_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "solver/app/print/chart.hpp"
#include "solver/app/print/html.hpp"

namespace barwright::app {
namespace {

// Black on white, nothing from elsewhere. On paper the narrower width (A4, 210 mm) and the shorter
// height (Letter, 279 mm) of the two hold; a chart stays with its table's head, rows are not torn.
constexpr const char* kHead =
    "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
    "<title>{0}</title>\n<style>\n"
    "body{{font:16px/1.45 sans-serif;max-width:48em;margin:1.5em auto;padding:0 1em;color:#000;"
    "background:#fff}}\n"
    "h1{{font-size:1.6em;margin:0 0 .1em}}h1+p{{margin-top:0}}\n"
    "h2{{font-size:1.25em;border-bottom:2px solid #000;margin:1.8em 0 .5em}}\n"
    "h3{{font-size:1em;margin:1.4em 0 .3em}}\n"
    "table{{border-collapse:collapse;margin:.4em 0}}\n"
    "td,th{{padding:.2em 1em .2em 0;text-align:left;border-bottom:1px solid #bbb;"
    "vertical-align:top;overflow-wrap:break-word}}\n"
    "th{{font-weight:bold;border-bottom:1px solid #000}}\n"
    ".n{{text-align:right;white-space:nowrap}}td span{{white-space:nowrap}}\n"
    ".sum td{{font-weight:bold;border-bottom:none}}\n"
    ".warn{{border-left:4px solid #000;padding-left:.6em}}\n"
    "svg{{max-width:100%;height:auto;display:block;margin:.6em 0}}\n"
    ".wide{{overflow-x:auto}}\n"
    "@media (max-width:40em){{body{{font-size:14px}}td,th{{padding-right:.5em}}"
    "th.n{{white-space:normal}}}}\n"
    "@page{{margin:15mm}}\n"
    "@media print{{body{{font-size:10.5pt;margin:0;padding:0;max-width:none}}\n"
    "h2,h3{{break-after:avoid}}svg,tr{{break-inside:avoid}}thead{{display:table-header-group}}\n"
    ".wide{{overflow:visible}}.bar{{break-before:page}}svg{{width:160mm}}h2{{margin-top:.6em}}}}\n"
    "</style></head><body>\n<h1>{0}</h1>\n";

// A blend breaks between its oils only, also not at a hyphen.
std::string kept(const std::string& text) {
  if (text.find(kNoBreak) == std::string::npos) return escaped(text);
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(", ", at), text.size());
    out += (at > 0 ? ", <span>" : "<span>") + escaped(text.substr(at, end - at)) + "</span>";
    at = end + 2;
  }
  return out;
}

}  // namespace

std::string page_head(const std::string& title) {
  return fmt::format(fmt::runtime(kHead), escaped(title));
}

std::string paragraph(const std::string& text) {
  if (text.starts_with("! ")) return "<p class=\"warn\">" + escaped(text.substr(2)) + "</p>\n";
  return fmt::format("<p>{}</p>\n", kept(text));
}

std::string table(const Rows& rows, bool sum, bool headed) {
  std::string out = "<div class=\"wide\"><table>";
  out += headed ? "<thead>" : "<tbody>";
  for (std::size_t r = 0; r < rows.rows.size(); ++r) {
    const char* tag = r == 0 && headed ? "th" : "td";
    out += sum && r + 1 == rows.rows.size() ? "<tr class=\"sum\">" : "<tr>";
    for (std::size_t c = 0; c < rows.rows[r].size(); ++c) {
      out += fmt::format("<{}{}>{}</{}>", tag, rows.align[c] == 'r' ? " class=\"n\"" : "",
                         kept(rows.rows[r][c]), tag);
    }
    out += r == 0 && headed ? "</tr></thead><tbody>\n" : "</tr>\n";
  }
  return out + "</tbody></table></div>\n";
}

void PageScreen::title(std::string_view left, std::string_view right) {
  text_ += page_head(std::string(left));
  if (!right.empty()) text_ += paragraph(std::string(right));
}

void PageScreen::heading(std::string_view text, std::string_view beside) {
  text_ += "<h2>" + escaped(std::string(text)) + "</h2>\n";
  if (!beside.empty()) text_ += paragraph(std::string(beside));
}

void PageScreen::sentence(std::string_view text, std::string_view mark) {
  const bool plain = mark.empty() || mark == "-";
  text_ += paragraph(plain ? std::string(text) : fmt::format("{} {}", mark, text));
}

void PageScreen::danger(std::string_view text) {
  text_ += "<p class=\"warn\"><b>DANGER</b> " + escaped(std::string(text)) + "</p>\n";
}

void PageScreen::blank() {}

void PageScreen::table(std::string_view align, const std::vector<std::vector<std::string>>& rows) {
  if (rows.empty()) return;
  const bool headed = !rows[0].empty() && rows[0][0].empty();
  text_ += app::table({std::string(align), rows}, false, headed);
}

void PageScreen::chart(const Chart& chart) { text_ += svg(chart); }

std::string PageScreen::page() const { return text_ + "</body></html>\n"; }

}  // namespace barwright::app
