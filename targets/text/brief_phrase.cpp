#include "targets/text/brief_phrase.hpp"

#include <array>
#include <cmath>

#include "core/units/number_text.hpp"
#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n'; }

constexpr std::array<std::string_view, 3> kMoneySigns = {"€", "£", "$"};
constexpr std::string_view kEnDash = "–";
constexpr std::string_view kMinus = "−";

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

/// Length of the plain number at the start of `text`: "-1.5"; 0 when none stands there.
std::size_t number_length(std::string_view text) {
  std::size_t i = 0;
  if (i < text.size() && (text[i] == '-' || text[i] == '+')) ++i;
  const std::size_t digits = i;
  while (i < text.size() && is_digit(text[i])) ++i;
  std::size_t count = i - digits;
  if (i < text.size() && text[i] == '.') {
    const std::size_t point = i++;
    while (i < text.size() && is_digit(text[i])) ++i;
    if (i == point + 1)
      i = point;  // a full stop after a number is no decimal
    else
      count += i - point - 1;
  }
  return count > 0 ? i : 0;
}

/// A number that comma-decimals or a thousands comma make unclear: "4,20".
bool has_comma(std::string_view text) {
  const std::size_t comma = text.find(',');
  return comma != std::string_view::npos && comma > 0 && comma + 1 < text.size() &&
         is_digit(text[comma - 1]) && is_digit(text[comma + 1]);
}

bool is_number(std::string_view text) {
  return !text.empty() && number_length(text) == text.size();
}

bool is_currency(std::string_view text) {
  for (const auto sign : kMoneySigns)
    if (text == sign) return true;
  if (text.size() != 3) return false;
  for (char c : text)
    if (c < 'A' || c > 'Z') return false;
  return true;
}

}  // namespace

Phrase::Phrase(const yaml::Node& node) : node_(node), text_(node.text()) { split(text_, 0); }
Phrase::Phrase(const yaml::Node& node, std::string_view text, std::size_t offset)
    : node_(node), text_(text), start_(offset) {
  split(text_, offset);
}

void Phrase::add(std::string_view text, std::size_t offset) {
  words_.push_back({std::string(text), lower(text), offset});
}

void Phrase::split(std::string_view text, std::size_t offset) {
  std::size_t i = 0;
  while (i < text.size()) {
    if (is_blank(text[i])) {
      ++i;
      continue;
    }
    std::size_t end = i;
    while (end < text.size() && !is_blank(text[end])) ++end;
    std::string_view token = text.substr(i, end - i);
    const std::size_t at = offset + i;
    i = end;

    std::size_t commas = 0;
    while (token.size() > 1 && token.back() == ',') {
      token.remove_suffix(1);
      ++commas;
    }
    std::size_t from = 0;
    if (!has_comma(token)) {
      for (const auto sign : kMoneySigns)
        if (token.starts_with(sign) && token.size() > sign.size()) {
          add(sign, at);
          from = sign.size();
        }
      if (token.starts_with(kMinus) && token.size() > kMinus.size() &&
          is_digit(token[kMinus.size()])) {
        token.remove_prefix(kMinus.size());
        words_.push_back({"-" + std::string(token), "-" + lower(token), at});
        from = token.size();
      }
      while (from < token.size()) {
        const std::string_view part = token.substr(from);
        const std::size_t length = number_length(part);
        if (length == 0 || length == part.size()) break;
        const std::string_view after = part.substr(length);
        const std::size_t dash = after.starts_with('-')       ? 1
                                 : after.starts_with(kEnDash) ? kEnDash.size()
                                                              : 0;
        const bool range = dash > 0 && after.size() > dash && is_digit(after[dash]);
        add(part.substr(0, length), at + from);
        from += length;
        if (!range) break;
        words_.push_back({std::string(after.substr(0, dash)), "to", at + from});
        from += dash;
      }
    }
    if (from < token.size()) {
      const std::string_view part = token.substr(from);
      words_.push_back(
          {std::string(part),
           part == kEnDash || (part == "-" && !words_.empty() && is_number(words_.back().text))
               ? "to"
               : lower(part),
           at + from});
    }
    for (std::size_t k = 0; k < commas; ++k) add(",", at + token.size() + k);
  }
}

bool Phrase::take(std::string_view phrase) {
  std::size_t at = at_, i = 0;
  while (i < phrase.size()) {
    std::size_t end = phrase.find(' ', i);
    if (end == std::string_view::npos) end = phrase.size();
    if (at >= words_.size() || words_[at].folded != phrase.substr(i, end - i)) return false;
    ++at;
    i = end + 1;
  }
  at_ = at;
  return true;
}

bool Phrase::take_any(std::initializer_list<std::string_view> phrases) {
  for (const auto phrase : phrases)
    if (take(phrase)) return true;
  return false;
}

bool Phrase::sees_number() const { return !done() && is_number(words_[at_].text); }

