#pragma once

#include <string>

namespace barwright::tests {

/// Runs headless Chromium, which must be there, on a page with nothing but files within its reach.
/// Returns what it prints to stdout and to its log; `options` say what to do with the page.
struct Browsed {
  std::string out;
  std::string log;
};
Browsed browse(const std::string& page, const std::string& options);

/// Returns the faults a script finds in a page as it is laid out in a window of this width, one a
/// line, none: empty. Texts of a chart that overlap or are cut off, points covered, a page or a
/// table wider than its room, anything coloured, anything fetched, any error of a script.
std::string layout_faults(const std::string& html, const std::string& folder, int width);

/// Prints a page to a PDF of a CSS page size ("A4", "letter"); returns its bytes.
std::string printed(const std::string& html, const std::string& folder, const std::string& size);

}  // namespace barwright::tests
