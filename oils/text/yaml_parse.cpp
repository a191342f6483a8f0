#include "oils/text/yaml_parse.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <sstream>
#include <string>
#include <unordered_map>
#include <utility>

#include "core/units/plain_text.hpp"

namespace barwright::oils::yaml {

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

namespace {

/// Builds the tree from yaml-cpp's events: marks stay exact, and a second key of the same name is
/// seen, which yaml-cpp's own nodes keep in silence.
class Builder : public YAML::EventHandler {
 public:
  explicit Builder(const SourceText& source) : source_(source) {}

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (documents_++ > 0)
      source_.fail(place(mark), "a second document starts here",
                   "Keep one document per file: remove the '---' line or split the file.");
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    no_anchor(mark, anchor);
    take(node(mark, Kind::null), {});
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    source_.fail(place(mark), "an alias ('*name') stands here",
                 "Write the value out again: aliases are not read.");
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    no_anchor(mark, anchor);
    no_tag(mark, tag);
    TreeNode scalar = node(mark, Kind::scalar);
    scalar.quoted = tag == "!" ? 1 : 0;
    // In quotes any sign can be written out: "\\e".
    if (const auto unfit = core::first_unfit(value))
      source_.fail(place(mark), "what stands here is no plain text: " + unfit->message(),
                   unfit->remedy);
    // yaml-cpp takes the end of the file for the end of a quote.
    if (scalar.quoted != 0 && !source_.quote_closes(place(mark)))
      source_.fail(place(mark), "a quote opens here and never closes",
                   "Close it, or leave both quotes out.");
    take(scalar, value);
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

  ParsedTree take_tree() { return std::move(tree_); }

 private:
  struct Open {
    std::uint32_t at = kNone;
    std::uint32_t last = kNone;                           // what it holds so far ends with this
    std::uint32_t key = kNone;                            // a key that waits for its value
    std::unordered_map<std::string, std::uint32_t> keys;  // of a block, so far
  };

  core::Place place(const YAML::Mark& mark) const { return source_.place(mark.line, mark.column); }
  core::Place place(const TreeNode& node) const {
    return {source_.name(), static_cast<int>(node.line), static_cast<int>(node.column)};
  }
  void no_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) const {
    if (anchor != YAML::NullAnchor)
      source_.fail(place(mark), "an anchor ('&name') stands here",
                   "Write the value out where it is needed: anchors are not read.");
  }
  void no_tag(const YAML::Mark& mark, const std::string& tag) const {
    if (!tag.empty() && tag != "?" && tag != "!")
      source_.fail(place(mark), "a type tag ('!name') stands here",
                   "Write the plain value: type tags are not read.");
  }

  TreeNode node(const YAML::Mark& mark, Kind kind) const {
    const core::Place where = place(mark);
    TreeNode out;
    out.kind = kind;
    out.line = static_cast<std::uint32_t>(where.line);
    out.column = static_cast<std::uint32_t>(where.column);
    return out;
  }

  bool waits_for_key() const {
    return !open_.empty() && tree_.nodes[open_.back().at].kind == Kind::map &&
           open_.back().key == kNone;
  }

  // Puts a node behind what its parent holds so far.
  std::uint32_t add(TreeNode one, const std::string& value) {
    const auto at = static_cast<std::uint32_t>(tree_.nodes.size());
    one.text_at = static_cast<std::uint32_t>(tree_.words.size());
    one.text_size = static_cast<std::uint32_t>(value.size());
    tree_.words += value;
    if (!open_.empty()) {
      Open& parent = open_.back();
      one.parent = parent.at;
      one.key = parent.key;
      (parent.last == kNone ? tree_.nodes[parent.at].first : tree_.nodes[parent.last].next) = at;
      parent.last = at;
      parent.key = kNone;
    }
    tree_.nodes.push_back(one);
    return at;
  }

  void open(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, Kind kind) {
    no_anchor(mark, anchor);
    no_tag(mark, tag);
    if (waits_for_key())
      source_.fail(place(mark), std::string(words_for(kind)) + " stands where a key should",
                   "A key is a plain word or name, followed by ':'.");
    Open opened;
    opened.at = add(node(mark, kind), {});
    open_.push_back(std::move(opened));
  }
  void close() { open_.pop_back(); }

  void take(TreeNode one, const std::string& value) {
    if (waits_for_key()) {
      take_key(one, value);
      return;
    }
    // yaml-cpp marks an absent value where the next thing starts.
    if (one.kind == Kind::null && !open_.empty() && open_.back().key != kNone) {
      one.line = tree_.nodes[open_.back().key].line;
      one.column = tree_.nodes[open_.back().key].column;
    }
    add(one, value);
  }

  void take_key(const TreeNode& key, const std::string& value) {
    if (key.kind == Kind::null || value.empty())
      source_.fail(place(key), "a key is missing before ':'",
                   "A key is a plain word or name, followed by ':'.");
    const auto next = static_cast<std::uint32_t>(tree_.nodes.size());
    const auto [other, fresh] = open_.back().keys.emplace(value, next);
    if (!fresh) {
      const TreeNode& first = tree_.nodes[other->second];
      source_.fail(place(key), "the key '" + value + "' stands here a second time",
                   "It stands first at line " + std::to_string(first.line) + ", column " +
                       std::to_string(first.column) + ": " +
                       trimmed(source_.line(static_cast<int>(first.line))) +
                       "\n  Keep one of the two.");
    }
    const std::uint32_t at = add(key, value);
    open_.back().key = at;
  }

  const SourceText& source_;
  std::vector<Open> open_;
  ParsedTree tree_;
  int documents_ = 0;
};

}  // namespace

ParsedTree parse(const SourceText& source) {
  source.check();
  std::istringstream stream(source.text());
  Builder builder(source);
  try {
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const YAML::Exception& error) {
    // yaml-cpp's own wording follows ours: it names what of the notation is broken.
    source.fail(
        source.place(error.mark.line, error.mark.column),
        "this is not well-formed YAML: " + error.msg,
        "Check brackets, quotes, ': ' after each key, and the spaces the line starts with.");
  }
  ParsedTree tree = builder.take_tree();
  if (tree.nodes.empty() || tree.nodes.front().kind == Kind::null)
    source.fail({source.name(), 0, 0}, "the file holds nothing",
                "Fill it in, or start from one that 'barwright new' writes.");
  return tree;
}

}  // namespace barwright::oils::yaml
