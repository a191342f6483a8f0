#include "targets/files/oil_rules_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/files/oil_rules.hpp"
#include "targets/files/oil_rules_blend.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

namespace {

const std::vector<std::string> kShareWords = {"at",   "least",   "most", "exactly", "none",
                                              "more", "no more", "than", "to",      "and"};
constexpr const char* kShareForms =
    "Write 'at least 3 %', 'at most 8 %', '3 to 8 %', 'exactly 5 %', 'none' or 'none or at least "
    "5 %'.";

void check_range(const Node& node, const std::optional<double>& least,
                 const std::optional<double>& most) {
  for (const auto& end : {least, most})
    if (end && (*end < 0 || *end > 1 + 1e-12))
      node.fail(percent(*end) + " of the oils cannot be", "Write 0 % to 100 %.");
  if (least && most && *least > *most)
    node.fail("the range is upside down: least " + percent(*least) + ", most " + percent(*most),
              "Write the smaller share first.");
}

/// "3 % to 8 %" or "3 to 8 %": the first figure may leave its unit to the second.
double first_of_range(Phrase& phrase) {
  const std::size_t start = phrase.mark();
  const double value = phrase.number();
  if (phrase.take("to")) {
    phrase.back(start);
    phrase.skip();
    return value / 100;
  }
  phrase.back(start);
  return phrase.fraction();
}

void set_end(Phrase& phrase, std::optional<double>& end, double value) {
  if (end) phrase.fail("this end of the range is given twice", kShareForms);
  end = value;
}

}  // namespace

ShareRange read_share_range(const Node& node, std::size_t offset) {
  const std::string text = node.is_scalar() ? node.text() : std::string();
  Phrase phrase = offset == 0 ? Phrase(node) : Phrase(node, text.substr(offset), offset);
  ShareRange range;
  if (phrase.done()) node.fail("the text is empty", kShareForms);
  do {
    if (phrase.take_any({"none", "not at all"})) {
      set_end(phrase, range.most, 0);
    } else if (phrase.take_any({"at least", "no less than", "least", "from"})) {
      const bool from = phrase.mark() == 1 && folded_text(node).starts_with("from");
      set_end(phrase, range.least, from ? first_of_range(phrase) : phrase.fraction());
      if (from && phrase.take("to")) set_end(phrase, range.most, phrase.fraction());
    } else if (phrase.take_any({"at most", "no more than", "most", "up to", "not above"})) {
      set_end(phrase, range.most, phrase.fraction());
    } else if (phrase.take("exactly")) {
      const double value = phrase.fraction();
      set_end(phrase, range.least, value);
      set_end(phrase, range.most, value);
      range.exactly = true;
    } else if (phrase.sees_number()) {
      const double value = first_of_range(phrase);
      if (!phrase.take("to")) {
        phrase.back(0);
        phrase.fail("'" + node.text() + "' alone may mean least, most or exactly", kShareForms);
      }
      set_end(phrase, range.least, value);
      set_end(phrase, range.most, phrase.fraction());
    } else {
      phrase.end(kShareWords, kShareForms);
    }
    phrase.take_any({"of the oils", "of oils"});
  } while (phrase.take_any({"and", ","}));
  phrase.end(kShareWords, kShareForms);
  check_range(node, range.least, range.most);
  return range;
}

OilLimit read_oil_limit(const Node& key, const Node& value, const Reading& reading) {
  OilLimit limit;
  limit.oil = read_oil(key, reading);
  limit.written = written(key, value);
  if (value.is_null()) key.fail("'" + key.text() + "' has no limit", kShareForms);
  if (value.is_map()) {
    Block block(value);
    block.one_only({"exactly", "least"});
    block.one_only({"exactly", "most"});
    block.read({"least", "at least"},
               [&](const Node& least) { limit.least = fraction_within(least, 0, 1); });
    block.read({"most", "at most"},
               [&](const Node& most) { limit.most = fraction_within(most, 0, 1); });
    block.read("exactly", [&](const Node& exactly) {
      limit.least = limit.most = fraction_within(exactly, 0, 1);
      limit.always = true;
    });
    // A least share says that the oil is in; "none or at least 5 %" that it may stay out.
    limit.always = limit.always || (limit.least && *limit.least > 0);
    block.read("always", [&](const Node& always) { limit.always = always.yes_no(); });
    block.done();
    if (!limit.least && !limit.most && !limit.always)
      value.fail("the limit is empty", "Write least, most, exactly or always.");
    check_range(value, limit.least, limit.most);
    return limit;
  }
  const std::string word = folded_text(value);
  if (word == "always") {
    limit.always = true;
    return limit;
  }
  constexpr std::string_view kNoneOr = "none or ";
  const bool may_stay_out = word.starts_with(kNoneOr);
  const ShareRange range =
      may_stay_out ? read_share_range(value, kNoneOr.size()) : read_share_range(value);
  limit.least = range.least;
  limit.most = range.most;
  limit.always = !may_stay_out && range.least && *range.least > 0;
  return limit;
}

