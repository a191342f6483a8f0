#include "targets/brief/spoken_wish.hpp"

#include <algorithm>

#include "oils/text/yaml_text.hpp"
#include "targets/brief/wish_phrase.hpp"
#include "targets/brief/wish_reader.hpp"
#include "targets/brief/wish_subject.hpp"
#include "targets/files/oil_rules_reader.hpp"
#include "targets/model/constants.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Document;
using yaml::Node;

namespace {

struct PropertyWord {
  std::string property;
  std::vector<std::string> more, less, as, most;
};

struct WordBook {
  std::vector<PropertyWord> properties;
  std::vector<std::string> cheaper, cheapest;
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
    root.only({"words", "cheaper", "cheapest"});
    for (const Node& node : root.need("words").items()) {
      node.only({"property", "more", "less", "as", "most"});
      out.properties.push_back({node.need("property").text(), texts(node.need("more")),
                                texts(node.need("less")), texts(node.need("as")),
                                texts(node.need("most"))});
    }
    out.cheaper = texts(root.need("cheaper"));
    out.cheapest = texts(root.need("cheapest"));
    return out;
  }();
  return all;
}

bool has(const std::vector<std::string>& words, const std::string& text) {
  return std::find(words.begin(), words.end(), text) != words.end();
}

bool take_front(std::string& text, std::string_view word) {
  if (!text.starts_with(word)) return false;
  text.erase(0, word.size());
  return true;
}

// What stands before "more" or "less": a size, or that there is to be no such thing.
std::string front_of(std::string& text) {
  for (const std::string_view no : {"not clearly ", "not much ", "no ", "not "})
    if (take_front(text, no)) return no == "not " ? "no " : std::string(no);
  for (const std::string_view size : {"clearly ", "much ", "slightly ", "a little "})
    if (take_front(text, size)) return std::string(size);
  return "clearly ";
}

/// A spoken wish in the words of a brief: "hardness", "clearly more"; or a goal.
struct Meant {
  std::string subject, phrase, goal;
  bool cheaper = false;
};

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
    const std::string front = front_of(rest);
    for (const std::string than : {"", " than now"}) {
      if (!rest.ends_with(than)) continue;
      const std::string bare = rest.substr(0, rest.size() - than.size());
      if (has(word.more, bare)) return Meant{word.property, front + "more", {}};
      if (has(word.less, bare)) return Meant{word.property, front + "less", {}};
    }
  }
  return std::nullopt;
}

bool is_subject(const Node& node, const std::string& text) {
  try {
    read_subject(node, text, 0);
    return true;
  } catch (const core::InputError&) {
    return false;
  }
}

// "more lather", "no less lather", "most lather", "lather no less", "hardness at least 5 above".
std::optional<Meant> with_a_subject(const Node& node, const std::string& piece) {
  for (const std::string_view most : {"most ", "least "}) {
    std::string rest = piece;
    if (take_front(rest, most) && is_subject(node, rest)) return Meant{{}, {}, piece};
  }
  std::string rest = piece;
  const std::string front = front_of(rest);
  for (const std::string way : {"more", "less"}) {
    std::string subject = rest;
    if (take_front(subject, way + " ") && is_subject(node, subject))
      return Meant{subject, front + way, {}};
  }
  for (std::size_t end = piece.rfind(' '); end != std::string::npos && end > 0;
       end = piece.rfind(' ', end - 1)) {
    std::string subject = piece.substr(0, end);
    std::string phrase = piece.substr(end + 1);
    if (subject.ends_with(':')) subject.pop_back();
    if (!is_subject(node, subject)) continue;
    if (phrase == "more" || phrase == "less") phrase = "clearly " + phrase;
    return Meant{subject, phrase, {}};
  }
  return std::nullopt;
}

constexpr const char* kForms =
    "Write for instance 'harder', 'much milder', 'no softer', 'lather no less', 'hardness at least "
    "5 above', 'longer lasting', 'cheapest' or 'without palm'.";

class Speech {
 public:
  Speech(const Node& node, const Reading& reading, std::vector<Wish>& wishes,
         std::vector<Goal>& goals, OilRules& rules)
      : node_(node), reading_(reading), wishes_(wishes), goals_(goals), rules_(rules) {}

