#include "oils/text/yaml_edit.hpp"

#include <charconv>
#include <utility>
#include <vector>

#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"
#include "oils/text/yaml_bytes.hpp"
#include "oils/text/yaml_plain.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils::yaml {
namespace {

[[noreturn]] void refuse(const std::string& name, const std::string& message,
                         const std::string& remedy) {
  throw core::InputError({name, 0, 0}, message, remedy);
}

// Parts of a path: stock.0."shea.raw"
std::vector<std::string> parts_of(const std::string& path) {
  std::vector<std::string> out(1);
  bool quoted = false;
  for (const char c : path) {
    if (c == '"')
      quoted = !quoted;
    else if (c == '.' && !quoted)
      out.emplace_back();
    else
      out.back() += c;
  }
  for (const auto& part : out)
    if (part.empty() || quoted)
      refuse("'" + path + "'", "this is no place in a file",
             "Write the keys from the outside in with full stops between them: want.hardness");
  return out;
}

std::optional<std::size_t> index_of(const std::string& part) {
  std::size_t out = 0;
  const auto read = std::from_chars(part.data(), part.data() + part.size(), out);
  if (read.ec != std::errc() || read.ptr != part.data() + part.size()) return std::nullopt;
  return out;
}

std::vector<std::string> keys_of(const Node& block) {
  std::vector<std::string> out;
  for (const auto& [key, value] : block.entries()) out.push_back(key.text());
  return out;
}

std::optional<std::pair<Node, Node>> entry(const Node& block, const std::string& key) {
  for (const auto& each : block.entries())
    if (each.first.text() == key) return each;
  return std::nullopt;
}

// Where an edit takes place: the last part of the path, and what it is a part of.
struct Spot {
  std::vector<std::string> parts;
  Node parent;         // a block or a list; a null value where the key stands alone
  Node parent_key;     // none for the root
  Node key, value;     // none where the last part is not there yet
  std::size_t at = 0;  // in a list

  /// Whether the block itself is to be added.
  bool new_block() const { return !value && parts.size() == 2 && !parent_key && parent.is_map(); }
};

[[noreturn]] void not_there(const Node& block, const std::string& part) {
  block.fail("there is no '" + part + "' here", nearest_and_known(part, keys_of(block)));
}

void step(Spot& spot, const std::string& part) {
  const Node& parent = spot.parent;
  spot.key = spot.value = Node();
  if (parent.is_map()) {
    if (auto found = entry(parent, part)) std::tie(spot.key, spot.value) = *found;
  } else if (parent.is_list()) {
    const auto index = index_of(part);
    const auto items = parent.items();
    if (!index || *index > items.size())
      parent.fail("the list has no entry '" + part + "'", "Name its entries by number, from 0 to " +
                                                              std::to_string(items.size()) +
                                                              "; the last of these adds one.");
    spot.at = *index;
    if (*index < items.size()) spot.value = items[*index];
  } else if (parent.is_scalar()) {
    parent.fail("'" + parent.text() + "' is a single value: nothing in it can be named",
                "Change it as a whole, or write it as a block first.");
  }
}

Spot find(const Node& root, const std::string& path) {
  Spot spot;
  spot.parts = parts_of(path);
  spot.parent = root;
  for (std::size_t i = 0; i < spot.parts.size(); ++i) {
    step(spot, spot.parts[i]);
    if (i + 1 == spot.parts.size()) break;
    if (!spot.value) {
      // A block of the file's own that is not there is added, unless its name is a slip.
      if (i == 0 && spot.parts.size() == 2 && spot.parent.is_map() &&
          nearest_name(spot.parts[0], keys_of(spot.parent)).empty())
        break;
      if (spot.parent.is_map()) not_there(spot.parent, spot.parts[i]);
      spot.parent.fail("there is no '" + spot.parts[i] + "' here", "Add it first.");
    }
    spot.parent_key = spot.key;
    spot.parent = spot.value;
  }
  return spot;
}

bool is_bracketed(const std::string& value) {
  return !value.empty() && (value.front() == '{' || value.front() == '[');
}

class Editor {
 public:
  Editor(const std::string& text, const std::string& name, const std::string& path)
      : text_(text),
        document_(Document::from_text(text, name)),
        bytes_(text),
        spot_(find(document_.root(), path)) {}

  Spot& spot() { return spot_; }
  Plain before() const { return plain_of(document_.root()); }
  std::optional<std::string> was() const {
    if (!spot_.value || spot_.value.is_null()) return std::nullopt;
    const Extent extent = bytes_.extent(spot_.value);
    return text_.substr(extent.from, extent.to - extent.from);
  }

  /// Returns the file with `written` in the place of the value.
  std::string with(const std::string& written) const {
    if (!spot_.value) return spot_.parent.is_list() ? added_item(written) : added_key(written);
    if (spot_.value.is_null()) return behind_colon(spot_.key, written);
    if ((spot_.value.is_map() || spot_.value.is_list()) && !bytes_.in_brackets(spot_.value))
      spot_.value.fail("a whole block stands here", "Name one of its keys, or take it out.");
    return spliced(bytes_.extent(spot_.value), written);
  }

  std::string without() const {
    if (!spot_.value) not_there(spot_.parent, spot_.parts.back());
    Extent extent = whole_entry();
    if (bytes_.in_brackets(spot_.parent)) return spliced(with_comma(extent), "");
    const std::size_t line = bytes_.line_start(extent.from);
    // Where its line begins with something else ("- oil: olive"), that would go too.
    const std::string before = trimmed(text_.substr(line, extent.from - line));
    if (!before.empty() && !(spot_.parent.is_list() && before == "-"))
      spot_.key.fail("something else stands before it on its line", "Take it out in an editor.");
    return spliced({line, bytes_.next_line(extent.to)}, "");
  }

