#pragma once

#include <string>

#include "solver/app/print/rows.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {

/// Return parts of a page that stands alone and prints on A4 and Letter: its head up to the title,
/// a paragraph ("! ..." stands out), a table (`headed`: by its first row; `sum`: the last is bold).
std::string page_head(const std::string& title);
std::string paragraph(const std::string& text);
std::string table(const Rows& rows, bool sum = false, bool headed = true);

/// A screen that becomes a page: the same words, tables and warnings as HTML, its charts drawn.
class PageScreen : public Screen {
 public:
  PageScreen() : Screen(false) {}
  void title(std::string_view left, std::string_view right = {}) override;
  void heading(std::string_view text, std::string_view beside = {}) override;
  void sentence(std::string_view text, std::string_view mark = {}) override;
  void danger(std::string_view text) override;
  void blank() override;
  void table(std::string_view align, const std::vector<std::vector<std::string>>& rows) override;
  void chart(const Chart& chart) override;
  /// Returns the finished page.
  std::string page() const;
};

}  // namespace barwright::app
