#include "solver/app/print/chart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solver/app/print/html.hpp"

namespace barwright::app {
namespace {

constexpr double kWidth = 640, kHeight = 330, kLeft = 62, kRight = 16, kTop = 28, kBottom = 50;
constexpr double kLegend = 16;   // baseline of the legend
constexpr double kLetter = 6.6;  // an average letter of 12 px sans-serif is narrower than this
// An axis starts at nothing where the least is below this part of the most.
constexpr double kNearZero = 0.4;
constexpr double kEdge = 0.01;  // of the span

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
  // A little room beyond the last point: a mark on the edge would be cut in two.
  const double room = kEdge * span;
  out.low = std::floor((low == 0 ? 0 : low - room) / out.step) * out.step;
  out.high = std::max(std::ceil((high + room) / out.step) * out.step, out.low + out.step);
  return out;
}

std::string number(double value, double step) {
  const int decimals = std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 6);
  return fmt::format("{:.{}f}", std::abs(value) < step / 1000 ? 0.0 : value, decimals);
}

std::string shape(ChartMark::Shape which, double x, double y) {
  if (which == ChartMark::Shape::square) {
    return fmt::format(
        "<path d=\"M{:.1f} {:.1f}h9v9h-9z\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"1.5\"/>",
        x - 4.5, y - 4.5);
  }
  return fmt::format(
      "<path d=\"M{:.1f} {:.1f}l5.5 10h-11z\" fill=\"#fff\" stroke=\"#000\" "
      "stroke-width=\"1.5\"/>",
      x, y - 6);
}

// Lines are told apart by dashes and shapes, never by colour.
constexpr const char* kDashes[] = {"", "7 4", "2 3", "9 3 2 3"};
std::string line_shape(std::size_t which, double x, double y) {
  switch (which % 4) {
    case 0:
      return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"3.5\"/>", x, y);
    case 1:
      return shape(ChartMark::Shape::square, x, y);
    case 2:
      return shape(ChartMark::Shape::triangle, x, y);
    default:
      return fmt::format("<path d=\"M{:.1f} {:.1f}l5 5l-5 5l-5 -5z\"/>", x, y - 5);
  }
}
std::string dashed(const std::string& path, std::size_t which) {
  const std::string dash = kDashes[which % 4];
  return fmt::format("<path d=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"1.5\"{}/>\n",
                     path, dash.empty() ? "" : " stroke-dasharray=\"" + dash + "\"");
}

/// Where each entry of a legend stands: rows from the bottom one (0) upwards where they are many.
class Legend {
 public:
  explicit Legend(const Chart& chart) {
    const auto add = [&](const std::string& words, double sample) {
      const double width = sample + kLetter * static_cast<double>(words.size());
      if (x_ > kLeft && x_ + width > kWidth - kRight) {
        x_ = kLeft;
        row_ += 1;
      }
      at_.emplace_back(x_, row_);
      x_ += width + 24;
    };
    for (const auto& mark : chart.marks) add(mark.words, 15);
    for (const auto& line : chart.lines) add(line.words, 40);
  }
  /// Returns how much higher than one row the legend is.
  double extra() const { return kLegendRow * row_; }
  double x(std::size_t entry) const { return at_[entry].first; }
  double y(std::size_t entry) const { return kLegend - kLegendRow * (row_ - at_[entry].second); }

 private:
  static constexpr double kLegendRow = 18;
  std::vector<std::pair<double, double>> at_;
  double x_ = kLeft, row_ = 0;
};

/// Finds room for the numbers of the points.
class Labels {
 public:
  void keep_clear(double x, double y) { taken_.push_back({x - 5, y - 5, x + 5, y + 5}); }
  void keep_clear_line(double xa, double ya, double xb, double yb) {
    const int pieces = 1 + static_cast<int>(std::hypot(xb - xa, yb - ya) / 4);
    for (int p = 0; p <= pieces; ++p) {
      const double t = static_cast<double>(p) / pieces;
      const double x = xa + t * (xb - xa), y = ya + t * (yb - ya);
      taken_.push_back({x - 1, y - 1, x + 1, y + 1});
    }
  }

