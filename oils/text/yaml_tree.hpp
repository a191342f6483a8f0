#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace barwright::oils::yaml {

enum class Kind : std::uint32_t { scalar, null, list, map };

inline constexpr std::uint32_t kNone = 0xFFFFFFFF;

/// One node of a parsed file, as numbers, so that the files in the program can be parsed when it
/// is built. What a map holds is a chain of key, value, key, value.
struct TreeNode {
  Kind kind = Kind::null;
  std::uint32_t quoted = 0;                  ///< 1: a scalar in quotes
  std::uint32_t text_at = 0, text_size = 0;  ///< in Tree::words
  std::uint32_t line = 0, column = 0;        ///< from 1; 0: unknown
  std::uint32_t parent = kNone;              ///< indices of nodes, or kNone
  std::uint32_t key = kNone;                 ///< of a value in a map
  std::uint32_t first = kNone;               ///< first of what it holds
  std::uint32_t next = kNone;                ///< next in what holds it

  bool operator==(const TreeNode&) const = default;
};

/// A parsed file: its nodes, the root first, and the text of its scalars. Owns nothing.
struct Tree {
  std::span<const TreeNode> nodes;
  std::string_view words;
};

}  // namespace barwright::oils::yaml
