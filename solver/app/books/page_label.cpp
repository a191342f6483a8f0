#include "solver/app/books/page_label.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/units/format.hpp"
#include "core/units/quantity.hpp"
#include "solver/app/print/html.hpp"

namespace barwright::app {
namespace {

constexpr double kMmPerPoint = 25.4 / 72;
constexpr double kLetterWide = 0.56;  // of the letter's size: plain sans-serif, judgement, wide
constexpr double kLineHigh = 1.25;    // as the page's style has it
constexpr double kNameSize = 1.5;
constexpr double kMargin = 2;  // mm inside the edge
constexpr double kLeastSide = 15, kMostSide = 290;

/// Lines a text takes, its words never parted but where one alone is wider than the label.
int lines_of(const std::string& text, double width, double points) {
  const auto room = static_cast<std::size_t>(width / (points * kMmPerPoint * kLetterWide));
  if (room < 4) return 1000;
  int lines = 1;
  std::size_t used = 0, at = 0;
  while (at < text.size()) {
    std::size_t end = text.find(' ', at);
    if (end == std::string::npos) end = text.size();
    const std::size_t length = end - at;
    if (used > 0 && used + 1 + length > room) {
      ++lines;
      used = 0;
    }
    used += (used > 0 ? 1 : 0) + length;
    while (used > room) {
      ++lines;
      used -= room;
    }
    at = end + 1;
  }
  return lines;
}

std::string mm(double value) { return fmt::format("{:g}mm", value); }

}  // namespace

LabelSize label_size(const std::string& text) {
  constexpr const char* kRemedy = "Write its width and height, such as '70 mm x 40 mm'.";
  const std::size_t x = text.find('x');
  if (x == std::string::npos)
    throw core::UnitError("'" + text + "' is no size of a label", kRemedy);
  core::Quantity width = core::parse_quantity(text.substr(0, x));
  const core::Quantity height = core::parse_quantity(text.substr(x + 1));
  if (width.unit.empty()) width.unit = height.unit;
  const LabelSize out{core::to_millimetres(width), core::to_millimetres(height)};
  for (const double side : {out.width, out.height}) {
    if (!(side >= kLeastSide && side <= kMostSide))
      throw core::UnitError(
          fmt::format("a label of {:g} x {:g} mm cannot be printed here", out.width, out.height),
          fmt::format("Each side is {:g} to {:g} mm.", kLeastSide, kMostSide));
  }
  return out;
}

bool fit(PrintedLabel& label) {
  const double width = label.size.width - 2 * kMargin;
  const double height = label.size.height - 2 * kMargin;
  for (int halves = 20; halves >= 8; --halves) {
    const double points = halves / 2.0;
    const int named = lines_of(label.name, width, points * kNameSize);
    int plain = lines_of(label.net_weight, width, points);
    for (const auto& words : label.words) plain += lines_of(words, width, points);
    const int listed = lines_of("Ingredients: " + label.ingredients, width, points);
    const double high = points * kMmPerPoint * kLineHigh * (kNameSize * named + plain + listed);
    if (high > height) continue;
    label.points = points;
    label.lines = listed;
    return true;
  }
  return false;
}

std::string page_label(const PrintedLabel& label) {
  std::string out = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n";
  out += "<meta name=\"generator\" content=\"barwright label\">\n";
  out += fmt::format("<title>{}</title>\n<style>\n", escaped(label.name));
  out += "@page { margin: 12mm; }\n* { box-sizing: border-box; }\n";
  out +=
      "body { margin: 0; font-family: Arial, Helvetica, sans-serif; color: #000; "
      "background: #fff; }\n";
  out += fmt::format(
      ".label {{ width: {}; height: {}; padding: {}; overflow: hidden; font-size: {:g}pt; "
      "line-height: {:g}; outline: 0.2mm solid #000; outline-offset: -0.2mm; }}\n",
      mm(label.size.width), mm(label.size.height), mm(kMargin), label.points, kLineHigh);
  out += fmt::format(
      ".label p {{ margin: 0; }}\n.label .name {{ font-size: {:g}em; font-weight: "
      "bold; }}\n",
      kNameSize);
  out +=
      ".check { width: 50mm; margin: 12mm 0 2mm; border: solid #000; border-width: 0 0.3mm "
      "0.3mm; height: 4mm; }\n.say { font-size: 11pt; margin: 0; max-width: 170mm; }\n"
      "</style></head><body>\n<div class=\"label\">\n";
  out += fmt::format("<p class=\"name\">{}</p>\n", escaped(label.name));
  for (const auto& words : label.words) out += fmt::format("<p>{}</p>\n", escaped(words));
  out += fmt::format("<p>Ingredients: {}.</p>\n", escaped(label.ingredients));
  if (!label.net_weight.empty()) out += fmt::format("<p>{}</p>\n", escaped(label.net_weight));
  out += "</div>\n<div class=\"check\"></div>\n";
  out += fmt::format(
      "<p class=\"say\">This line is 50 mm long: measure it on paper. If it is not, print at 100 % "
      "('actual size', no fitting to the page); the label is {:g} x {:g} mm.</p>\n"
      "</body></html>\n",
      label.size.width, label.size.height);
  return out;
}

}  // namespace barwright::app
