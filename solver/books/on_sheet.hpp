#pragma once

#include <string>
#include <vector>

#include "solver/batch/batch_plan.hpp"
#include "solver/books/make_plan.hpp"

namespace barwright::books {

/// Returns every line of a batch's sheet with the lines of the books it stands for, `plan` being
/// the same batch.
std::vector<OnSheet> lines_on_sheet(const batch::BatchPlan& batch, const MakePlan& plan);

/// Names under which a sheet's lines are typed in that belong to no part: "lye pot/water", and
/// "lye/topping" for the portion of the one lye that a part gets.
inline constexpr const char* kLyePot = "lye pot";
inline constexpr const char* kPortion = "lye";

/// Returns the name a scent has on the sheet in one colour: "fir in reed".
std::string scent_on_sheet(const std::string& scent, const std::string& colour);
/// Returns the name a colouring stuff has in one colour: "mica (reed)".
std::string stuff_on_sheet(const std::string& stuff, const std::string& colour);

}  // namespace barwright::books
