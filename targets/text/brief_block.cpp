#include "targets/text/brief_block.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <unordered_map>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/text/brief_phrase.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

Block::Block(const Node& map) : map_(map) {
  std::unordered_map<std::string, std::size_t> seen;
  for (const auto& [key, value] : map.entries()) {
    Entry entry{yaml::folded(key.text()), key, value, false};
    const auto [at, fresh] = seen.emplace(entry.folded, entries_.size());
    if (fresh) {
      entries_.push_back(std::move(entry));
      continue;
    }
    const Entry& first = entries_[at->second];
    faults_.of([&, &name = key] {
      name.fail("the key '" + name.text() + "' stands here a second time",
                fmt::format("It stands first at line {} as '{}'. Keep one of the two.",
                            first.key.place().line, first.key.text()));
    });
  }
  // What any file may state of itself is no word of this one.
  if (!map_.path().empty()) return;
  for (Entry& entry : entries_) entry.taken = entry.taken || entry.folded == "format";
}

std::optional<Node> Block::take(std::string_view key) { return take({key}); }

std::optional<Node> Block::take(std::initializer_list<std::string_view> names) {
  asked_.emplace_back(*names.begin());
  Entry* found = nullptr;
  for (const auto name : names) {
    const std::string folded = yaml::folded(name);
    for (Entry& entry : entries_) {
      if (entry.folded != folded) continue;
      if (found != nullptr)
        entry.key.fail(
            fmt::format("'{}' says the same as '{}'", entry.key.text(), found->key.text()),
            fmt::format("'{}' stands at line {}. Keep one of the two.", found->key.text(),
                        found->key.place().line));
      found = &entry;
    }
  }
  if (found == nullptr) return std::nullopt;
  found->taken = true;
  if (found->value.is_null())
    found->key.fail("'" + found->key.text() + "' has no value",
                    "Write the value after '" + found->key.text() + ":', or take the line out.");
  return found->value;
}

Node Block::need(std::string_view key) {
  auto value = take(key);
  if (value) return *value;
  std::vector<std::string> unread;
  for (const Entry& entry : entries_)
    if (!entry.taken) unread.push_back(entry.key.text());
  const std::string near = yaml::nearest_name(key, unread);
  map_.fail("missing key '" + std::string(key) + "'",
            near.empty() ? "Add '" + std::string(key) + ": ...' to this block."
                         : "Here stands '" + near + "': is '" + std::string(key) + "' meant?");
}

bool Block::has(std::string_view key) const {
  return std::any_of(entries_.begin(), entries_.end(),
                     [&](const Entry& entry) { return entry.folded == yaml::folded(key); });
}

std::vector<std::pair<Node, Node>> Block::take_rest() {
  std::vector<std::pair<Node, Node>> rest;
  for (Entry& entry : entries_) {
    if (entry.taken) continue;
    entry.taken = true;
    rest.emplace_back(entry.key, entry.value);
  }
  return rest;
}

void Block::one_only(std::initializer_list<std::string_view> keys) {
  const Entry* first = nullptr;
  for (const Entry& entry : entries_) {
    const bool listed = std::any_of(keys.begin(), keys.end(), [&](std::string_view key) {
      return entry.folded == yaml::folded(key);
    });
    if (!listed) continue;
    if (first != nullptr)
      faults_.of([&] {
        entry.key.fail(fmt::format("'{}' and '{}' cannot both stand here", first->key.text(),
                                   entry.key.text()),
                       fmt::format("'{}' stands at line {}. Keep one of the two.",
                                   first->key.text(), first->key.place().line));
      });
    first = &entry;
  }
}

void Block::done(const std::string& remedy) {
  for (const Entry& entry : entries_) {
    if (entry.taken) continue;
    faults_.of([&] {
      entry.key.fail(
          "unknown key '" + entry.key.text() + "'",
          yaml::nearest_and_known(entry.key.text(), asked_) + (remedy.empty() ? "" : " " + remedy));
    });
  }
  faults_.done();
}

std::vector<Node> list_of(const Node& node) {
  if (!node.is_list()) return {node};
  auto items = node.items();
  if (items.empty()) node.fail("the list is empty", "Name at least one, or take the line out.");
  return items;
}

std::string plain_text(const Node& node) {
  std::string text = yaml::trimmed(node.text());
  if (text.empty()) node.fail("the text is empty", "Write at least one word.");
  return text;
}

FileName file_name(const Node& node, const std::string& folder) {
  const std::filesystem::path path(plain_text(node));
  const auto found =
      path.is_absolute() || folder.empty() ? path : std::filesystem::path(folder) / path;
  return {written(node), found.lexically_normal().string()};
}

FileName file_name(const Node& node, const Reading& reading) {
  return file_name(node, reading.folder);
}

std::string folded_text(const Node& node) { return yaml::folded(node.text()); }

bool same_word(std::string_view folded, std::string_view word) {
  return folded == yaml::folded(word);
}

void unknown_word(const Node& node, const std::vector<std::string>& allowed) {
  node.fail("unknown word '" + node.text() + "'", yaml::nearest_and_known(node.text(), allowed));
}

SureLevel read_sureness(const Node& node) {
  Phrase phrase(node);
  const auto level = take_sureness(phrase);
  if (!level) unknown_word(node, {"typical", "likely", "worst-case"});
  phrase.end({}, "Write typical, likely, likely 90 % or worst-case.");
  return *level;
}

int read_count(const Node& node, const std::string& what) {
  const long count = node.whole();
  if (count < 1 || count > 100000)
    node.fail(fmt::format("'{}' cannot be a number of {}", node.text(), what),
              "Write a whole number from 1 to 100000.");
  return static_cast<int>(count);
}

double above_zero(double value, const Node& node, const std::string& what) {
  if (!(value > 0))
    node.fail("'" + node.text() + "': " + what + " must be above zero", "Write what it really is.");
  return value;
}

double fraction_within(const Node& node, double low, double high) {
  const double value = node.fraction();
  if (value < low - 1e-12 || value > high + 1e-12)
    node.fail("'" + node.text() + "' is outside what can be",
              "Write " + percent(low) + " to " + percent(high) + ".");
  return value;
}

std::string figure(double value) {
  std::string text = fmt::format("{:.9g}", value);
  return text == "-0" ? "0" : text;
}
std::string percent(double fraction) { return figure(fraction * 100) + " %"; }

}  // namespace barwright::targets
