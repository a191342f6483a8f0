#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace barwright::core {

/// A day of the proleptic Gregorian calendar (ISO 8601).
using Day = std::chrono::year_month_day;

/// Days a workshop's books can speak of: what lies outside is a slip of the pen.
inline constexpr int kFirstYear = 2000;
inline constexpr int kLastYear = 2199;

/// Returns the day a text such as "2027-02-13" names (ISO 8601 extended form); nothing for another
/// form or a day that the calendar lacks.
std::optional<Day> find_day(std::string_view text);
/// Returns whether a day lies in the years a workshop's books can speak of.
bool is_plausible(const Day& day);
/// Returns "2027-02-13".
std::string text(const Day& day);
/// Returns the day so many whole days later (earlier when negative).
Day days_after(const Day& day, int days);
/// Returns whole days from one day to another, negative when `to` comes first.
int days_between(const Day& from, const Day& to);
/// Returns "Mon" to "Sun".
std::string_view weekday(const Day& day);

/// Returns the maker's own day, by the system's time zone (TZ). Only commands of the books ask for
/// it, and never when --date is given.
Day system_day();

}  // namespace barwright::core