  /// Returns a number near its point, where nothing else stands; farther off with a thin line.
  std::string place(double x, double y, const std::string& text) {
    const double half = 4.0 * static_cast<double>(text.size());
    for (const double away : {13.0, 24.0, 36.0}) {
      for (const auto& [dx, dy] : kAround) {
        const double cx = x + away * dx, cy = y + away * dy;
        const Box box{cx - half, cy - 6, cx + half, cy + 6};
        if (!inside(box) || hits(box)) continue;
        taken_.push_back(box);
        std::string out;
        if (away > 13) {
          out = fmt::format("<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\" stroke=\"#666\"/>",
                            x + 5 * dx, y + 5 * dy, cx - 7 * dx, cy - 7 * dy);
        }
        return out + fmt::format(
                         "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"11\" "
                         "text-anchor=\"middle\">{}</text>\n",
                         cx, cy + 4, text);
      }
    }
    return {};  // the table still has it
  }

 private:
  struct Box {
    double left, top, right, bottom;
  };
  static constexpr double kSlant = 0.7071;
  static constexpr std::pair<double, double> kAround[] = {{0, -1},
                                                          {kSlant, -kSlant},
                                                          {0, 1},
                                                          {-kSlant, kSlant},
                                                          {-kSlant, -kSlant},
                                                          {kSlant, kSlant},
                                                          {1, 0},
                                                          {-1, 0}};
  static bool inside(const Box& box) {
    return box.left > kLeft && box.right < kWidth - kRight && box.top > kTop &&
           box.bottom < kHeight - kBottom;
  }
  bool hits(const Box& box) const {
    return std::any_of(taken_.begin(), taken_.end(), [&](const Box& other) {
      return box.left < other.right && other.left < box.right && box.top < other.bottom &&
             other.top < box.bottom;
    });
  }
  std::vector<Box> taken_;
};

}  // namespace

namespace {

/// The chart as it is drawn: axes first, then what lies on them, words last.
class Drawing {
 public:
  explicit Drawing(const Chart& chart) : chart_(chart), legend_(chart) {}

  std::string svg() && {
    open();
    if (!find_axes()) return out_ + "</svg>\n";
    ticks();
    points();
    marks();
    lines();
    numbers();
    words();
    return std::move(out_);
  }

 private:
  double at_x(double x) const {
    return kLeft + (x - across_.low) / (across_.high - across_.low) * (kWidth - kLeft - kRight);
  }
  double at_y(double y) const {
    return kHeight - kBottom - (y - up_.low) / (up_.high - up_.low) * (kHeight - kTop - kBottom);
  }

  void open() {
    out_ = fmt::format(
        "<svg role=\"img\" aria-label=\"{0}\" viewBox=\"0 {3:.0f} {1:.0f} {2:.0f}\" "
        "width=\"{1:.0f}\" "
        "height=\"{2:.0f}\" font-family=\"sans-serif\" font-size=\"12\" fill=\"#000\">\n"
        "<title>{0}</title>\n",
        escaped(chart_.title), kWidth, kHeight + legend_.extra(), -legend_.extra());
  }

  bool find_axes() {
    std::vector<std::pair<double, double>> all = chart_.points;
    for (const auto& one : chart_.lines)
      all.insert(all.end(), one.points.begin(), one.points.end());
    if (all.empty()) return false;
    double x0 = all[0].first, x1 = x0, y0 = all[0].second, y1 = y0;
    const auto reach = [&](double x, double y) {
      x0 = std::min(x0, x), x1 = std::max(x1, x), y0 = std::min(y0, y), y1 = std::max(y1, y);
    };
    for (const auto& [x, y] : all) reach(x, y);
    for (const auto& mark : chart_.marks) reach(mark.x, mark.y);
    const auto names = chart_.x_names.size();
    across_ = names > 0 ? Axis{-0.4, static_cast<double>(names) - 0.6, 1} : axis(x0, x1);
    up_ = axis(y0 > 0 && y0 < kNearZero * y1 ? 0.0 : y0, y1);
    return true;
  }

  void tick(double x, const std::string& words) {
    out_ += fmt::format(
        "<path d=\"M{0:.1f} {1:.1f}V{2:.1f}\" stroke=\"#ccc\"/>"
        "<text x=\"{0:.1f}\" y=\"{3:.1f}\" text-anchor=\"middle\">{4}</text>\n",
        at_x(x), kTop, kHeight - kBottom, kHeight - kBottom + 17, words);
  }

