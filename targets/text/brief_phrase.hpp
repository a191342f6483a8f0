#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/units/quantity.hpp"
#include "targets/text/brief_words.hpp"

namespace barwright::targets {

/// A maker's phrase, read word by word: "no more than 1 below". Figures and their units come apart
/// ("5%" is "5", "%"), "60-70" reads as "60 to 70", commas stand alone, case does not count.
class Phrase {
 public:
  explicit Phrase(const oils::yaml::Node& node);
  /// The same for a part of a node's text that starts `offset` bytes into it.
  Phrase(const oils::yaml::Node& node, std::string_view text, std::size_t offset);

  bool done() const { return at_ >= words_.size(); }
  /// Takes the words of `phrase` if they stand next.
  bool take(std::string_view phrase);
  /// Takes the first of several phrases that stands next; list longer ones first.
  bool take_any(std::initializer_list<std::string_view> phrases);
  bool sees_number() const;
  /// Takes a figure. Errors: no number, NaN, infinity, a decimal comma.
  double number();
  /// Takes a figure and the one word after it, when that is a unit. Money and the like are looked
  /// for by the caller first.
  core::Quantity quantity();
  /// Takes a figure with the unit its name states. Errors: missing unit, wrong dimension.
  double fraction();
  double grams();
  double celsius();
  double hours();
  /// Takes money: "4.20 EUR", "€ 4.20"; then "per kg" (of oils), "per batch" or "per bar".
  Price price();

  std::string word() const;  ///< next word as written; empty at the end
  std::string rest() const;  ///< what is left, as written
  std::string take_rest();
  void skip() { ++at_; }
  std::size_t mark() const { return at_; }
  void back(std::size_t mark) { at_ = mark; }

  /// Throws InputError with the caret at the next word.
  [[noreturn]] void fail(const std::string& message, const core::Remedy& remedy) const;
  /// Throws unless every word was taken: "cannot read 'abov' here", nearest of `allowed`.
  void end(const std::vector<std::string>& allowed, const std::string& remedy) const;
  const oils::yaml::Node& node() const { return node_; }

 private:
  struct Word {
    std::string text;    // as written
    std::string folded;  // lower case
    std::size_t offset;
  };
  void split(std::string_view text, std::size_t offset);
  void add(std::string_view text, std::size_t offset);

  oils::yaml::Node node_;
  std::string text_;
  std::size_t start_ = 0;  // of text_ in the node's text
  std::vector<Word> words_;
  std::size_t at_ = 0;
};

/// Takes a level of sureness, "likely 90 %", if one stands next. Errors: a share that is not 50 to
/// 99.9 %.
std::optional<SureLevel> take_sureness(Phrase& phrase);

}  // namespace barwright::targets
