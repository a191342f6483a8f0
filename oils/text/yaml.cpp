#include "oils/text/yaml.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <limits>
#include <sstream>
#include <system_error>

#include "oils/text/yaml_text.hpp"

namespace barwright::oils::yaml {

using core::InputError;
using core::Place;

enum class Kind { scalar, null, list, map };

/// What one node holds: yaml-cpp's events, turned into a tree that knows its places.
struct Impl {
  Kind kind = Kind::null;
  bool quoted = false;
  std::string text;  // scalars
  Place place;
  std::string path;
  std::shared_ptr<const SourceText> source;
  std::vector<Node> items;
  std::vector<std::pair<Node, Node>> entries;

  static Node wrap(std::shared_ptr<Impl> impl) {
    Node node;
    node.impl_ = std::move(impl);
    return node;
  }
};

namespace {

const char* words_for(Kind kind) {
  switch (kind) {
    case Kind::scalar:
      return "a single value";
    case Kind::null:
      return "nothing";
    case Kind::list:
      return "a list";
    case Kind::map:
      return "a block of keys";
  }
  return "";
}

std::string in_quotes(std::string_view text) { return "'" + std::string(text) + "'"; }

/// Builds the tree from yaml-cpp's events: marks stay exact, and a second key of the same name is
/// seen, which yaml-cpp's own nodes keep in silence.
class Builder : public YAML::EventHandler {
 public:
  explicit Builder(std::shared_ptr<const SourceText> source) : source_(std::move(source)) {}

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (documents_++ > 0)
      source_->fail(place(mark), "a second document starts here",
                    "Keep one document per file: remove the '---' line or split the file.");
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    no_anchor(mark, anchor);
    take(node(mark, Kind::null));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    source_->fail(place(mark), "an alias ('*name') stands here",
                  "Write the value out again: aliases are not read.");
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    no_anchor(mark, anchor);
    no_tag(mark, tag);
    auto scalar = node(mark, Kind::scalar);
    scalar->text = value;
    scalar->quoted = tag == "!";
    // yaml-cpp takes the end of the file for the end of a quote.
    if (scalar->quoted && !source_->quote_closes(scalar->place))
      source_->fail(scalar->place, "a quote opens here and never closes",
                    "Close it, or leave both quotes out.");
    take(scalar);
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(mark, tag, anchor, Kind::list);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(mark, tag, anchor, Kind::map);
  }
  void OnMapEnd() override { close(); }

  const std::shared_ptr<Impl>& root() const { return root_; }

 private:
  struct Open {
    std::shared_ptr<Impl> impl;
    std::shared_ptr<Impl> key;  // a key that waits for its value
  };

  Place place(const YAML::Mark& mark) const { return source_->place(mark.line, mark.column); }

  void no_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) const {
    if (anchor != YAML::NullAnchor)
      source_->fail(place(mark), "an anchor ('&name') stands here",
                    "Write the value out where it is needed: anchors are not read.");
  }
  void no_tag(const YAML::Mark& mark, const std::string& tag) const {
    if (!tag.empty() && tag != "?" && tag != "!")
      source_->fail(place(mark), "a type tag ('!name') stands here",
                    "Write the plain value: type tags are not read.");
  }

  std::shared_ptr<Impl> node(const YAML::Mark& mark, Kind kind) const {
    auto impl = std::make_shared<Impl>();
    impl->kind = kind;
    impl->place = place(mark);
    impl->source = source_;
    return impl;
  }

  void open(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, Kind kind) {
    no_anchor(mark, anchor);
    no_tag(mark, tag);
    auto impl = node(mark, kind);
    if (waits_for_key())
      source_->fail(impl->place, std::string(words_for(kind)) + " stands where a key should",
                    "A key is a plain word or name, followed by ':'.");
    impl->path = child_path();
    open_.push_back({impl, nullptr});
  }
  void close() {
    auto done = open_.back();
    open_.pop_back();
    place_in_parent(done.impl);
  }
  void take(const std::shared_ptr<Impl>& impl) {
    if (waits_for_key()) {
      take_key(impl);
      return;
    }
    impl->path = child_path();
    // yaml-cpp marks an absent value where the next thing starts.
    if (impl->kind == Kind::null && !open_.empty() && open_.back().key)
      impl->place = open_.back().key->place;
    place_in_parent(impl);
  }

  bool waits_for_key() const {
    return !open_.empty() && open_.back().impl->kind == Kind::map && !open_.back().key;
  }
  std::string child_path() const {
    if (open_.empty()) return {};
    const Open& parent = open_.back();
    if (!parent.key) return parent.impl->path;
    return parent.impl->path.empty() ? parent.key->text
                                     : parent.impl->path + " > " + parent.key->text;
  }

