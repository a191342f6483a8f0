#pragma once

#include <string>

#include "solver/app/options/command_line.hpp"

namespace barwright::app {

/// Returns the manual page of the program (roff, section 1). `version` and `date` (yyyy-mm-dd)
/// stand in its title. Hidden commands are left out.
std::string manual_page(const CommandText& program, const std::string& version,
                        const std::string& date);

}  // namespace barwright::app
