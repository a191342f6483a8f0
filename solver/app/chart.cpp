#include "solver/app/chart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace barwright::app {
namespace {

constexpr double kWidth = 520, kHeight = 320, kLeft = 64, kRight = 16, kTop = 34, kBottom = 52;

// Tick distance: 1, 2 or 5 times a power of ten, about five of them.
double tick(double span) {
  const double raw = span / 5;
  const double power = std::pow(10, std::floor(std::log10(raw)));
  for (const double times : {1.0, 2.0, 5.0}) {
    if (times * power >= raw) return times * power;
  }
  return 10 * power;
}

struct Axis {
  double low = 0, high = 1, step = 0.2;
};

Axis axis(double low, double high) {
  const double span = std::max(high - low, 1e-6 + 0.02 * std::abs(high));
  Axis out;
  out.step = tick(span);
  out.low = std::floor(low / out.step) * out.step;
  out.high = std::max(std::ceil(high / out.step - 1e-9) * out.step, out.low + out.step);
  return out;
}

std::string number(double value, double step) {
  const int decimals = std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 6);
  return fmt::format("{:.{}f}", std::abs(value) < step / 1000 ? 0.0 : value, decimals);
}

}  // namespace

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else if (c == '"') {
      out += "&quot;";
    } else {
      out += c;
    }
  }
  return out;
}

std::string svg(const Chart& chart) {
  std::string out = fmt::format(
      "<svg role=\"img\" aria-label=\"{0}\" viewBox=\"0 0 {1:.0f} {2:.0f}\" width=\"{1:.0f}\" "
      "height=\"{2:.0f}\" font-family=\"sans-serif\" font-size=\"12\" fill=\"#000\">\n"
      "<text x=\"{3:.0f}\" y=\"18\" font-weight=\"bold\">{0}</text>\n",
      escaped(chart.title), kWidth, kHeight, kLeft);
  if (chart.points.empty()) return out + "</svg>\n";
  double x0 = chart.points[0].first, x1 = x0, y0 = chart.points[0].second, y1 = y0;
  for (const auto& [x, y] : chart.points) {
    x0 = std::min(x0, x), x1 = std::max(x1, x), y0 = std::min(y0, y), y1 = std::max(y1, y);
  }
  const Axis across = axis(x0, x1), up = axis(std::min(0.0, y0), y1);
  const auto at_x = [&](double x) {
    return kLeft + (x - across.low) / (across.high - across.low) * (kWidth - kLeft - kRight);
  };
  const auto at_y = [&](double y) {
    return kHeight - kBottom - (y - up.low) / (up.high - up.low) * (kHeight - kTop - kBottom);
  };
  for (double x = across.low; x <= across.high + across.step / 2; x += across.step) {
    out += fmt::format(
        "<path d=\"M{0:.1f} {1:.1f}V{2:.1f}\" stroke=\"#ccc\"/>"
        "<text x=\"{0:.1f}\" y=\"{3:.1f}\" text-anchor=\"middle\">{4}</text>\n",
        at_x(x), kTop, kHeight - kBottom, kHeight - kBottom + 16, number(x, across.step));
  }
  for (double y = up.low; y <= up.high + up.step / 2; y += up.step) {
    out += fmt::format(
        "<path d=\"M{0:.1f} {1:.1f}H{2:.1f}\" stroke=\"#ccc\"/>"
        "<text x=\"{3:.1f}\" y=\"{4:.1f}\" text-anchor=\"end\">{5}</text>\n",
        kLeft, at_y(y), kWidth - kRight, kLeft - 6, at_y(y) + 4, number(y, up.step));
  }
  std::string line, marks;
  for (const auto& [x, y] : chart.points) {
    line += fmt::format("{}{:.1f} {:.1f}", line.empty() ? "M" : "L", at_x(x), at_y(y));
    marks += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"3.5\"/>\n", at_x(x), at_y(y));
  }
  out += fmt::format("<path d=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"1.5\"/>\n{}",
                     line, marks);
  out += fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"middle\">{}</text>\n",
                     (kLeft + kWidth - kRight) / 2, kHeight - 12, escaped(chart.x_words));
  out += fmt::format(
      "<text transform=\"translate(16 {:.1f}) rotate(-90)\" "
      "text-anchor=\"middle\">{}</text>\n</svg>\n",
      (kTop + kHeight - kBottom) / 2, escaped(chart.y_words));
  return out;
}

}  // namespace barwright::app
