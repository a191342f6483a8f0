#include "core/units/date.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <ctime>
#include <string>

using namespace barwright::core;

TEST_CASE("days are read as ISO 8601 writes them, and only days of the calendar") {
  CHECK(text(*find_day("2027-02-13")) == "2027-02-13");
  CHECK(find_day("2028-02-29"));
  CHECK_FALSE(find_day("2027-02-29"));
  CHECK_FALSE(find_day("2100-02-29"));  // no leap year: a century not divided by 400
  CHECK(find_day("2000-02-29"));
  CHECK_FALSE(find_day("2027-13-01"));
  CHECK_FALSE(find_day("2027-00-10"));
  for (const char* bad : {"", "13.02.2027", "2027-2-13", "2027/02/13", "20270213", "2027-02-1x",
                          "2027-02-+1", " 2027-02-13"})
    CHECK_FALSE(find_day(bad));
  CHECK_FALSE(is_plausible(*find_day("1890-01-01")));
  CHECK(is_plausible(*find_day("2000-01-01")));
  CHECK_FALSE(is_plausible(*find_day("2200-01-01")));
}

TEST_CASE("days are counted across months, years and leap days") {
  const Day day = *find_day("2027-02-13");
  CHECK(text(days_after(day, 28)) == "2027-03-13");
  CHECK(text(days_after(*find_day("2028-02-13"), 28)) == "2028-03-12");
  CHECK(text(days_after(*find_day("2027-12-31"), 1)) == "2028-01-01");
  CHECK(days_between(day, *find_day("2027-01-01")) == -43);
  // 1 January 2000 was a Saturday.
  CHECK(weekday(*find_day("2000-01-01")) == "Sat");
  CHECK(weekday(day) == "Sat");
  for (int n = -800; n < 800; n += 7) CHECK(days_between(day, days_after(day, n)) == n);
}

// 26 h lie between the zones (POSIX TZ counts west of Greenwich): their days always differ.
TEST_CASE("today is the maker's own day") {
  const char* was = std::getenv("TZ");
  const std::string before = was == nullptr ? "" : was;
  const auto day_in = [](const char* zone) {
    setenv("TZ", zone, 1);
    return system_day();
  };
  CHECK(days_between(day_in("WEST12"), day_in("EAST-14")) >= 1);
  if (was == nullptr)
    unsetenv("TZ");
  else
    setenv("TZ", before.c_str(), 1);
  tzset();
}