  void take_key(const std::shared_ptr<Impl>& key) {
    Open& map = open_.back();
    if (key->kind == Kind::null || key->text.empty())
      source_->fail(key->place, "a key is missing before ':'",
                    "A key is a plain word or name, followed by ':'.");
    key->path = map.impl->path;
    for (const auto& [other, value] : map.impl->entries) {
      if (other.text() != key->text) continue;
      const Place first = other.place();
      const std::string line = source_->line(first.line);
      source_->fail(key->place, "the key " + in_quotes(key->text) + " stands here a second time",
                    "It stands first at line " + std::to_string(first.line) + ", column " +
                        std::to_string(first.column) + ": " + trimmed(line) +
                        "\n  Keep one of the two.");
    }
    map.key = key;
  }
  void place_in_parent(const std::shared_ptr<Impl>& impl) {
    if (open_.empty()) {
      root_ = impl;
      return;
    }
    Open& parent = open_.back();
    if (parent.impl->kind == Kind::list) {
      parent.impl->items.push_back(Impl::wrap(impl));
      return;
    }
    parent.impl->entries.emplace_back(Impl::wrap(parent.key), Impl::wrap(impl));
    parent.key = nullptr;
  }

  std::shared_ptr<const SourceText> source_;
  std::vector<Open> open_;
  std::shared_ptr<Impl> root_;
  int documents_ = 0;
};

std::shared_ptr<Impl> parse(const std::shared_ptr<const SourceText>& source) {
  source->check();
  std::istringstream stream(source->text());
  Builder builder(source);
  try {
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const YAML::Exception& error) {
    // yaml-cpp's own wording follows ours: it names what of the notation is broken.
    source->fail(
        source->place(error.mark.line, error.mark.column),
        "this is not well-formed YAML: " + error.msg,
        "Check brackets, quotes, ': ' after each key, and the spaces the line starts with.");
  }
  if (!builder.root() || builder.root()->kind == Kind::null)
    source->fail(Place{source->name(), 0, 0}, "the file holds nothing",
                 "Fill it in, or start from one that 'barwright new' writes.");
  return builder.root();
}

}  // namespace

Node::operator bool() const { return impl_ != nullptr; }
Place Node::place() const { return impl_->place; }
bool Node::is_map() const { return impl_->kind == Kind::map; }
bool Node::is_list() const { return impl_->kind == Kind::list; }
bool Node::is_scalar() const { return impl_->kind == Kind::scalar; }
bool Node::is_null() const { return impl_->kind == Kind::null; }
bool Node::is_quoted() const { return impl_->quoted; }
std::string Node::path() const { return impl_->path; }

void Node::fail(const std::string& message, const std::string& remedy) const {
  fail_at(0, message, remedy);
}

void Node::fail_at(std::size_t offset, const std::string& message,
                   const std::string& remedy) const {
  Place place = impl_->place;
  const std::string line = impl_->source->line(place.line);
  // Only a scalar that stands on its line as it reads can be pointed into.
  if (offset > 0 && offset <= impl_->text.size() && place.column > 0) {
    const std::size_t start = static_cast<std::size_t>(place.column) - (impl_->quoted ? 0 : 1);
    if (start <= line.size() && line.compare(start, impl_->text.size(), impl_->text) == 0)
      place.column = static_cast<int>(start + offset) + 1;
  }
  InputError error(place, message, remedy, line);
  if (!impl_->path.empty()) error.add_context("in " + impl_->path);
  throw error;
}

void Node::only(const std::vector<std::string>& allowed) const {
  for (const auto& [key, value] : entries()) {
    const std::string name = key.text();
    if (std::find(allowed.begin(), allowed.end(), name) != allowed.end()) continue;
    key.fail("unknown key " + in_quotes(name), nearest_and_known(name, allowed));
  }
}
void Node::only(std::initializer_list<std::string_view> allowed) const {
  only(std::vector<std::string>(allowed.begin(), allowed.end()));
}

bool Node::has(std::string_view key) const { return get(key).has_value(); }

std::optional<Node> Node::get(std::string_view key) const {
  for (const auto& [name, value] : entries())
    if (name.impl_->text == key) return value;
  return std::nullopt;
}

Node Node::need(std::string_view key) const {
  auto value = get(key);
  if (!value) {
    std::vector<std::string> present;
    for (const auto& [name, other] : impl_->entries) present.push_back(name.text());
    const std::string near = nearest_name(key, present);
    fail("missing key " + in_quotes(key),
         near.empty() ? "Add '" + std::string(key) + ": ...' to this block."
                      : "Here stands " + in_quotes(near) + ": is " + in_quotes(key) + " meant?");
  }
  if (value->is_null())
    value->fail(in_quotes(key) + " has no value",
                "Write the value after '" + std::string(key) + ":'.");
  return *value;
}

