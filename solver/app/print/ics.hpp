#pragma once

#include <span>
#include <string>
#include <string_view>

#include "core/units/date.hpp"

namespace barwright::app {

/// One all-day entry of a calendar.
struct CalendarDay {
  std::string uid;  ///< the same for the same thing: importing twice makes no second entry
  core::Day day{};
  core::Day stamp{};  ///< the day it was written (DTSTAMP, at midnight UTC)
  std::string summary;
  std::string description;
};

/// Returns an iCalendar object (RFC 5545): CRLF line ends, lines folded at 75 octets (3.1), text
/// escaped (3.3.11), all-day events (DTSTART with VALUE=DATE, 3.8.2.4).
std::string calendar(std::span<const CalendarDay> days);

/// Returns a text as a TEXT value (RFC 5545, 3.3.11).
std::string ics_text(std::string_view text);
/// Returns a content line folded and ended (RFC 5545, 3.1); never parts a UTF-8 character.
std::string ics_line(std::string_view line);

}  // namespace barwright::app
