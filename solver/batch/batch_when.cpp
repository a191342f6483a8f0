#include "solver/batch/batch_when.hpp"

#include <fmt/format.h>

#include <string_view>

#include "oils/records/library.hpp"

namespace barwright::batch {
namespace {

bool says(const std::string& when, std::string_view word) {
  return (" " + oils::folded_name(when) + " ").find(" " + std::string(word) + " ") !=
         std::string::npos;
}

}  // namespace

void refuse_into_lye(const targets::Addition& addition) {
  if (!says(addition.when, "lye")) return;
  addition.written.fail(
      fmt::format("'{}' is told to go in by the lye ('{}'), but is reckoned as mixed in later",
                  addition.name, addition.when),
      "write it under the part's 'into-lye:', or say another time, such as 'at light trace'");
}

void refuse_beside_lye(const targets::Addition& addition) {
  for (const char* later : {"trace", "oils", "batter", "pour"}) {
    if (!says(addition.when, later)) continue;
    addition.written.fail(
        fmt::format("'{}' stands under 'into-lye:' and is told to go in elsewhere ('{}')",
                    addition.name, addition.when),
        "write it under the part's 'additives:', or leave the 'when' out");
  }
}

core::Into into_of(const std::string& when) {
  if (says(when, "lye") && says(when, "below")) return core::Into::cooled_lye;
  return when.find("oils") != std::string::npos ? core::Into::oils : core::Into::trace;
}

}  // namespace barwright::batch