  void ticks() {
    const auto names = chart_.x_names.size();
    for (std::size_t k = 0; k < names; ++k)
      tick(static_cast<double>(k), escaped(chart_.x_names[k]));
    for (double x = across_.low; names == 0 && x <= across_.high + across_.step / 2;
         x += across_.step)
      tick(x, number(x, across_.step));
    for (double y = up_.low; y <= up_.high + up_.step / 2; y += up_.step) {
      out_ += fmt::format(
          "<path d=\"M{0:.1f} {1:.1f}H{2:.1f}\" stroke=\"#ccc\"/>"
          "<text x=\"{3:.1f}\" y=\"{4:.1f}\" text-anchor=\"end\">{5}</text>\n",
          kLeft, at_y(y), kWidth - kRight, kLeft - 6, at_y(y) + 4, number(y, up_.step));
    }
    out_ += fmt::format(
        "<path d=\"M{0:.1f} {1:.1f}V{2:.1f}H{3:.1f}\" fill=\"none\" "
        "stroke=\"#000\"/>\n",
        kLeft, kTop, kHeight - kBottom, kWidth - kRight);
  }

  void points() {
    for (const auto& [x, y] : chart_.points) {
      line_ += fmt::format("{}{:.1f} {:.1f}", line_.empty() ? "M" : "L", at_x(x), at_y(y));
      dots_ += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"3.5\"/>\n", at_x(x), at_y(y));
      labels_.keep_clear(at_x(x), at_y(y));
    }
    for (std::size_t k = 1; k < chart_.points.size(); ++k) {
      const auto [xa, ya] = chart_.points[k - 1];
      const auto [xb, yb] = chart_.points[k];
      labels_.keep_clear_line(at_x(xa), at_y(ya), at_x(xb), at_y(yb));
    }
  }

  void marks() {
    for (std::size_t k = 0; k < chart_.marks.size(); ++k) {
      const auto& mark = chart_.marks[k];
      labels_.keep_clear(at_x(mark.x), at_y(mark.y));
      dots_ += shape(mark.shape, at_x(mark.x), at_y(mark.y)) +
               shape(mark.shape, legend_.x(k) + 5, legend_.y(k) - 4) +
               fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\">{}</text>\n", legend_.x(k) + 15,
                           legend_.y(k), escaped(mark.words));
    }
  }

  void lines() {
    for (std::size_t k = 0; k < chart_.lines.size(); ++k) {
      std::string path;
      for (const auto& [x, y] : chart_.lines[k].points) {
        path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : "L", at_x(x), at_y(y));
        dots_ += line_shape(k, at_x(x), at_y(y)) + "\n";
      }
      const std::size_t entry = chart_.marks.size() + k;
      const double x = legend_.x(entry), y = legend_.y(entry);
      out_ += dashed(path, k);
      out_ += dashed(fmt::format("M{:.1f} {:.1f}H{:.1f}", x, y - 4, x + 32), k);
      dots_ +=
          line_shape(k, x + 16, y - 4) + fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\">{}</text>\n",
                                                     x + 40, y, escaped(chart_.lines[k].words));
    }
    out_ += fmt::format("<path d=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"1.5\"/>\n{}",
                        line_, dots_);
  }

  void numbers() {
    for (std::size_t k = 0; k < chart_.points.size(); ++k) {
      const auto& [x, y] = chart_.points[k];
      out_ += labels_.place(at_x(x), at_y(y), fmt::format("{}", k + 1));
    }
  }

  void words() {
    out_ += fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"middle\">{}</text>\n",
                        (kLeft + kWidth - kRight) / 2, kHeight - 10, escaped(chart_.x_words));
    out_ += fmt::format(
        "<text transform=\"translate(14 {:.1f}) rotate(-90)\" "
        "text-anchor=\"middle\">{}</text>\n</svg>\n",
        (kTop + kHeight - kBottom) / 2, escaped(chart_.y_words));
  }

  const Chart& chart_;
  const Legend legend_;
  Axis across_, up_;
  Labels labels_;
  std::string out_, line_, dots_;
};

}  // namespace

std::string svg(const Chart& chart) { return Drawing(chart).svg(); }

}  // namespace barwright::app
