#pragma once

#include <string>

namespace barwright::oils {

/// Returns what to say of a file of a format that only a newer barwright knows: "this journal is of
/// format 2, written for a newer barwright; ...". `what`: "file", "journal".
std::string newer_format(const std::string& what, const std::string& format);
/// And what to do about it.
inline constexpr const char* kNewerFormatRemedy =
    "Read it with the barwright it was written for, or a newer one.";

}  // namespace barwright::oils
