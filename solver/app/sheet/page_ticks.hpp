#pragma once

#include <string>

namespace barwright::app {

/// Return the style and the script with which a page's boxes tick on a phone or tablet: the next
/// step, its wait, running totals, all of it kept in the browser. Paper shows nothing of them.
const char* page_ticks_style();
std::string page_ticks_script();

}  // namespace barwright::app
