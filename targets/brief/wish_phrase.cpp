// The phrases of a wish. N is a figure with its unit, SIZE is slightly, clearly or much, UP is
// above, more, higher or longer, DOWN is below, less, lower, shorter or sooner.
//
//   compared with the bar in the hand (now)            with a figure of its own
//   at least N UP            d >= N                    at least N | no less than N | N or more |
//   at least N DOWN          d <= -N                     above N | over N | more than N   >= N
//   at most, no more than N UP     d <= N              at most N | no more than N | N or less |
//   at most, no more than N DOWN   d >= -N               below N | under N | less than N  <= N
//   no DOWN [than now]       d >= 0                    N to M | between N and M
//   no UP [than now]         d <= 0
//   at least as [much as] now | at most as [much as] now
//   SIZE UP, SIZE DOWN       d >= size, d <= -size
//   not SIZE DOWN, not SIZE UP    d >= -size, d <= size
//   as now | the same | unchanged     |d| <= slightly
//   about as now | about the same     |d| <= clearly
//   within N [of now]        |d| <= N
//   ... than NAME            compares with a shipped yardstick instead
//   long, short (working-time)  no less, no more than the shipped plain bar
//   typical | likely [90 %] | worst-case  at the end, after a comma: how sure
#include "targets/brief/wish_phrase.hpp"

#include <fmt/format.h>

#include <stdexcept>
#include <tuple>

#include "oils/text/yaml_text.hpp"
#include "targets/brief/brief_yardstick_reader.hpp"
#include "targets/brief/wish_reader.hpp"
#include "targets/brief/wish_subject.hpp"
#include "targets/model/words.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

namespace {

/// Size of a word in steps of the least difference one can notice, from data/words.yaml.
double steps_of(std::string_view word) {
  const SizeWord* size = find_size(word);
  if (size == nullptr) throw std::logic_error("no size word '" + std::string(word) + "'");
  return size->steps;
}

constexpr const char* kForms =
    "Write for instance 'at least 5 above', 'no more than 1 below', 'clearly more', 'not clearly "
    "less', 'no less', 'about as now', 'at least 60' or '60 to 70'.";
const std::vector<std::string> kWords = {
    "at",      "least",   "most",    "no",         "more",      "less",   "than",  "above",
    "below",   "about",   "as",      "now",        "clearly",   "much",   "not",   "slightly",
    "to",      "between", "within",  "long",       "short",     "higher", "lower", "longer",
    "shorter", "likely",  "typical", "worst-case", "unchanged", "same"};

enum class Way { up, down };

class WishPhrase {
 public:
  WishPhrase(const std::string& key, const Node& value, const Subject& subject)
      : key_(key), phrase_(value), subject_(subject) {}

  std::vector<Wish> read() {
    if (phrase_.done()) phrase_.node().fail("the wish is empty", kForms);
    do {
      if (level()) continue;
      wishes_.push_back(clause());
    } while (phrase_.take(", and") || phrase_.take(", but") || phrase_.take(",") ||
             phrase_.take("and") || phrase_.take("but"));
    phrase_.end(kWords, kForms);
    if (wishes_.empty()) phrase_.node().fail("the wish says how sure, but not what", kForms);
    for (Wish& wish : wishes_) {
      wish.level = level_;
      // A cost names its currency in any of its phrases.
      wish.subject.currency = subject_.currency;
      wish.subject.per = subject_.per;
    }
    check_ends();
    return wishes_;
  }

 private:
  bool level() {
    const std::size_t start = phrase_.mark();
    const std::optional<SureLevel> found = take_sureness(phrase_);
    if (!found) return false;
    if (level_) {
      phrase_.back(start);
      phrase_.fail("how sure is said twice", "Keep one of typical, likely or worst-case.");
    }
    level_ = found;
    return true;
  }

  Wish clause() {
    const std::size_t start = phrase_.mark();
    Wish wish;
    wish.subject = subject_;
    clause_of(wish);
    than(wish);
    const std::size_t end = phrase_.mark();
    phrase_.back(start);
    std::string text;
    while (phrase_.mark() < end) {
      text += (text.empty() ? "" : " ") + phrase_.word();
      phrase_.skip();
    }
    wish.written = {key_ + ": " + text, phrase_.node().place(), phrase_.node()};
    return wish;
  }

  std::optional<Way> way() {
    if (phrase_.take_any({"above", "more", "higher", "longer", "later"})) return Way::up;
    if (phrase_.take_any({"below", "less", "lower", "shorter", "sooner"})) return Way::down;
    return std::nullopt;
  }

  std::optional<double> size() {
    const std::size_t start = phrase_.mark();
    std::optional<double> found;
    if (phrase_.take("a little")) found = steps_of("slightly");
    for (const SizeWord& size : size_words())
      if (!found && phrase_.take(size.word)) found = size.steps;
    if (found) sized(start);
    return found;
  }

