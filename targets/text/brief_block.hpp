#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/units/faults.hpp"
#include "oils/records/library.hpp"
#include "targets/text/brief_words.hpp"

namespace barwright::targets {

/// What every reader of a maker's file needs at hand.
struct Reading {
  const oils::Library& library;
  std::string folder;  ///< of the file being read
  int depth = 0;       ///< recipe files within briefs: one level
};

/// A block of keys, taken key by key; what nobody took is an error. "tag rules", "tag-rules" and
/// "Tag rules" are one key.
class Block {
 public:
  explicit Block(const oils::yaml::Node& map);

  /// Takes the value of a key, or nothing. Errors: a key without a value.
  std::optional<oils::yaml::Node> take(std::string_view key);
  /// The same for a key of several names. Errors: two of them present.
  std::optional<oils::yaml::Node> take(std::initializer_list<std::string_view> names);
  oils::yaml::Node need(std::string_view key);
  /// Reads the value of a key, where there is one, and keeps its error until done(), so that a
  /// maker sees those of all lines together. Returns whether there was none.
  template <typename Read>
  bool read(std::string_view key, Read&& what) {
    return read({key}, what);
  }
  template <typename Read>
  bool read(std::initializer_list<std::string_view> names, Read&& what) {
    return faults_.of([&] {
      if (const auto value = take(names)) what(*value);
    });
  }
  /// The same for a key that must stand there.
  template <typename Read>
  bool need(std::string_view key, Read&& what) {
    return faults_.of([&] { what(need(key)); });
  }
  /// What was kept so far; settle() throws it.
  core::Faults& faults() { return faults_; }
  void settle() const { faults_.done(); }
  bool has(std::string_view key) const;
  /// Takes every key not taken yet.
  std::vector<std::pair<oils::yaml::Node, oils::yaml::Node>> take_rest();
  /// Refuses two keys that say different things of one matter; kept until done().
  void one_only(std::initializer_list<std::string_view> keys);
  /// Refuses what was not taken and throws all that was kept. `remedy` follows the nearest name,
  /// when there is more to say.
  void done(const std::string& remedy = {});
  const oils::yaml::Node& node() const { return map_; }

 private:
  struct Entry {
    std::string folded;
    oils::yaml::Node key, value;
    bool taken = false;
  };
  oils::yaml::Node map_;
  std::vector<Entry> entries_;
  std::vector<std::string> asked_;
  core::Faults faults_;
};

/// A list, or a single value as a list of one. Errors: an empty list.
std::vector<oils::yaml::Node> list_of(const oils::yaml::Node& node);

/// Takes text that must not be empty.
std::string plain_text(const oils::yaml::Node& node);

/// Finds a file a brief names, from the brief's folder.
FileName file_name(const oils::yaml::Node& node, const Reading& reading);
FileName file_name(const oils::yaml::Node& node, const std::string& folder);

/// Returns the value that belongs to the folded word. Errors: unknown word, nearest, what is
/// allowed.
template <typename Value>
Value choice(const oils::yaml::Node& node,
             std::initializer_list<std::pair<std::string_view, Value>> choices);

[[noreturn]] void unknown_word(const oils::yaml::Node& node,
                               const std::vector<std::string>& allowed);
std::string folded_text(const oils::yaml::Node& node);
bool same_word(std::string_view folded, std::string_view word);

template <typename Value>
Value choice(const oils::yaml::Node& node,
             std::initializer_list<std::pair<std::string_view, Value>> choices) {
  const std::string text = folded_text(node);
  std::vector<std::string> allowed;
  for (const auto& [word, value] : choices) {
    if (same_word(text, word)) return value;
    allowed.emplace_back(word);
  }
  unknown_word(node, allowed);
}

SureLevel read_sureness(const oils::yaml::Node& node);
int read_count(const oils::yaml::Node& node, const std::string& what);

/// A length, weight and so on that must be above zero.
double above_zero(double value, const oils::yaml::Node& node, const std::string& what);
/// A fraction within [low, high] (fractions), named in percent in the error.
double fraction_within(const oils::yaml::Node& node, double low, double high);

/// "3 %" for 0.03: shortest text that reads back the same to nine digits.
std::string percent(double fraction);
std::string figure(double value);

}  // namespace barwright::targets
