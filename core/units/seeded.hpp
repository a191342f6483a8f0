#pragma once

#include <cstdint>
#include <string_view>

namespace barwright::core {

// What is drawn or marked is the same on every machine: the standard's own distributions and hashes
// differ by library.

/// Returns 64 drawn bits as a fraction of 1, in [0, 1): their top 53.
double fraction_of(std::uint64_t bits);

/// Where hash_of() begins.
inline constexpr std::uint64_t kHashStart = 0xCBF29CE484222325U;
/// Returns Fowler, Noll and Vo's hash of a text, 64 bits (FNV-1a).
std::uint64_t hash_of(std::string_view text, std::uint64_t start = kHashStart);

}  // namespace barwright::core