std::vector<std::string> all_tags(const Reading& reading) {
  std::set<std::string> tags;
  for (const auto& [word, tag] : reading.library.tags()) tags.insert(word);
  for (const oils::Oil& oil : reading.library.oils()) tags.insert(oil.tags.begin(), oil.tags.end());
  return {tags.begin(), tags.end()};
}

std::string find_tag(std::string_view word, const Reading& reading) {
  std::vector<std::string> tries = {yaml::folded(word)};
  for (const std::string_view end : {" fats", " fat", " oils", " oil"})
    if (tries[0].ends_with(end)) tries.push_back(tries[0].substr(0, tries[0].size() - end.size()));
  for (std::size_t i = 0, count = tries.size(); i < count; ++i)
    if (tries[i].ends_with('s')) tries.push_back(tries[i].substr(0, tries[i].size() - 1));
  for (const std::string& tag : all_tags(reading))
    if (std::find(tries.begin(), tries.end(), yaml::folded(tag)) != tries.end()) return tag;
  return {};
}

std::vector<std::string> tags_with_word(std::string_view word, const Reading& reading) {
  std::vector<std::string> found;
  const std::string wanted = " " + yaml::folded(word) + " ";
  for (const std::string& tag : all_tags(reading))
    if ((" " + yaml::folded(tag) + " ").find(wanted) != std::string::npos) found.push_back(tag);
  return found;
}

namespace {
[[noreturn]] void unknown_tag(const Node& node, std::size_t offset, const std::string& word,
                              const Reading& reading) {
  node.fail_at(offset, "unknown tag '" + word + "'",
               yaml::nearest_and_known(word, all_tags(reading)));
}
}  // namespace

void read_barred(const Node& node, const Reading& reading, OilRules& rules) {
  core::Faults::each(list_of(node), [&](const Node& item) {
    BarredOil barred;
    barred.written = written(item);
    const std::string text = plain_text(item);
    const std::string folded = yaml::folded(text);
    if (folded.starts_with("tag ")) {
      const std::string word = yaml::trimmed(std::string_view(text).substr(4));
      barred.tag = find_tag(word, reading);
      if (barred.tag.empty()) unknown_tag(item, 4, word, reading);
    } else if (folded.starts_with("oil ")) {
      barred.oil = read_oil(item, std::string_view(text).substr(4), 4, reading).name;
    } else {
      // A word that is both ("palm") bars the wider of the two: nothing the maker wants out stays.
      const oils::Oil* oil = reading.library.find(text);
      if (oil != nullptr) barred.oil = oil->name;
      barred.tag = find_tag(text, reading);
      if (barred.oil.empty() && barred.tag.empty()) {
        if (!reading.library.meant_by(text).empty()) read_oil(item, reading);  // says which
        const std::string tag = yaml::nearest_name(text, all_tags(reading));
        item.fail("'" + text + "' is neither an oil nor a tag",
                  tag.empty()
                      ? reading.library.remedy_for(text)
                      : yaml::did_you_mean(tag, "Tags: " + yaml::one_of(all_tags(reading)) + "."));
      }
    }
    rules.barred.push_back(barred);
  });
}