  /// Size words are sizes of what one can notice in a bar; other figures have none.
  void sized(std::size_t start) {
    if (subject_.kind == Subject::Kind::property && subject_.property != Property::titre) return;
    phrase_.back(start);
    phrase_.fail("'" + phrase_.word() + "' has no size for " + subject_.name,
                 "Write a figure, such as 'at least N above', 'within N of now' or 'at least N'.");
  }

  void one_side(Wish& wish, bool floor, Bound bound) { (floor ? wish.low : wish.high) = bound; }

  /// After "at least" (floor) or "at most".
  void bounded(Wish& wish, bool floor) {
    if (phrase_.take_any({"as much as now", "as long as now", "as high as now", "as now", "now",
                          "as it is now"})) {
      wish.compared = true;
      one_side(wish, floor, {});
      return;
    }
    const std::size_t start = phrase_.mark();
    const double first = amount(true);
    if (const auto direction = way()) {
      wish.compared = true;
      if (*direction == Way::up)
        one_side(wish, floor, {first, 0});
      else
        one_side(wish, !floor, {-first, 0});
      return;
    }
    phrase_.back(start);
    one_side(wish, floor, {amount(false), 0});
  }

  double amount(bool difference) { return take_amount(phrase_, subject_, difference); }

  void clause_of(Wish& wish) {
    const std::size_t start = phrase_.mark();
    if (phrase_.take_any({"at least", "not below", "not under"})) return bounded(wish, true);
    if (phrase_.take_any({"at most", "up to", "not above", "not over"}))
      return bounded(wish, false);
    if (phrase_.take("no")) return no(wish, start);
    if (phrase_.take_any({"about as now", "about the same", "about as it is now"})) {
      sized(start);
      return around(wish, {0, steps_of("clearly")});
    }
    if (phrase_.take_any({"as now", "the same as now", "the same", "same as now", "same",
                          "unchanged", "as it is now"})) {
      sized(start);
      return around(wish, {0, steps_of("slightly")});
    }
    if (phrase_.take("within")) {
      const double reach = amount(true);
      phrase_.take_any({"of now", "of the yardstick", "of it"});
      return around(wish, {reach, 0});
    }
    if (phrase_.take("not")) {
      const auto step = size();
      const auto direction = step ? way() : std::nullopt;
      if (!direction) unreadable(start);
      wish.compared = true;
      return one_side(wish, *direction == Way::down, {0, *direction == Way::down ? -*step : *step});
    }
    if (const auto step = size()) {
      const auto direction = way();
      if (!direction) unreadable(start);
      wish.compared = true;
      return one_side(wish, *direction == Way::up, {0, *direction == Way::up ? *step : -*step});
    }
    if (phrase_.take("between")) {
      const double low = range_start();
      if (!phrase_.take("and"))
        phrase_.fail("'between' wants two figures", "Write 'between 60 and 70'.");
      return range(wish, low, start);
    }
    if (phrase_.take_any({"more than", "above", "over", "higher than", "longer than"}))
      return more_than(wish, true, start);
    if (phrase_.take_any({"less than", "below", "under", "lower than", "shorter than"}))
      return more_than(wish, false, start);
    if (phrase_.take_any({"long", "short"})) return plain_size(wish, start);
    if (phrase_.sees_number() || subject_.kind == Subject::Kind::oil_cost)
      return figure_first(wish, start);
    if (phrase_.take_any({"most", "least"})) {
      phrase_.back(start);
      const std::string which = phrase_.word();
      phrase_.fail("'" + which + "' is what 'best' is for",
                   "Write it on a line of its own, 'best: " + which + " " + subject_.name +
                       "', and here what must hold in any case.");
    }
    if (way()) {
      phrase_.back(start);
      phrase_.fail("'" + phrase_.word() + "' does not say by how much",
                   "Write 'clearly " + phrase_.word() + "', 'slightly " + phrase_.word() +
                       "' or a figure, such as 'at least 5 above'.");
    }
    unreadable(start);
  }

  [[noreturn]] void unreadable(std::size_t start) {
    if (phrase_.done()) phrase_.back(start);
    phrase_.end(kWords, kForms);
    phrase_.fail("the wish is not finished", kForms);
  }

  /// After "no": less, more, less than N, more than N below, sooner than now.
  void no(Wish& wish, std::size_t start) {
    const auto direction = way();
    if (!direction) unreadable(start);
    const bool floor = *direction == Way::down;
    const std::size_t mark = phrase_.mark();
    if (phrase_.take("than")) {
      if (phrase_.sees_number() || subject_.kind == Subject::Kind::oil_cost) {
        if (!phrase_.take("now")) return bounded(wish, floor);
      } else {
        phrase_.back(mark);
      }
    }
    wish.compared = true;
    one_side(wish, floor, {});
  }

  void around(Wish& wish, Bound reach) {
    wish.compared = true;
    wish.low = Bound{-reach.value, -reach.noticeable};
    wish.high = reach;
  }