  void piece(const std::string& said) {
    const std::string folded = yaml::folded(said);
    if (folded.empty()) node_.fail("a wish is empty", kForms);
    std::string out = folded;
    if (take_front(out, "without ") || take_front(out, "free of ")) return bar(said, out);
    if (folded.ends_with(" free")) return bar(said, folded.substr(0, folded.size() - 5));
    if (folded == "vegan") return bar(said, "animal");
    std::optional<Meant> meant = by_the_book(folded);
    if (!meant) meant = with_a_subject(node_, yaml::trimmed(said));
    if (!meant) node_.fail("cannot read the wish '" + said + "'", kForms);
    if (meant->cheaper) return cheaper(said);
    if (!meant->goal.empty()) return goal(said, meant->goal);
    wish(said, *meant);
  }

 private:
  static Node scalar(const std::string& text, const std::string& name) {
    return Document::from_text("{\"it\": \"" + text + "\"}", name).root().need("it");
  }

  Written words(const std::string& said, const std::string& read) const {
    const bool same = yaml::folded(said) == yaml::folded(read);
    return {same ? read : said + " (" + read + ")", node_.place(), node_};
  }

  void wish(const std::string& said, const Meant& meant) {
    try {
      const Node phrase = scalar(meant.phrase, node_.place().file);
      Subject subject = read_subject(node_, meant.subject, 0);
      for (Wish& one : read_wish_phrases(meant.subject, phrase, subject)) {
        one.written = words(said, one.written.text);
        wishes_.push_back(std::move(one));
      }
    } catch (const core::InputError& error) {
      node_.fail("cannot read the wish '" + said + "': " + error.message(), kForms);
    }
  }

  void goal(const std::string& said, const std::string& text) {
    for (Goal& one : read_goals(scalar(text, node_.place().file), reading_)) {
      one.written = words(said, text);
      goals_.push_back(std::move(one));
    }
  }

  void cheaper(const std::string& said) {
    Wish wish;
    wish.subject.kind = Subject::Kind::oil_cost;
    wish.subject.name = "oil cost";
    wish.compared = true;
    wish.high = Bound{};
    wish.written = words(said, "oil cost: no more");
    wishes_.push_back(std::move(wish));
    if (goals_.empty()) goal(said, "cheapest");
  }

  void bar(const std::string& said, const std::string& what) {
    try {
      read_barred(scalar(what, node_.place().file), reading_, rules_);
    } catch (const core::InputError& error) {
      node_.fail("cannot read the wish '" + said + "': " + error.message(), kForms);
    }
    rules_.barred.back().written = {what, node_.place(), node_};
  }

  const Node& node_;
  const Reading& reading_;
  std::vector<Wish>& wishes_;
  std::vector<Goal>& goals_;
  OilRules& rules_;
};

// A level of sureness after a comma belongs to the wish before it.
bool is_level(const std::string& piece) {
  return piece.starts_with("likely") || piece == "typical" || piece == "worst-case";
}

std::vector<std::string> pieces(const std::string& text) {
  std::vector<std::string> out;
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    const bool comma = i + 1 < text.size() && text[i] == ',' && text[i + 1] == ' ';
    if (i < text.size() && text[i] != ';' && !comma) continue;
    const std::string piece = yaml::trimmed(std::string_view(text).substr(start, i - start));
    start = i + 1;
    if (is_level(piece) && !out.empty()) {
      out.back() += ", " + piece;
    } else if (!piece.empty() || i < text.size()) {
      out.push_back(piece);
    }
  }
  return out;
}

}  // namespace

void read_spoken(const Node& node, const Reading& reading, std::vector<Wish>& wishes,
                 std::vector<Goal>& goals, OilRules& rules) {
  core::Faults::each(list_of(node), [&](const Node& item) {
    core::Faults::each(pieces(plain_text(item)), [&](const std::string& piece) {
      Speech(item, reading, wishes, goals, rules).piece(piece);
    });
  });
}

}  // namespace barwright::targets
