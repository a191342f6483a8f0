#pragma once

#include <cstddef>
#include <optional>
#include <string>

namespace barwright::oils {

inline constexpr std::size_t kMostTextBytes = std::size_t{8} << 20U;  ///< of a file a maker writes
inline constexpr std::size_t kMostBookBytes = std::size_t{64}
                                              << 20U;  ///< of a journal of many years

/// Returns the bytes of a file, nothing when there is none. Errors: InputError for a folder, for
/// what is no file (a pipe, a device), for one of more than `most` bytes and one that cannot be
/// read.
std::optional<std::string> find_text_file(const std::string& path, std::size_t most);
/// The same for one that must be there. Errors: InputError too when there is none.
std::string read_text_file(const std::string& path, std::size_t most = kMostTextBytes);

}  // namespace barwright::oils