  /// A bare first figure of a range may leave its unit to the second.
  double range_start() {
    const std::size_t start = phrase_.mark();
    const double bare = phrase_.number();
    if (phrase_.take("to") || phrase_.take("and")) {
      phrase_.back(start);
      phrase_.skip();
      const bool scaled =
          subject_.kind == Subject::Kind::property && subject_.property == Property::titre;
      const std::size_t here = phrase_.mark();
      phrase_.skip();
      if (scaled) {  // 100 to 110 F
        phrase_.number();
        const bool fahrenheit = phrase_.take_any({"f", "°f"});
        phrase_.back(here);
        return fahrenheit ? (bare - 32) * 5 / 9 : bare;
      }
      phrase_.back(here);
      return bare;
    }
    phrase_.back(start);
    return amount(false);
  }

  void range(Wish& wish, double low, std::size_t start) {
    const double high = amount(false);
    if (const auto direction = way()) {
      wish.compared = true;
      if (*direction == Way::down)
        std::tie(low, wish.high) = std::pair(-high, Bound{-low, 0});
      else
        wish.high = Bound{high, 0};
    } else {
      wish.high = Bound{high, 0};
    }
    wish.low = Bound{low, 0};
    if (wish.low->value > wish.high->value) {
      phrase_.back(start);
      phrase_.fail(fmt::format("the range is upside down: {} is above {}", figure(low),
                               figure(wish.high->value)),
                   "Write the smaller figure first.");
    }
  }

  void more_than(Wish& wish, bool floor, std::size_t start) {
    if (phrase_.take("now")) {
      phrase_.back(start);
      phrase_.fail("'" + phrase_.rest() + "' does not say by how much",
                   std::string("Write 'clearly ") + (floor ? "more" : "less") +
                       "', or a figure, such as 'at least 5 " + (floor ? "above" : "below") + "'.");
    }
    one_side(wish, floor, {amount(false), 0});
  }

  /// "long" and "short" compare with the shipped plain bar, whatever the maker's own bar does.
  void plain_size(Wish& wish, std::size_t start) {
    if (subject_.kind != Subject::Kind::property || subject_.property != Property::working_time) {
      phrase_.back(start);
      phrase_.fail("'" + phrase_.word() + "' is a size of working-time only", kForms);
    }
    phrase_.back(start);
    wish.compared = true;
    wish.than = std::string(kPlainBar);
    one_side(wish, phrase_.take("long"), {});
    phrase_.take("short");
  }

  void figure_first(Wish& wish, std::size_t start) {
    const double low = range_start();
    if (phrase_.take("to")) return range(wish, low, start);
    phrase_.back(start);
    const double value = amount(true);
    if (phrase_.take("or more")) return or_more(wish, value, true);
    if (phrase_.take("or less")) return or_more(wish, value, false);
    phrase_.back(start);
    phrase_.fail("'" + phrase_.rest() + "' alone may mean at least or at most", kForms);
  }

  void or_more(Wish& wish, double value, bool floor) {
    if (const auto direction = way()) {
      wish.compared = true;
      if (*direction == Way::down)
        one_side(wish, !floor, {-value, 0});
      else
        one_side(wish, floor, {value, 0});
      return;
    }
    one_side(wish, floor, {value, 0});
  }

  /// "than now" or "than all-olive" after a comparison.
  void than(Wish& wish) {
    const std::size_t start = phrase_.mark();
    if (!phrase_.take("than")) return;
    if (!wish.compared || !wish.than.empty()) {
      phrase_.back(start);
      phrase_.fail("nothing to compare stands before 'than'", kForms);
    }
    if (phrase_.take_any({"now", "it is now", "the yardstick"})) return;
    const std::size_t named = phrase_.mark();
    std::string yardstick;
    while (!phrase_.done() && phrase_.word() != "," && phrase_.word() != "and") {
      yardstick += (yardstick.empty() ? "" : " ") + phrase_.word();
      phrase_.skip();
    }
    if (yardstick.empty())
      phrase_.fail("'than' wants a bar", "Write 'than now' or a yardstick's name.");
    wish.than = find_shipped(yardstick);
    if (!wish.than.empty()) return;
    phrase_.back(named);
    phrase_.fail("no shipped yardstick is called '" + yardstick + "'", shipped_remedy(yardstick));
  }

  /// Two phrases of one line that cannot both hold are a slip, not a wish.
  void check_ends() {
    for (const Wish& low : wishes_)
      for (const Wish& high : wishes_) {
        if (&low == &high || !low.low || !high.high || low.compared != high.compared ||
            low.than != high.than || low.low->noticeable != 0 || high.high->noticeable != 0)
          continue;
        if (low.low->value > high.high->value)
          phrase_.node().fail(fmt::format("the range is upside down: {} is above {}",
                                          figure(low.low->value), figure(high.high->value)),
                              "Write a least figure that is below the most.");
      }
  }

  std::string key_;
  Phrase phrase_;
  Subject subject_;
  std::optional<SureLevel> level_;
  std::vector<Wish> wishes_;
};

}  // namespace

std::vector<Wish> read_wish_phrases(const std::string& key, const Node& value,
                                    const Subject& subject) {
  return WishPhrase(key, value, subject).read();
}

}  // namespace barwright::targets
