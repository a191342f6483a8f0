#include "core/trade/claim_check.hpp"

#include <algorithm>
#include <array>

#include "core/trade/words.hpp"

namespace barwright::core {
namespace {

/// What a claim denies.
struct Denies {
  std::string_view claim;
  std::string_view trait, doubt;  ///< what makes it a lie, and what may
  std::string_view other;         ///< a second that makes it a lie, or empty
  std::string_view is;            ///< "comes from animals"
  bool by_unknown;                ///< whether what is not known may contradict it
  std::string_view may_be = "be what it denies";
};

constexpr Denies kVegan{"vegan", "animal", "may be animal", "", "comes from animals", true};
constexpr Denies kAnimalFat{"free of animal fat", "animal fat", "may be animal", "",
                            "is an animal fat",   false};
constexpr Denies kPalm{"palm free", "palm", "may be palm", "", "comes from the palm", false};
constexpr Denies kNut{"nut free", "tree nut", "", "peanut", "comes from a nut", true};
constexpr Denies kSoya{"soya free", "soya", "", "", "comes from soya", true};
constexpr Denies kDairy{"dairy free", "dairy", "", "", "comes from milk", true};
constexpr Denies kScent{"unscented", "scent", "", "", "is a scent", false};
constexpr Denies kNatural{"natural",           "made", "scent", "", "is made in a works", false,
                          "be made in a works"};

struct Words {
  std::string_view words;
  const Denies* denies;
};

// Longest first: "palm oil" is no "palm" with an "oil" behind it.
constexpr std::array kNouns = {
    Words{"animal fats", &kAnimalFat},
    Words{"animal fat", &kAnimalFat},
    Words{"animal products", &kVegan},
    Words{"animal ingredients", &kVegan},
    Words{"tree nuts", &kNut},
    Words{"tree nut", &kNut},
    Words{"nut oils", &kNut},
    Words{"palm oil", &kPalm},
    Words{"added scent", &kScent},
    Words{"added fragrance", &kScent},
    Words{"animals", &kVegan},
    Words{"animal", &kVegan},
    Words{"palm", &kPalm},
    Words{"nuts", &kNut},
    Words{"nut", &kNut},
    Words{"soya", &kSoya},
    Words{"soy", &kSoya},
    Words{"dairy", &kDairy},
    Words{"milk", &kDairy},
    Words{"scent", &kScent},
    Words{"scents", &kScent},
    Words{"fragrance", &kScent},
    Words{"perfume", &kScent},
    Words{"tallow", &kAnimalFat},
    Words{"lard", &kAnimalFat},
};

constexpr std::array kPlain = {
    Words{"vegan", &kVegan},     Words{"plant based", &kVegan},    Words{"all plants", &kVegan},
    Words{"unscented", &kScent}, Words{"scentless", &kScent},      Words{"unperfumed", &kScent},
    Words{"natural", &kNatural}, Words{"vegetarian", &kAnimalFat},
};

/// A stop of any kind ends what a "no" denies.
std::vector<std::string> spoken(std::string_view text) { return words_of(text, "'", ";.!"); }

/// Returns how many words these are when they stand at `at`; 0 when they do not.
std::size_t length_at(const std::vector<std::string>& text, std::size_t at,
                      std::string_view wanted) {
  const auto words = spoken(wanted);
  if (at + words.size() > text.size()) return 0;
  return std::equal(words.begin(), words.end(), text.begin() + static_cast<long>(at)) ? words.size()
                                                                                      : 0;
}

const Denies* noun_at(const std::vector<std::string>& text, std::size_t at, std::size_t& length) {
  for (const Words& noun : kNouns) {
    length = length_at(text, at, noun.words);
    if (length > 0) return noun.denies;
  }
  return nullptr;
}

bool is_any(const std::vector<std::string>& text, std::size_t at,
            std::initializer_list<std::string_view> wanted) {
  return at < text.size() && std::find(wanted.begin(), wanted.end(), text[at]) != wanted.end();
}

class Finder {
 public:
  explicit Finder(std::string_view words) : text_(spoken(words)) {}

  std::vector<const Denies*> run() {
    for (std::size_t i = 0; i < text_.size(); ++i) {
      const bool contrary =
          i > 0 && is_any(text_, i - 1, {"not", "non", "isn't", "never", "hardly"});
      if (contrary) continue;
      for (const Words& plain : kPlain) {
        if (length_at(text_, i, plain.words) > 0) add(plain.denies);
      }
      noun_and_free(i);
      if (is_any(text_, i, {"no", "without", "zero"})) denied(i + 1);
      if (text_[i] == "free" && is_any(text_, i + 1, {"of", "from"})) denied(i + 2);
    }
    return out_;
  }

 private:
  void add(const Denies* claim) {
    if (std::find(out_.begin(), out_.end(), claim) == out_.end()) out_.push_back(claim);
  }

  // "palm free", "palm and nut free": all the nouns before it.
  void noun_and_free(std::size_t at) {
    std::size_t length = 0;
    std::vector<const Denies*> nouns;
    while (const Denies* noun = noun_at(text_, at, length)) {
      nouns.push_back(noun);
      at += length;
      if (is_any(text_, at, {"free"})) {
        if (is_any(text_, at + 1, {"of", "from"})) return;
        for (const Denies* each : nouns) add(each);
        return;
      }
      if (is_any(text_, at, {"and", "or"})) ++at;
    }
  }

  // "no palm or nuts": all the nouns behind it.
  void denied(std::size_t at) {
    std::size_t length = 0;
    while (at < text_.size()) {
      if (is_any(text_, at, {"and", "or", "nor", "no", "any", "from", "of"})) {
        ++at;
        continue;
      }
      const Denies* noun = noun_at(text_, at, length);
      if (noun == nullptr) return;
      add(noun);
      at += length;
    }
  }

  std::vector<std::string> text_;
  std::vector<const Denies*> out_;
};

bool has(const InBar& one, std::string_view trait) {
  return !trait.empty() && one.traits.contains(std::string(trait));
}

JudgedClaim judged(const Denies& claim, const std::vector<InBar>& bar) {
  JudgedClaim out{std::string(claim.claim), JudgedClaim::Verdict::true_so_far, {}};
  std::vector<std::string> doubts;
  for (const InBar& one : bar) {
    if (has(one, claim.trait) || has(one, claim.other)) {
      out.verdict = JudgedClaim::Verdict::lie;
      out.why.push_back(one.what + " " + std::string(claim.is) + ".");
    } else if (has(one, claim.doubt)) {
      doubts.push_back(one.what + " may " + std::string(claim.may_be) + ": its supplier knows.");
    } else if (claim.by_unknown && !one.known) {
      doubts.push_back("Where " + one.what + " comes from is not known here: ask its supplier.");
    }
  }
  if (out.verdict == JudgedClaim::Verdict::lie || doubts.empty()) return out;
  out.verdict = JudgedClaim::Verdict::doubtful;
  out.why = std::move(doubts);
  return out;
}

}  // namespace

std::vector<JudgedClaim> judge_claims(std::string_view words, const std::vector<InBar>& bar) {
  std::vector<JudgedClaim> out;
  for (const Denies* claim : Finder(words).run()) out.push_back(judged(*claim, bar));
  return out;
}

}  // namespace barwright::core
