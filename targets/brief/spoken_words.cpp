#include "targets/brief/spoken_words.hpp"

#include <algorithm>

#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/model/constants.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Document;
using yaml::Node;

bool take_front(std::string& text, std::string_view word) {
  if (!text.starts_with(word)) return false;
  text.erase(0, word.size());
  return true;
}

std::string take_size(std::string& text) {
  for (const std::string_view no : {"not clearly ", "not much ", "no ", "not "})
    if (take_front(text, no)) return no == "not " ? "no " : std::string(no);
  for (const std::string_view size : {"clearly ", "much ", "slightly ", "a little "})
    if (take_front(text, size)) return std::string(size);
  return "clearly ";
}

namespace {

struct PropertyWord {
  std::string property;
  std::vector<std::string> more, less, as, most;
};

struct WordBook {
  std::vector<PropertyWord> properties;
  std::vector<std::string> cheaper, cheapest;
  std::vector<std::string> before, after;  ///< words that say nothing
};

std::vector<std::string> texts(const Node& node) {
  std::vector<std::string> out;
  for (const Node& item : node.items()) out.push_back(yaml::folded(item.text()));
  return out;
}

const WordBook& book() {
  static const WordBook all = [] {
    WordBook out;
    const auto document = Document::from_text(embedded_text("wish_words.yaml"), "wish_words.yaml");
    const Node root = document.root();
    root.only({"words", "cheaper", "cheapest", "before", "after"});
    for (const Node& node : root.need("words").items()) {
      node.only({"property", "more", "less", "as", "most"});
      out.properties.push_back({node.need("property").text(), texts(node.need("more")),
                                texts(node.need("less")), texts(node.need("as")),
                                texts(node.need("most"))});
    }
    out.cheaper = texts(root.need("cheaper"));
    out.cheapest = texts(root.need("cheapest"));
    out.before = texts(root.need("before"));
    out.after = texts(root.need("after"));
    return out;
  }();
  return all;
}

bool has(const std::vector<std::string>& words, const std::string& text) {
  return std::find(words.begin(), words.end(), text) != words.end();
}

std::optional<Meant> by_the_book(const std::string& piece) {
  if (has(book().cheapest, piece)) return Meant{{}, {}, "cheapest"};
  if (has(book().cheaper, piece)) return Meant{{}, {}, {}, true};
  for (const auto& word : book().properties) {
    if (has(word.most, piece)) return Meant{{}, {}, "most " + word.property};
    for (const std::string end : {"", " now"}) {
      if (!piece.ends_with(end)) continue;
      const std::string as = piece.substr(0, piece.size() - end.size());
      const bool now = end.empty() || as.ends_with(" as");
      if (now && has(word.as, end.empty() ? as : as.substr(0, as.size() - 3)))
        return Meant{word.property, "no less", {}};
    }
    std::string rest = piece;
    const std::string front = take_size(rest);
    for (const std::string than : {"", " than now"}) {
      if (!rest.ends_with(than)) continue;
      const std::string bare = rest.substr(0, rest.size() - than.size());
      if (has(word.more, bare)) return Meant{word.property, front + "more", {}};
      if (has(word.less, bare)) return Meant{word.property, front + "less", {}};
    }
  }
  return std::nullopt;
}

// "a harder bar" -> "harder". Nothing where no such word stands around it.
std::optional<std::string> stripped(std::string piece) {
  const std::size_t all = piece.size();
  for (bool more = true; more;) {
    more = false;
    for (const auto& word : book().before) more = more || take_front(piece, word + " ");
  }
  for (const auto& word : book().after)
    if (piece.ends_with(" " + word)) piece.resize(piece.size() - word.size() - 1);
  if (piece.size() == all) return std::nullopt;
  return piece;
}

}  // namespace

std::optional<Meant> meant_by(const std::string& piece) {
  if (auto meant = by_the_book(piece)) return meant;
  const auto bare = stripped(piece);
  return bare ? by_the_book(*bare) : std::nullopt;
}

std::string nearest_spoken(const std::string& piece) {
  std::vector<std::string> known = book().cheapest;
  known.insert(known.end(), book().cheaper.begin(), book().cheaper.end());
  for (const auto& word : book().properties)
    for (const auto* words : {&word.more, &word.less, &word.as, &word.most})
      known.insert(known.end(), words->begin(), words->end());
  const std::string near = yaml::nearest_name(piece, known);
  if (!near.empty()) return near;
  for (const auto& word : known)
    if (piece.size() > 3 && word.starts_with(piece)) return word;
  return {};
}

}  // namespace barwright::targets
