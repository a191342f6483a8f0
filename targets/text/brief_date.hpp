#pragma once

#include <string>

#include "oils/text/yaml.hpp"

namespace barwright::targets {

/// A day of the calendar.
struct Date {
  int year = 0, month = 0, day = 0;
  std::string text() const;  ///< "2027-02-13"
};

/// Returns a date written as 2027-02-13. Errors: another form, no such day.
Date read_date(const oils::yaml::Node& node);

}  // namespace barwright::targets