void read_tag_rules(const Node& node, const Reading& reading, OilRules& rules) {
  core::Faults::each(node.entries(), [&](const auto& entry) {
    const auto& [key, value] = entry;
    TagRule rule;
    rule.written = written(key, value);
    const std::string tag = find_tag(key.text(), reading);
    if (tag.empty()) unknown_tag(key, 0, key.text(), reading);
    rule.tags = {tag};
    if (value.is_null()) key.fail("'" + key.text() + "' has no rule", "Write yes, no or a share.");
    const std::string word = folded_text(value);
    if (word == "yes" || word == "true" || word == "only") {
      rule.least = 1;
    } else if (word == "no" || word == "false" || word == "none") {
      rule.most = 0;
    } else {
      const ShareRange range = read_share_range(value);
      rule.least = range.least;
      rule.most = range.most;
    }
    rules.tags.push_back(rule);
  });
}

namespace {

int at_most_count(const Node& node, const std::string& what) {
  Phrase phrase(node);
  const std::string remedy = "Write 'at most 5'.";
  if (!phrase.take_any({"at most", "no more than", "most", "up to"})) {
    if (phrase.sees_number())
      phrase.fail("'" + node.text() + "' alone may mean at most or exactly", remedy);
    phrase.end({"at", "most", "no", "more", "than"}, remedy);
  }
  const double count = phrase.number();
  if (count < 1 || count > 1000 || count != static_cast<int>(count)) {
    node.fail("'" + node.text() + "' is no number of " + what, remedy);
  }
  phrase.take_any({"oils", "of them"});
  phrase.end({}, remedy);
  return static_cast<int>(count);
}

}  // namespace

void read_limits(Block& block, const Reading& reading, OilRules& rules) {
  block.read("oils", [&](const Node& node) {
    rules.most_oils = at_most_count(node, "oils");
    rules.most_oils_written = {"oils: " + node.text(), node.place(), node};
  });
  block.read("steps", [&](const Node& node) {
    const core::Quantity step = node.quantity();
    rules.steps_written = {"steps: " + node.text(), node.place(), node};
    if (step.unit == "%" || step.unit.empty() || step.unit == "percent") {
      rules.step_share = fraction_within(node, 0, 1);
      above_zero(*rules.step_share, node, "a step");
      const double count = 1 / *rules.step_share;
      if (std::abs(count - std::round(count)) > 1e-6 * count)
        node.fail("steps of " + percent(*rules.step_share) + " do not add up to 100 %",
                  "Write a step that does, such as 0.5 %, 1 %, 2 % or 5 %.");
    } else {
      rules.step_grams = above_zero(node.grams(), node, "a step");
    }
  });
  block.read("leave-on-shelf", [&](const Node& node) {
    core::Faults::each(node.entries(), [&](const auto& entry) {
      const auto& [key, value] = entry;
      const OilName oil = read_oil(key, reading);
      for (const LeaveOnShelf& other : rules.leave_on_shelf)
        if (other.oil.name == oil.name)
          key.fail("'" + key.text() + "' stands here a second time", "Keep one of the two.");
      rules.leave_on_shelf.push_back({oil, value.grams()});
    });
  });
  block.read("not", [&](const Node& node) { read_barred(node, reading, rules); });
  block.read({"tag rules", "tags"},
             [&](const Node& node) { read_tag_rules(node, reading, rules); });

  const auto limit_oil = [&](const Node& key, const Node& value) {
    if (reading.library.find(key.text()) == nullptr) {
      std::vector<std::string> known = {"oils", "steps",     "leave-on-shelf",
                                        "not",  "tag rules", "cost"};
      const std::string setting = yaml::nearest_name(key.text(), known);
      if (!reading.library.meant_by(key.text()).empty()) read_oil(key, reading);  // says which
      key.fail("'" + key.text() + "' is neither an oil nor a limit",
               setting.empty() ? reading.library.remedy_for(key.text()) + " Limits are " +
                                     yaml::one_of(known) + "."
                               : yaml::did_you_mean(setting, "Limits are " + yaml::one_of(known) +
                                                                 ", or the name of an oil."));
    }
    OilLimit limit = read_oil_limit(key, value, reading);
    for (const OilLimit& other : rules.oils)
      if (other.oil.name == limit.oil.name)
        key.fail("'" + key.text() + "' is limited a second time",
                 fmt::format("It is limited first at line {}. Keep one of the two.",
                             other.oil.written.place.line));
    rules.oils.push_back(std::move(limit));
  };
  for (const auto& entry : block.take_rest())
    block.faults().of([&] { limit_oil(entry.first, entry.second); });
  block.done();
}

}  // namespace barwright::targets
