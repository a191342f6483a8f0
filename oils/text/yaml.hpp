#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/units/error.hpp"
#include "core/units/quantity.hpp"
#include "oils/text/yaml_tree.hpp"

namespace barwright::oils::yaml {

struct Impl;

/// The newest format of files that is read. A file may state its own ('format: 1' at its outermost
/// level); one that does not is of format 1, and so is all that is written but for shelves with
/// more than oils and journals with sheets in them (2): who cannot read those shall say so.
inline constexpr int kFormat = 2;
inline constexpr int kPlainFormat = 1;

/// A node of a maker's file that knows its place. Reading is strict: what is asked for must be
/// there in the right kind, and what nobody asked for is an error (see `only`). yaml-cpp stays in
/// the .cpp.
class Node {
 public:
  Node() = default;
  /// Whether this is a node of a file at all: a default one is not, and answers nothing else.
  explicit operator bool() const;
  core::Place place() const;
  bool is_map() const;
  bool is_list() const;
  bool is_scalar() const;
  bool is_null() const;

  /// Refuses any key of this map that is not listed: "unknown key 'oyls'", nearest known name.
  void only(std::initializer_list<std::string_view> allowed) const;
  void only(const std::vector<std::string>& allowed) const;
  bool has(std::string_view key) const;
  std::optional<Node> get(std::string_view key) const;
  /// Returns the value of a key. Errors: "missing key 'superfat'".
  Node need(std::string_view key) const;
  /// Returns key nodes (scalars, with their own place) and values in file order.
  std::vector<std::pair<Node, Node>> entries() const;
  std::vector<Node> items() const;

  std::string text() const;  ///< scalar as written
  double number() const;     ///< plain number; NaN and infinity are errors
  long whole() const;
  bool yes_no() const;  ///< yes/no/true/false
  core::Quantity quantity() const;
  double grams() const;
  double fraction() const;  ///< "5 %" -> 0.05
  double celsius() const;
  double millimetres() const;
  double hours() const;

  /// Whether a scalar stands in quotes in the file.
  bool is_quoted() const;
  /// Returns the way to this node from the root, e.g. "limits > castor"; empty for the root.
  std::string path() const;

  /// Throws InputError at this node.
  [[noreturn]] void fail(const std::string& message, const core::Remedy& remedy) const;
  /// The same, with the caret `offset` bytes into a scalar's text.
  [[noreturn]] void fail_at(std::size_t offset, const std::string& message,
                            const core::Remedy& remedy) const;

 private:
  friend class Document;
  Node(std::shared_ptr<const Impl> impl, std::uint32_t at) : impl_(std::move(impl)), at_(at) {}
  void need_map() const;
  template <typename Allowed>
  void refuse_others(const Allowed& allowed) const;

  std::shared_ptr<const Impl> impl_;
  std::uint32_t at_ = 0;
};

/// A parsed file. Duplicate keys anywhere in it are an error that shows both places.
class Document {
 public:
  static Document from_file(const std::string& path);
  /// `name` stands for the file in errors.
  static Document from_text(const std::string& text, const std::string& name);
  /// Takes a file that was parsed when the program was built: the tree of `text`. Both must last as
  /// long as any node of it.
  static Document from_tree(const Tree& tree, std::string_view text, const std::string& name);
  Node root() const { return root_; }
  /// Returns the tree; good while the document or a node of it lives.
  Tree tree() const;

 private:
  Node root_;
};

}  // namespace barwright::oils::yaml
