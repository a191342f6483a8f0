#include "core/units/seeded.hpp"

namespace barwright::core {

double fraction_of(std::uint64_t bits) { return static_cast<double>(bits >> 11) * 0x1.0p-53; }

std::uint64_t hash_of(std::string_view text, std::uint64_t start) {
  std::uint64_t hash = start;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3U;
  return hash;
}

}  // namespace barwright::core
