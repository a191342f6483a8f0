#include "targets/text/brief_date.hpp"

#include <fmt/format.h>

#include <chrono>

#include "oils/text/yaml_text.hpp"

namespace barwright::targets {

std::string Date::text() const { return fmt::format("{:04}-{:02}-{:02}", year, month, day); }

Date read_date(const oils::yaml::Node& node) {
  const std::string text = oils::yaml::trimmed(node.text());
  const auto digits = [&](std::size_t from, std::size_t count) {
    int value = 0;
    for (std::size_t i = from; i < from + count; ++i) {
      if (i >= text.size() || text[i] < '0' || text[i] > '9') return -1;
      value = value * 10 + (text[i] - '0');
    }
    return value;
  };
  const Date date{digits(0, 4), digits(5, 2), digits(8, 2)};
  if (text.size() != 10 || text[4] != '-' || text[7] != '-' || date.year < 0 || date.month < 0 ||
      date.day < 0)
    node.fail("'" + node.text() + "' is not a date", "Write year, month and day: 2027-02-13.");
  const std::chrono::year_month_day day{std::chrono::year(date.year),
                                        std::chrono::month(static_cast<unsigned>(date.month)),
                                        std::chrono::day(static_cast<unsigned>(date.day))};
  if (!day.ok()) node.fail("there is no day " + text, "Write year, month and day: 2027-02-13.");
  return date;
}

}  // namespace barwright::targets
