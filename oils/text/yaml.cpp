#include "oils/text/yaml.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "core/units/faults.hpp"
#include "core/units/number_text.hpp"
#include "oils/files/text_file.hpp"
#include "oils/text/names.hpp"
#include "oils/text/newer_format.hpp"
#include "oils/text/yaml_parse.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils::yaml {

using core::InputError;
using core::Place;

/// A file that was parsed, now or when the program was built.
struct Impl {
  Tree tree;
  std::string name;
  std::string_view text;  // as it stood, for errors
  std::string own_text;   // of a file parsed now
  ParsedTree own_tree;

  const TreeNode& at(std::uint32_t index) const { return tree.nodes[index]; }
  std::string_view words(std::uint32_t index) const {
    return tree.words.substr(at(index).text_at, at(index).text_size);
  }
};

namespace {

constexpr std::string_view kFormatKey = "format";

// A file of a newer program is not guessed at.
void check_format(const Node& root) {
  if (!root.is_map()) return;
  const auto format = root.get(kFormatKey);
  if (!format) return;
  const std::string remedy = "Write 'format: 1', or leave the line out.";
  if (!format->is_scalar()) format->fail("the format of a file is a number", remedy);
  const double number = format->number();
  if (number > kFormat && number == std::floor(number))
    format->fail(newer_format("file", format->text()), kNewerFormatRemedy);
  if (!(number >= 1) || number != std::floor(number))
    format->fail("there is no format " + format->text(), remedy);
}

std::string in_quotes(std::string_view text) { return "'" + std::string(text) + "'"; }

}  // namespace

Node::operator bool() const { return impl_ != nullptr; }
Place Node::place() const {
  const TreeNode& here = impl_->at(at_);
  return {impl_->name, static_cast<int>(here.line), static_cast<int>(here.column)};
}
bool Node::is_map() const { return impl_->at(at_).kind == Kind::map; }
bool Node::is_list() const { return impl_->at(at_).kind == Kind::list; }
bool Node::is_scalar() const { return impl_->at(at_).kind == Kind::scalar; }
bool Node::is_null() const { return impl_->at(at_).kind == Kind::null; }
bool Node::is_quoted() const { return impl_->at(at_).quoted != 0; }

std::string Node::path() const {
  std::string path;
  for (std::uint32_t at = at_; at != kNone; at = impl_->at(at).parent) {
    const std::uint32_t key = impl_->at(at).key;
    if (key == kNone) continue;
    path = std::string(impl_->words(key)) + (path.empty() ? "" : " > " + path);
  }
  return path;
}

void Node::fail(const std::string& message, const core::Remedy& remedy) const {
  fail_at(0, message, remedy);
}

void Node::fail_at(std::size_t offset, const std::string& message,
                   const core::Remedy& remedy) const {
  Place where = place();
  const std::string line = SourceText(std::string(impl_->text), impl_->name).line(where.line);
  const std::string_view words = impl_->words(at_);
  // Only a scalar that stands on its line as it reads can be pointed into.
  if (offset > 0 && offset <= words.size() && where.column > 0) {
    const std::size_t start = static_cast<std::size_t>(where.column) - (is_quoted() ? 0 : 1);
    if (start <= line.size() && line.compare(start, words.size(), words) == 0)
      where.column = static_cast<int>(start + offset) + 1;
  }
  InputError error(where, message, remedy, line);
  const std::string way = path();
  if (!way.empty()) error.set_way(way);
  throw error;
}

template <typename Allowed>
void Node::refuse_others(const Allowed& allowed) const {
  need_map();
  core::Faults faults;
  for (std::uint32_t key = impl_->at(at_).first; key != kNone;
       key = impl_->at(impl_->at(key).next).next) {
    const std::string_view name = impl_->words(key);
    if (at_ == 0 && name == kFormatKey) continue;  // any file may state it
    if (std::find(allowed.begin(), allowed.end(), name) != allowed.end()) continue;
    faults.of([&] {
      Node(impl_, key)
          .fail("unknown key " + in_quotes(name),
                nearest_and_known(name, std::vector<std::string>(allowed.begin(), allowed.end())));
    });
  }
  faults.done();
}
void Node::only(const std::vector<std::string>& allowed) const { refuse_others(allowed); }
void Node::only(std::initializer_list<std::string_view> allowed) const { refuse_others(allowed); }

