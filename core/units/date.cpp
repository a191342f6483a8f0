#include "core/units/date.hpp"

#include <array>
#include <charconv>
#include <cstdio>
#include <ctime>

namespace barwright::core {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

bool read_number(std::string_view text, unsigned& into) {
  if (text.empty() || text.front() < '0' || text.front() > '9') return false;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), into);
  return read.ec == std::errc() && read.ptr == text.data() + text.size();
}

}  // namespace

std::optional<Day> find_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  unsigned year = 0, month = 0, day = 0;
  if (!read_number(text.substr(0, 4), year) || !read_number(text.substr(5, 2), month) ||
      !read_number(text.substr(8, 2), day)) {
    return std::nullopt;
  }
  const Day out{std::chrono::year(static_cast<int>(year)), std::chrono::month(month),
                std::chrono::day(day)};
  if (!out.ok()) return std::nullopt;
  return out;
}

bool is_plausible(const Day& day) {
  return static_cast<int>(day.year()) >= kFirstYear && static_cast<int>(day.year()) <= kLastYear;
}

std::string text(const Day& day) {
  std::array<char, 32> out{};
  (void)std::snprintf(out.data(), out.size(), "%04d-%02u-%02u", static_cast<int>(day.year()),
                      static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
  return out.data();
}

Day days_after(const Day& day, int count) { return Day(sys_days(day) + days(count)); }

int days_between(const Day& from, const Day& to) {
  return static_cast<int>((sys_days(to) - sys_days(from)).count());
}

std::string_view weekday(const Day& day) {
  static constexpr std::array<std::string_view, 7> kNames = {"Sun", "Mon", "Tue", "Wed",
                                                             "Thu", "Fri", "Sat"};
  return kNames[std::chrono::weekday(sys_days(day)).c_encoding()];
}

Day system_day() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  tzset();
  if (localtime_r(&now, &local) == nullptr) {
    return Day(std::chrono::floor<days>(std::chrono::system_clock::now()));
  }
  return Day{std::chrono::year(1900 + local.tm_year),
             std::chrono::month(static_cast<unsigned>(local.tm_mon) + 1),
             std::chrono::day(static_cast<unsigned>(local.tm_mday))};
}

}  // namespace barwright::core
