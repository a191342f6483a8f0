#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace barwright::app {

struct Chart;

/// A space at which no line is broken (U+00A0); a Screen prints it as a plain one.
inline constexpr const char* kNoBreak = "\xC2\xA0";

/// Text for a maker at the bench: headings, aligned columns, wrapped sentences. Collects everything
/// and is printed once, so that nothing is printed of an answer that fails on the way.
class Screen {
 public:
  /// `colour`: bold headings and red dangers; never the only carrier of a meaning.
  explicit Screen(bool colour);
  virtual ~Screen() = default;

  /// A line of its own at the left edge, `right` set at the right edge when it fits.
  virtual void title(std::string_view left, std::string_view right = {});
  virtual void heading(std::string_view text, std::string_view beside = {});
  /// Sentences wrapped at the page width, indented; a number keeps its unit beside it; `mark`
  /// stands before the first line.
  virtual void sentence(std::string_view text, std::string_view mark = {});
  virtual void danger(std::string_view text);
  virtual void blank();

  /// Rows of cells. In `align`, 'l' and 'r' set each column; the last 'l' column is not padded, and
  /// wraps below itself where the page is too narrow.
  virtual void table(std::string_view align, const std::vector<std::vector<std::string>>& rows);

  /// A chart has no place in text; a page draws it.
  virtual void chart(const Chart&) {}

  const std::string& text() const { return text_; }

 protected:
  std::string text_;

 private:
  void stack(const std::vector<std::vector<std::string>>& rows);

  bool colour_;
  std::size_t width_;  ///< the page's, or a narrower terminal's
};

/// Returns whether this is the program's own run, stdout a terminal that is not dumb, and NO_COLOR
/// not set (https://no-color.org).
bool colour_wanted();

/// Returns "2640 g", "12.5 g": as many decimals as tell the scale's steps apart (1.5 g: one), at
/// most four. Where ounces are shown, pounds and ounces no coarser than the step.
std::string grams(double value, double scale_step);
/// The same for alkali: in ounces never more than it is.
std::string lye_grams(double value, double scale_step);
/// Returns "38 %" or "37.5 %": decimals only where needed, at most `decimals`.
std::string percent(double fraction, int decimals = 1);
/// Returns "+6", "-0.4", "0": signed, one decimal below 10, none above.
std::string signed_points(double value);
/// Returns "0.41 EUR", two decimals, currency a label.
std::string money(double value, std::string_view currency);

}  // namespace barwright::app
