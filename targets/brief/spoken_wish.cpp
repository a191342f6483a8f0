#include "targets/brief/spoken_wish.hpp"

#include <algorithm>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/brief/spoken_words.hpp"
#include "targets/brief/wish_phrase.hpp"
#include "targets/brief/wish_reader.hpp"
#include "targets/brief/wish_subject.hpp"
#include "targets/files/oil_rules_reader.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Document;
using yaml::Node;

namespace {

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
  const std::string front = take_size(rest);
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
  Speech(const Node& node, const Reading& reading, Spoken& out, const std::optional<Yardstick>& bar)
      : node_(node), reading_(reading), out_(out), bar_(bar) {}

  void piece(const std::string& said) {
    const std::string folded = yaml::folded(said);
    if (folded.empty()) node_.fail("a wish is empty", kForms);
    std::string out = folded;
    if (take_front(out, "without ") || take_front(out, "free of ")) return bar(said, out);
    if (folded.ends_with(" free")) return bar(said, folded.substr(0, folded.size() - 5));
    if (folded == "vegan") return bar(said, "animal");
    for (const std::string_view best : {"use up ", "fewest oils", "nearest in feel"})
      if (folded.starts_with(best)) return goal(said, folded);
    std::optional<Meant> meant = meant_by(folded);
    if (!meant) meant = with_a_subject(node_, yaml::trimmed(said));
    if (!meant && oil(said, folded)) return;
    if (!meant && is_subject(node_, folded))
      node_.fail("'" + said + "' does not say whether more or less of it",
                 "Write 'more " + folded + "', '" + folded + " no less' or 'most " + folded + "'.");
    if (!meant)
      node_.fail("cannot read the wish '" + said + "'",
                 yaml::did_you_mean(nearest_spoken(folded), kForms));
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
        out_.wishes.push_back(std::move(one));
      }
    } catch (const core::InputError& error) {
      node_.fail("cannot read the wish '" + said + "': " + error.message(), kForms);
    }
  }

  void goal(const std::string& said, const std::string& text) {
    for (Goal& one : read_goals(scalar(text, node_.place().file), reading_)) {
      one.written = words(said, text);
      out_.goals.push_back(std::move(one));
    }
  }

  void cheaper(const std::string& said) {
    Wish wish;
    wish.subject.kind = Subject::Kind::oil_cost;
    wish.subject.name = "oil cost";
    wish.compared = true;
    wish.high = Bound{};
    wish.written = words(said, "oil cost: no more");
    out_.wishes.push_back(std::move(wish));
    if (out_.goals.empty()) goal(said, "cheapest");
  }

  void bar(const std::string& said, const std::string& what) {
    try {
      read_barred(scalar(what, node_.place().file), reading_, out_.rules);
    } catch (const core::InputError& error) {
      node_.fail("cannot read the wish '" + said + "': " + error.message(), kForms);
    }
    out_.rules.barred.back().written = {what, node_.place(), node_};
  }

  // "less coconut", "more olive", "no more palm": against the blend of the bar in the hand. "no
  // coconut" bars it. Says whether the piece spoke of an oil.
  bool oil(const std::string& said, const std::string& folded) {
    std::string rest = folded;
    const std::string front = take_size(rest);
    const bool more = take_front(rest, "more "), less = !more && take_front(rest, "less ");
    if (!more && !less) {
      if (front != "no " ||
          (reading_.library.find(rest) == nullptr && find_tag(rest, reading_).empty()))
        return false;
      bar(said, rest);
      return true;
    }
    const oils::Oil* named = reading_.library.find(rest);
    if (named == nullptr) return false;
    if (!bar_ || !bar_->blend)
      node_.fail("'" + said + "' needs the blend of your bar to compare with",
                 "Write it under 'compared-with:', or give the share: 'limits: {" + named->name +
                     ": at most 20 %}'.");
    double now = 0;
    for (const auto& one : bar_->blend->oils)
      if (one.oil.name == named->name) now = one.share;
    OilLimit limit;
    limit.oil = {named->name, {rest, node_.place(), node_}};
    const bool none = front == "no " || front.starts_with("not ");
    const double step = none ? 0 : front == "much " ? 0.1 : front == "clearly " ? 0.05 : 0.01;
    std::string read;
    if (more != none) {
      limit.least = std::min(1.0, now + step);
      limit.always = *limit.least > 0;
      read = " at least " + percent(*limit.least);
    } else {
      // A small share is halved: less of it is not none of it.
      limit.most = std::max(now / 2, now - step);
      if (none) limit.most = now;
      read = " at most " + percent(*limit.most);
    }
    limit.written = {said + " (" + named->name + read + ")", node_.place(), node_};
    out_.rules.oils.push_back(std::move(limit));
    return true;
  }

  const Node& node_;
  const Reading& reading_;
  Spoken& out_;
  const std::optional<Yardstick>& bar_;
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

Spoken read_spoken(const Node& node, const Reading& reading, const std::optional<Yardstick>& bar) {
  Spoken out;
  core::Faults::each(list_of(node), [&](const Node& item) {
    core::Faults::each(pieces(plain_text(item)), [&](const std::string& piece) {
      Speech(item, reading, out, bar).piece(piece);
    });
  });
  return out;
}

}  // namespace barwright::targets
