#include "core/trade/traits.hpp"

#include <algorithm>
#include <array>
#include <span>
#include <vector>

#include "core/trade/words.hpp"

namespace barwright::core {
namespace {

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

/// Adds the traits of those that stand among the words. Returns whether any does.
bool add_those(const std::vector<std::string>& words, std::span<const Trait> known,
               std::set<std::string>& to) {
  bool any = false;
  for (const Trait& each : known) {
    if (!has(words, each.word)) continue;
    any = true;
    if (!each.trait.empty()) to.emplace(each.trait);
  }
  return any;
}

}  // namespace

std::set<std::string> traits_of(std::string_view name) {
  const auto words = words_of(name);
  std::set<std::string> out;
  add_those(words, kOther, out);
  const bool plant = add_those(words, kPlantBeforeMilk, out);
  // A mica is called after what it shows.
  if (plant || has(words, "vegan") || has(words, "mica")) return out;
  if (add_those(words, kAnimal, out)) out.emplace("animal");
  return out;
}

}  // namespace barwright::core