double Phrase::number() {
  if (done()) fail("a number is missing", "Write a number here.");
  const std::string& text = words_[at_].text;
  if (yaml::is_nan_or_infinity(text))
    fail("'" + text + "' is not a number that can be used", "Write a plain number, such as 5.");
  if (has_comma(text))
    fail("a comma in the number '" + text + "'",
         "Write 1500 or 1.5: a full stop for decimals, nothing between thousands.");
  if (!is_number(text)) fail("'" + text + "' is not a number", "Write a number here, such as 5.");
  std::string_view body = text;
  if (body.starts_with('+')) body.remove_prefix(1);
  double value = 0;
  const auto [end, error] = core::read_number(body.data(), body.data() + body.size(), value);
  if (error != std::errc() || !std::isfinite(value))
    fail("'" + text + "' is too large or too small", "Write a plain number, such as 5.");
  ++at_;
  return value;
}

core::Quantity Phrase::quantity() {
  const double value = number();
  if (done()) return {value, ""};
  const std::size_t at = at_++;
  // Units of two words that core knows.
  if (!done() && (words_[at].folded == "fl" || words_[at].folded == "us")) {
    ++at_;
    return {value, words_[at].text + " " + words_[at + 1].text};
  }
  return {value, words_[at].text};
}

namespace {
template <typename Convert>
double converted(Phrase& phrase, Convert convert) {
  const std::size_t start = phrase.mark();
  const core::Quantity quantity = phrase.quantity();
  try {
    return convert(quantity);
  } catch (const core::UnitError& error) {
    phrase.back(start);
    phrase.fail(error.what(), error.remedy());
  }
}
}  // namespace

double Phrase::fraction() { return converted(*this, core::to_fraction); }
double Phrase::grams() {
  return converted(*this, [](const core::Quantity& q) { return core::to_grams(q); });
}
double Phrase::celsius() { return converted(*this, core::to_celsius); }
double Phrase::hours() { return converted(*this, core::to_hours); }

Price Phrase::price() {
  Price price;
  const std::size_t start = at_;
  if (!done() && is_currency(words_[at_].text) && !is_number(words_[at_].text)) {
    price.currency = words_[at_++].text;
    price.amount = number();
  } else {
    price.amount = number();
    if (done() || !is_currency(words_[at_].text)) {
      const bool more = !done();
      if (!more) back(start);
      fail(more ? "'" + words_[at_].text + "' is not a currency" : "an amount without a currency",
           "Write the currency beside it, such as 4.20 EUR per kg.");
    }
    price.currency = words_[at_++].text;
  }
  if (price.amount < 0) {
    back(start);
    fail("an amount below zero", "Write an amount of 0 or more.");
  }
  const bool slash = !done() && words_[at_].text.starts_with('/');
  if (slash || take_any({"per", "a", "each"})) {
    const std::string unit = done()  ? ""
                             : slash ? words_[at_].folded.substr(1)
                                     : words_[at_].folded;
    if (unit == "kg")
      price.per = Per::kg_oils;
    else if (unit == "batch")
      price.per = Per::batch;
    else if (unit == "bar")
      price.per = Per::bar;
    else
      fail("'" + word() + "' is not what a price is counted by",
           "Write per kg, per batch or per bar.");
    ++at_;
    if (price.per == Per::kg_oils) take_any({"of oils", "of oil", "oils", "oil"});
  }
  return price;
}

std::string Phrase::word() const { return done() ? "" : words_[at_].text; }
std::string Phrase::rest() const {
  return done() ? "" : yaml::trimmed(std::string_view(text_).substr(words_[at_].offset - start_));
}
std::string Phrase::take_rest() {
  std::string left = rest();
  at_ = words_.size();
  return left;
}

void Phrase::fail(const std::string& message, const core::Remedy& remedy) const {
  node_.fail_at(done() ? start_ + text_.size() : words_[at_].offset, message, remedy);
}

void Phrase::end(const std::vector<std::string>& allowed, const std::string& remedy) const {
  if (done()) return;
  const std::string near = yaml::nearest_name(word(), allowed);
  fail("cannot read '" + rest() + "' here", yaml::did_you_mean(near, remedy));
}

std::optional<SureLevel> take_sureness(Phrase& phrase) {
  if (phrase.take("typical")) return SureLevel{Sureness::typical};
  if (phrase.take_any({"worst-case", "worst case"})) return SureLevel{Sureness::worst_case};
  if (!phrase.take("likely")) return std::nullopt;
  SureLevel level{Sureness::likely};
  if (!phrase.sees_number()) return level;
  const std::size_t start = phrase.mark();
  level.share = phrase.fraction();
  if (level.share >= 0.5 && level.share <= 0.999) return level;
  phrase.back(start);
  phrase.fail("so sure cannot be asked for", "Write 50 % to 99.9 %, or worst-case.");
}

}  // namespace barwright::targets