std::vector<std::pair<Node, Node>> Node::entries() const {
  if (!is_map())
    fail(std::string("read ") + words_for(impl_->kind) + ", wanted a block of keys",
         "Write 'key: value' lines below it, or {key: value, ...} on one line.");
  return impl_->entries;
}

std::vector<Node> Node::items() const {
  if (!is_list())
    fail(std::string("read ") + words_for(impl_->kind) + ", wanted a list",
         "Write [first, second, ...], or one '- item' per line.");
  return impl_->items;
}

std::string Node::text() const {
  if (!is_scalar())
    fail(std::string("read ") + words_for(impl_->kind) + ", wanted a single value",
         "Write one word or figure here.");
  return impl_->text;
}

double Node::number() const {
  const std::string written = text();
  std::string_view body = trimmed_view(written);
  if (body.starts_with('+') && !body.starts_with("+-")) body.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(body.data(), body.data() + body.size(), value);
  if (is_nan_or_infinity(written))
    fail(in_quotes(written) + " is not a number that can be used",
         "Write a plain number, such as 5.");
  if (error == std::errc::result_out_of_range)
    fail(in_quotes(written) + " is too large or too small", "Write a plain number, such as 5.");
  if (error != std::errc() || end != body.data() + body.size())
    fail(in_quotes(written) + " is not a number",
         "Write a plain number without a unit, such as 5.");
  return value;
}

long Node::whole() const {
  const double value = number();
  if (value != std::floor(value) || std::abs(value) > 1e15)
    fail(in_quotes(impl_->text) + " is not a whole number", "Write a whole number, such as 5.");
  return static_cast<long>(value);
}

bool Node::yes_no() const {
  const std::string written = folded(text());
  if (written == "yes" || written == "true") return true;
  if (written == "no" || written == "false") return false;
  fail(in_quotes(impl_->text) + " is neither yes nor no", "Write yes or no.");
}

core::Quantity Node::quantity() const {
  const std::string written = text();
  if (is_nan_or_infinity(written))
    fail(in_quotes(written) + " is not a number that can be used",
         "Write a number and its unit, such as 500 g.");
  try {
    return core::parse_quantity(written);
  } catch (const core::UnitError& error) {
    fail(error.what(), error.remedy());
  }
}

namespace {
template <typename Convert>
double converted(const Node& node, Convert convert) {
  const core::Quantity quantity = node.quantity();
  try {
    return convert(quantity);
  } catch (const core::UnitError& error) {
    node.fail(error.what(), error.remedy());
  }
}
}  // namespace

double Node::grams() const {
  return converted(*this, [](const core::Quantity& q) { return core::to_grams(q); });
}
double Node::fraction() const { return converted(*this, core::to_fraction); }
double Node::celsius() const { return converted(*this, core::to_celsius); }
double Node::millimetres() const { return converted(*this, core::to_millimetres); }
double Node::hours() const { return converted(*this, core::to_hours); }

Document Document::from_text(const std::string& text, const std::string& name) {
  Document document;
  document.root_ = Impl::wrap(parse(std::make_shared<SourceText>(text, name)));
  return document;
}

Document Document::from_file(const std::string& path) {
  const auto refuse = [&](const std::string& message, const std::string& remedy) {
    throw InputError(Place{path, 0, 0}, message, remedy);
  };
  std::error_code ignored;
  const auto status = std::filesystem::status(path, ignored);
  if (!std::filesystem::exists(status))
    refuse("there is no such file", "Check the name and the folder.");
  if (std::filesystem::is_directory(status))
    refuse("this is a folder, not a file", "Name a file inside it.");
  std::ifstream stream(path, std::ios::binary);
  if (!stream) refuse("the file cannot be opened", "Check who may read it.");
  std::string text;
  constexpr std::size_t kMostBytes = 8u << 20;  // a brief is a page; this stops a wrong file early
  std::vector<char> buffer(1u << 16);
  while (stream.read(buffer.data(), static_cast<std::streamsize>(buffer.size())),
         stream.gcount() > 0) {
    text.append(buffer.data(), static_cast<std::size_t>(stream.gcount()));
    if (text.size() > kMostBytes) refuse("the file is larger than 8 MB", "Name a text file.");
  }
  if (stream.bad()) refuse("the file cannot be read to its end", "Check the disk it is on.");
  return from_text(text, path);
}

}  // namespace barwright::oils::yaml