 private:
  std::string spliced(Extent extent, const std::string& by) const {
    return text_.substr(0, extent.from) + by + text_.substr(extent.to);
  }

  std::size_t colon(const Node& key) const { return text_.find(':', bytes_.extent(key).to) + 1; }

  std::string behind_colon(const Node& key, const std::string& written) const {
    return spliced({colon(key), colon(key)}, " " + written);
  }

  // A key with its value, or an entry of a list.
  Extent whole_entry() const {
    if (!spot_.key) return bytes_.extent(spot_.value);
    return {bytes_.extent(spot_.key).from,
            spot_.value.is_null() ? colon(spot_.key) : bytes_.extent(spot_.value).to};
  }

  // The comma behind goes with it, or, for the last, the one before.
  Extent with_comma(Extent extent) const {
    const std::size_t behind = text_.find_first_not_of(" \t\r\n", extent.to);
    if (behind != std::string::npos && text_[behind] == ',') {
      const std::size_t next = text_.find_first_not_of(' ', behind + 1);
      return {extent.from, next == std::string::npos ? text_.size() : next};
    }
    const std::size_t before = text_.find_last_not_of(" \t\r\n", extent.from - 1);
    if (text_[before] == ',') extent.from = before;
    return extent;
  }

  std::string in_brackets(const std::string& entry) const {
    const Extent all = bytes_.extent(spot_.parent);
    const std::size_t last = text_.find_last_not_of(" \t\r\n", all.to - 2) + 1;
    const char before = text_[last - 1];
    const bool first = before == '{' || before == '[';
    return spliced({last, last}, (first ? "" : before == ',' ? " " : ", ") + entry);
  }

  // A line of its own behind the block's last, whose comment stays with it.
  std::string new_line(std::size_t indent, const std::string& line) const {
    const std::size_t last = bytes_.line_stop(bytes_.extent(spot_.parent).to);
    return spliced({last, last}, bytes_.line_end() + std::string(indent, ' ') + line);
  }

  std::size_t column(std::size_t at) const { return at - bytes_.line_start(at); }

  std::string added_key(const std::string& written) const {
    if (spot_.new_block()) {
      const std::string block =
          yaml::bare_or_quoted(spot_.parts[0]) + ":" + bytes_.line_end() + "  ";
      return new_line(0, block + yaml::bare_or_quoted(spot_.parts[1]) + ": " + written);
    }
    const std::string line = yaml::bare_or_quoted(spot_.parts.back()) + ": " + written;
    if (spot_.parent.is_null()) {
      if (!spot_.parent_key) return text_ + line + bytes_.line_end();  // an empty file
      return behind_colon(spot_.parent_key, "{" + line + "}");
    }
    if (bytes_.in_brackets(spot_.parent)) return in_brackets(line);
    return new_line(column(bytes_.start(spot_.parent.entries().front().first)), line);
  }

  std::string added_item(const std::string& written) const {
    if (bytes_.in_brackets(spot_.parent)) return in_brackets(written);
    const std::size_t first = bytes_.start(spot_.parent.items().front());
    const std::size_t dash = text_.rfind('-', first);
    return new_line(column(dash), "- " + written);
  }

  std::string text_;
  Document document_;
  FileBytes bytes_;
  Spot spot_;
};

// Whether a text reads back as the file that was meant, and nothing else.
bool reads_as(const std::string& text, const std::string& name, const Plain& meant) {
  try {
    return plain_of(Document::from_text(text, name).root()) == meant;
  } catch (const core::InputError&) {
    return false;
  }
}

Plain plain_value(const std::string& value, const std::string& name) {
  if (!is_bracketed(value)) return Plain{Kind::scalar, value, {}, {}};
  try {
    return plain_of(Document::from_text(value, name).root());
  } catch (const core::InputError& error) {
    refuse(name, "'" + value + "' cannot be read: " + error.message(),
           "Write it as in {least: 3 %, most: 8 %}.");
  }
}

}  // namespace

Edited with_value(const std::string& text, const std::string& name, const std::string& path,
                  const std::string& value) {
  for (const char c : value)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
      refuse(name, "a value is one line of plain text", "Leave line breaks and tabs out.");
  Editor editor(text, name, path);
  const Plain meant = changed(editor.before(), editor.spot().parts, plain_value(value, name));
  std::vector<std::string> ways = {value};
  if (!is_bracketed(value)) ways.push_back(yaml::quoted(value));
  if (editor.spot().value && editor.spot().value.is_scalar() && editor.spot().value.is_quoted())
    ways.erase(ways.begin(), ways.end() - 1);  // what stood in quotes stays in them
  for (const auto& way : ways) {
    std::string out = editor.with(way);
    if (reads_as(out, name, meant)) return {std::move(out), editor.was()};
  }
  refuse(name, "'" + path + "' cannot be changed without touching what stands around it",
         "Nothing was written. Change it in an editor.");
}

Edited without_value(const std::string& text, const std::string& name, const std::string& path) {
  Editor editor(text, name, path);
  std::string out = editor.without();
  if (reads_as(out, name, changed(editor.before(), editor.spot().parts, std::nullopt)))
    return {std::move(out), editor.was()};
  refuse(name, "'" + path + "' cannot be taken out without touching what stands around it",
         "Nothing was written. Take it out in an editor.");
}

}  // namespace barwright::oils::yaml
