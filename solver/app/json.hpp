#pragma once

#include <concepts>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <ranges>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace barwright::app {

/// What --json prints, as it is put together: an object keeps the order its keys came in. The
/// library that writes and reads it is included in json.cpp only; its header is slow to compile.
class Json {
 public:
  Json() = default;  ///< null
  Json(std::nullptr_t) {}
  Json(std::same_as<bool> auto yes) : kind_(Kind::boolean), whole_(yes ? 1 : 0) {}
  template <std::integral Whole>
  requires(!std::same_as<Whole, bool>) Json(Whole value)
      : kind_(Kind::whole), whole_(static_cast<std::int64_t>(value)) {}
  Json(double value) : kind_(Kind::number), number_(value) {}  ///< NaN and infinity print as null
  Json(std::string text) : kind_(Kind::text), text_(std::move(text)) {}
  Json(std::string_view text) : Json(std::string(text)) {}
  Json(const char* text) : Json(std::string(text)) {}
  /// Every list of things that are Json themselves is an array.
  template <std::ranges::input_range List>
  requires(!std::convertible_to<List, std::string_view> && !std::same_as<List, Json> &&
           std::convertible_to<std::ranges::range_value_t<List>, Json>) Json(const List& list)
      : kind_(Kind::array) {
    for (const auto& each : list) items_.emplace_back(each);
  }
  /// {{"key", value}, ...} is an object, anything else in braces an array.
  Json(std::initializer_list<Json> list);

  /// Returns what a text says, or nothing where it is no JSON (comments, text behind it, a number
  /// too large, depth above 100).
  static std::optional<Json> parse(std::string_view text);

  static Json array();
  static Json object();

  /// Returns the value at a key, added as null at the end if it is not there. Null becomes an
  /// object.
  Json& operator[](const std::string& key);
  /// Takes a key away, if it is there.
  void erase(const std::string& key);
  /// Adds to an array. Null becomes one.
  void push_back(Json value);
  Json& back() { return items_.back(); }
  const Json& front() const { return items_.front(); }
  bool is_object() const { return kind_ == Kind::object; }
  bool is_array() const { return kind_ == Kind::array; }
  /// Returns whether this is `true`.
  bool is_true() const { return kind_ == Kind::boolean && whole_ != 0; }
  /// Returns the text, or null where this is none.
  const std::string* text() const { return kind_ == Kind::text ? &text_ : nullptr; }
  /// Returns the value at a key, or null where this is no object or has none such.
  const Json* find(std::string_view key) const;
  /// Returns the values of an array or object, in order; keys() goes with them in an object.
  const std::vector<Json>& items() const { return items_; }
  const std::vector<std::string>& keys() const { return keys_; }
  bool empty() const { return items_.empty(); }
  /// Puts every key of another object into this one.
  void update(const Json& other);

  /// Returns it as text, `indent` spaces a level, without line breaks where that is negative. Bytes
  /// that are no UTF-8 print as U+FFFD.
  std::string dump(int indent) const;

 private:
  enum class Kind { null, boolean, whole, number, text, array, object };
  struct Writer;
  struct Reader;

  Kind kind_ = Kind::null;
  std::int64_t whole_ = 0;
  double number_ = 0;
  std::string text_;
  std::vector<std::string> keys_;  // of an object, one for each of items_
  std::vector<Json> items_;
};

}  // namespace barwright::app
