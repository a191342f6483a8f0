#include "targets/brief/wish_subject.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/brief/wish_reader.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

namespace {

std::string dashed(std::string text) {
  std::replace(text.begin(), text.end(), ' ', '-');
  return text;
}

const std::vector<std::string>& known_subjects() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const Property property : all_properties()) all.emplace_back(name(property));
    for (const char* measured :
         {"saponification value", "iodine value", "unsaponifiable", "oil cost"})
      all.emplace_back(measured);
    for (const auto& facts : core::acid_facts()) all.emplace_back(facts.name);
    return all;
  }();
  return names;
}

[[noreturn]] void unknown_subject(const Node& node, std::string_view text, std::size_t offset) {
  const std::string word = yaml::trimmed(text);
  const std::string near = yaml::nearest_name(word, known_subjects());
  std::vector<std::string> properties;
  for (const Property property : all_properties()) properties.emplace_back(name(property));
  node.fail_at(
      offset, "unknown property '" + word + "'",
      yaml::did_you_mean(
          near, "Known here: " + yaml::one_of(properties) +
                    "; or a saponification value, iodine value, unsaponifiable, oil cost, a fatty "
                    "acid such as lauric or C12:0, a sum 'lauric + myristic', a ratio 'palmitic / "
                    "stearic'."));
}

std::optional<core::FattyAcid> acid_named(std::string_view text) {
  const std::string word = yaml::trimmed(text);
  if (auto acid = core::find_acid(word)) return acid;
  std::string changed = word;
  for (char& c : changed) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  if (changed.ends_with(" acid")) changed.erase(changed.size() - 5);
  if (auto acid = core::find_acid(changed)) return acid;
  if (changed.starts_with('c')) changed[0] = 'C';
  if (auto acid = core::find_acid(changed)) return acid;
  return std::nullopt;
}

/// Splits at '+' and the word "and"; gives each part with its offset.
std::vector<std::pair<std::string_view, std::size_t>> summands(std::string_view text) {
  std::vector<std::pair<std::string_view, std::size_t>> parts;
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    const std::size_t length = i == text.size()                      ? 1
                               : text[i] == '+'                      ? 1
                               : text.substr(i).starts_with(" and ") ? 5
                                                                     : 0;
    if (length == 0) continue;
    parts.emplace_back(text.substr(start, i - start), start);
    start = i + length;
    i = start - 1;
  }
  return parts;
}

std::vector<core::FattyAcid> read_sum(const Node& node, std::string_view text, std::size_t offset) {
  std::vector<core::FattyAcid> acids;
  for (const auto& [part, at] : summands(text)) {
    const std::size_t blank = part.find_first_not_of(' ');
    const std::size_t where = offset + at + (blank == std::string_view::npos ? 0 : blank);
    const auto acid = acid_named(part);
    if (!acid) unknown_subject(node, part, where);
    if (std::find(acids.begin(), acids.end(), *acid) != acids.end())
      node.fail_at(where, "'" + yaml::trimmed(part) + "' stands in the sum twice", "Take one out.");
    acids.push_back(*acid);
  }
  return acids;
}

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace

Subject read_subject(const Node& key) { return read_subject(key, key.text(), 0); }

Subject read_subject(const Node& node, std::string_view text, std::size_t offset) {
  Subject subject;
  subject.name = yaml::trimmed(text);
  const std::string word = yaml::folded(text);
  if (auto property = find_property(dashed(word))) {
    subject.property = *property;
    subject.name = std::string(name(*property));
    return subject;
  }
  if (word == "after feel") {  // the property by its plain meaning
    subject.property = Property::conditioning;
    return subject;
  }
  if (is_one_of(word, {"saponification value", "iodine value", "unsaponifiable", "unsaponifiables",
                       "unsaponified", "oil cost", "cost", "price"})) {
    subject.kind = word.starts_with("sap")   ? Subject::Kind::saponification_value
                   : word.starts_with("iod") ? Subject::Kind::iodine_value
                   : word.starts_with("uns") ? Subject::Kind::unsaponifiable
                                             : Subject::Kind::oil_cost;
    if (subject.kind == Subject::Kind::oil_cost) subject.name = "oil cost";
    return subject;
  }
  std::size_t cut = text.find('/');
  std::size_t length = 1;
  if (cut == std::string_view::npos && (cut = text.find(" over ")) != std::string_view::npos)
    length = 6;
  if (cut != std::string_view::npos) {
    subject.kind = Subject::Kind::acid_ratio;
    subject.acids = read_sum(node, text.substr(0, cut), offset);
    subject.over = read_sum(node, text.substr(cut + length), offset + cut + length);
    return subject;
  }
  subject.kind = Subject::Kind::acids;
  subject.acids = read_sum(node, text, offset);
  return subject;
}

double take_amount(Phrase& phrase, Subject& subject, bool difference) {
  const std::size_t start = phrase.mark();
  const auto wrong = [&](const std::string& message, const std::string& remedy) {
    phrase.back(start);
    phrase.fail(message, remedy);
  };
  switch (subject.kind) {
    case Subject::Kind::oil_cost: {
      const Price price = phrase.price();
      if (price.per == Per::all)
        wrong("a cost without 'per'",
              "Write per kg, per batch or per bar, such as 4.20 EUR per kg.");
      if (!subject.currency.empty() &&
          (subject.currency != price.currency || subject.per != price.per))
        wrong("two costs counted differently in one wish", "Write each cost on its own line.");
      subject.currency = price.currency;
      subject.per = price.per;
      return price.amount;
    }
    case Subject::Kind::acids:
    case Subject::Kind::unsaponifiable: {
      const double value = phrase.fraction() * 100;
      if (value < 0 || value > 100) wrong(figure(value) + " % cannot be", "Write 0 % to 100 %.");
      return value;
    }
    default:
      break;
  }
  const double value = phrase.number();
  const std::string unit = phrase.word();
  if (subject.kind == Subject::Kind::saponification_value) {
    if (!phrase.take("mg koh/g") && !phrase.take("mg koh per g"))
      wrong("a saponification value without its unit",
            "Write it in mg KOH/g, such as 190 mg KOH/g: a figure for NaOH is about 0.71 of it.");
    return value;
  }
  if (subject.kind == Subject::Kind::iodine_value) {
    phrase.take_any({"g i2/100 g", "g/100 g", "g i2 per 100 g"});
    return value;
  }
  if (subject.kind == Subject::Kind::acid_ratio) return value;
  if (subject.property == Property::titre) {
    if (!phrase.take_any({"c", "f", "°c", "°f"}))
      wrong("a titre without its unit", "Write it in C or F, such as 40 C.");
    const bool fahrenheit = unit.ends_with('F') || unit.ends_with('f');
    return !fahrenheit ? value : difference ? value * 5 / 9 : (value - 32) * 5 / 9;
  }
  phrase.take_any({"points", "point"});
  const bool soluble =
      subject.property == Property::soluble_20 || subject.property == Property::soluble_38;
  if (unit == "%" && !soluble)
    wrong("'" + figure(value) + " %' is not how " + subject.name + " is counted",
          "Write plain points, 0 to 100: 'at least 60', or '5 above' the bar in hand.");
  if (soluble) phrase.take("%");
  if (value < 0 || value > 100)
    wrong(figure(value) + (difference ? " points apart cannot be" : " points cannot be"),
          "Points run from 0 to 100.");
  return value;
}

}  // namespace barwright::targets