bool Node::has(std::string_view key) const { return get(key).has_value(); }

std::optional<Node> Node::get(std::string_view key) const {
  need_map();
  for (std::uint32_t at = impl_->at(at_).first; at != kNone;
       at = impl_->at(impl_->at(at).next).next)
    if (impl_->words(at) == key) return Node(impl_, impl_->at(at).next);
  return std::nullopt;
}

Node Node::need(std::string_view key) const {
  auto value = get(key);
  if (!value) {
    std::vector<std::string> present;
    for (const auto& [name, other] : entries()) present.push_back(name.text());
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

void Node::need_map() const {
  if (!is_map())
    fail(std::string("read ") + words_for(impl_->at(at_).kind) + ", wanted a block of keys",
         "Write 'key: value' lines below it, or {key: value, ...} on one line.");
}

std::vector<std::pair<Node, Node>> Node::entries() const {
  need_map();
  std::vector<std::pair<Node, Node>> out;
  for (std::uint32_t key = impl_->at(at_).first; key != kNone;) {
    const std::uint32_t value = impl_->at(key).next;
    out.emplace_back(Node(impl_, key), Node(impl_, value));
    key = impl_->at(value).next;
  }
  return out;
}

std::vector<Node> Node::items() const {
  if (!is_list())
    fail(std::string("read ") + words_for(impl_->at(at_).kind) + ", wanted a list",
         "Write [first, second, ...], or one '- item' per line.");
  std::vector<Node> out;
  for (std::uint32_t at = impl_->at(at_).first; at != kNone; at = impl_->at(at).next)
    out.push_back(Node(impl_, at));
  return out;
}

std::string Node::text() const {
  if (!is_scalar())
    fail(std::string("read ") + words_for(impl_->at(at_).kind) + ", wanted a single value",
         "Write one word or figure here.");
  return std::string(impl_->words(at_));
}

double Node::number() const {
  const std::string written = text();
  std::string_view body = trimmed_view(written);
  if (body.starts_with('+') && !body.starts_with("+-")) body.remove_prefix(1);
  double value = 0;
  const auto [end, error] = core::read_number(body.data(), body.data() + body.size(), value);
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
    fail(in_quotes(impl_->words(at_)) + " is not a whole number",
         "Write a whole number, such as 5.");
  return static_cast<long>(value);
}

bool Node::yes_no() const {
  const std::string written = folded(text());
  if (written == "yes" || written == "true") return true;
  if (written == "no" || written == "false") return false;
  fail(in_quotes(impl_->words(at_)) + " is neither yes nor no", "Write yes or no.");
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
  const SourceText source(text, name);
  auto impl = std::make_shared<Impl>();
  impl->own_tree = parse(source);
  impl->own_text = source.text();
  impl->tree = {impl->own_tree.nodes, impl->own_tree.words};
  impl->text = impl->own_text;
  impl->name = name;
  Document document;
  document.root_ = Node(std::move(impl), 0);
  check_format(document.root_);
  return document;
}

Document Document::from_tree(const Tree& tree, std::string_view text, const std::string& name) {
  auto impl = std::make_shared<Impl>();
  impl->tree = tree;
  impl->text = text;
  impl->name = name;
  Document document;
  document.root_ = Node(std::move(impl), 0);
  return document;
}

Tree Document::tree() const { return root_.impl_->tree; }

Document Document::from_file(const std::string& path) {
  return from_text(read_text_file(path), path);
}

}  // namespace barwright::oils::yaml
