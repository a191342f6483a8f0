#include "core/trade/traits.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <vector>

namespace barwright::core {
namespace {

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> out;
  std::string word;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || byte >= 0x80) {
      word += static_cast<char>(std::tolower(byte));
    } else if (!word.empty()) {
      out.push_back(std::move(word));
      word.clear();
    }
  }
  if (!word.empty()) out.push_back(std::move(word));
  return out;
}

struct Trait {
  std::string_view word;
  std::string_view trait;
};

constexpr std::array kAnimal = {
    Trait{"honey", "bee"},        Trait{"beeswax", "bee"},       Trait{"propolis", "bee"},
    Trait{"milk", "dairy"},       Trait{"buttermilk", "dairy"},  Trait{"whey", "dairy"},
    Trait{"yoghurt", "dairy"},    Trait{"yogurt", "dairy"},      Trait{"kefir", "dairy"},
    Trait{"cream", "dairy"},      Trait{"casein", "dairy"},      Trait{"ghee", "dairy"},
    Trait{"silk", "silk"},        Trait{"lanolin", "wool"},      Trait{"egg", "egg"},
    Trait{"eggs", "egg"},         Trait{"yolk", "egg"},          Trait{"yolks", "egg"},
    Trait{"tallow", "fat"},       Trait{"lard", "fat"},          Trait{"gelatine", "gelatine"},
    Trait{"gelatin", "gelatine"}, Trait{"collagen", "gelatine"}, Trait{"keratin", "keratin"},
    Trait{"carmine", "insect"},   Trait{"cochineal", "insect"},  Trait{"shellac", "insect"},
    Trait{"snail", "snail"},      Trait{"pearl", "pearl"},
};

constexpr std::array kPlantBeforeMilk = {
    Trait{"coconut", "coconut"},
    Trait{"oat", ""},
    Trait{"almond", "tree nut"},
    Trait{"cashew", "tree nut"},
    Trait{"hazelnut", "tree nut"},
    Trait{"rice", ""},
    Trait{"hemp", ""},
    Trait{"soya", "soya"},
    Trait{"soy", "soya"},
    Trait{"shea", ""},
    Trait{"cocoa", ""},
    Trait{"plant", ""},
};

constexpr std::array kOther = {
    Trait{"almond", "tree nut"},   Trait{"almonds", "tree nut"}, Trait{"walnut", "tree nut"},
    Trait{"hazelnut", "tree nut"}, Trait{"cashew", "tree nut"},  Trait{"pecan", "tree nut"},
    Trait{"peanut", "peanut"},     Trait{"soya", "soya"},        Trait{"soy", "soya"},
    Trait{"wheat", "wheat"},       Trait{"tofu", "soya"},        Trait{"dioxide", "made"},
    Trait{"oxide", "made"},        Trait{"ultramarine", "made"}, Trait{"ultramarines", "made"},
    Trait{"manganese", "made"},    Trait{"neon", "made"},        Trait{"lake", "made"},
};

bool has(const std::vector<std::string>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace

std::set<std::string> traits_of(std::string_view name) {
  const auto words = words_of(name);
  std::set<std::string> out;
  for (const Trait& each : kOther) {
    if (has(words, each.word)) out.emplace(each.trait);
  }
  bool plant = has(words, "vegan") || has(words, "mica");  // a mica is called after what it shows
  for (const Trait& each : kPlantBeforeMilk) {
    if (!has(words, each.word)) continue;
    plant = true;
    if (!each.trait.empty()) out.emplace(each.trait);
  }
  if (plant) return out;
  for (const Trait& each : kAnimal) {
    if (!has(words, each.word)) continue;
    out.emplace("animal");
    out.emplace(each.trait);
  }
  return out;
}

}  // namespace barwright::core
