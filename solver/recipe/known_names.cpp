#include "solver/recipe/known_names.hpp"

#include <map>
#include <set>
#include <sstream>
#include <vector>

#include "oils/records/library.hpp"

namespace barwright::recipe {
namespace {

std::string plain(const std::string& name) {
  std::string out = name;
  for (char& c : out) {
    if (c == '(' || c == ')') c = ' ';
  }
  return oils::folded_name(out);
}

std::vector<std::string> words_of(const std::string& folded) {
  std::istringstream in(folded);
  std::vector<std::string> out;
  for (std::string word; in >> word;) out.push_back(word);
  return out;
}

// Common practice of the trade, no source: the names makers write for these.
const std::map<std::string, NameOf>& names() {
  static const std::map<std::string, NameOf> all = [] {
    std::map<std::string, NameOf> out;
    const auto add = [&](NameOf meaning, std::initializer_list<const char*> list) {
      for (const char* name : list) out.emplace(name, meaning);
    };
    add(NameOf::citric_anhydrous, {"citric acid anhydrous", "anhydrous citric acid"});
    add(NameOf::citric_monohydrate, {"citric acid monohydrate", "monohydrate citric acid"});
    add(NameOf::citric_unclear, {"citric acid", "citric acid powder", "citric acid crystals",
                                 "citric acid solution", "citric"});
    add(NameOf::lactic, {"lactic acid", "lactic acid solution"});
    add(NameOf::acetic, {"acetic acid", "glacial acetic acid", "vinegar essence"});
    add(NameOf::other_acid,
        {"malic acid",    "tartaric acid",     "ascorbic acid",  "vitamin c",     "oxalic acid",
         "glycolic acid", "gluconic acid",     "salicylic acid", "succinic acid", "fumaric acid",
         "formic acid",   "phosphoric acid",   "sulfuric acid",  "sorbic acid",   "benzoic acid",
         "boric acid",    "hydrochloric acid", "lemon juice",    "lime juice",    "cream of tartar",
         "citrus juice",  "muriatic acid"});
    // Free fatty acids are fats: none of them goes in uncounted either.
    add(NameOf::other_acid,
        {"oleic acid", "palmitic acid", "lauric acid", "myristic acid", "linoleic acid",
         "linolenic acid", "ricinoleic acid", "caprylic acid", "capric acid", "behenic acid",
         "fatty acid", "fatty acids", "coconut fatty acid", "coconut fatty acids"});
    add(NameOf::water, {"water",
                        "distilled water",
                        "deionised water",
                        "deionized water",
                        "demineralised water",
                        "demineralized water",
                        "purified water",
                        "tap water",
                        "soft water",
                        "rain water",
                        "rainwater",
                        "spring water",
                        "cold water",
                        "ice",
                        "ice water",
                        "iced water",
                        "ice cubes",
                        "crushed ice",
                        "frozen water",
                        "tea",
                        "black tea",
                        "green tea",
                        "white tea",
                        "herbal tea",
                        "herb tea",
                        "chamomile tea",
                        "camomile tea",
                        "nettle tea",
                        "peppermint tea",
                        "mint tea",
                        "rooibos tea",
                        "calendula tea",
                        "lavender tea",
                        "rosemary tea",
                        "sage tea",
                        "fennel tea",
                        "hibiscus tea",
                        "oolong tea",
                        "coffee",
                        "black coffee",
                        "brewed coffee",
                        "filter coffee",
                        "cold coffee",
                        "cold brew",
                        "espresso"});
    add(NameOf::lactate_syrup, {"sodium lactate", "sodium lactate syrup", "sodium lactate solution",
                                "liquid sodium lactate"});
    add(NameOf::lactate_powder, {"sodium lactate powder", "sodium lactate dry",
                                 "dry sodium lactate", "powdered sodium lactate"});
    add(NameOf::salt, {"salt", "table salt", "sea salt", "fine salt", "fine sea salt",
                       "cooking salt", "kitchen salt", "rock salt", "himalayan salt", "pink salt",
                       "pickling salt", "sodium chloride", "coarse salt"});
    add(NameOf::brine, {"brine", "salt water", "salt brine", "saltwater"});
    add(NameOf::sugar, {"sugar", "white sugar", "cane sugar", "table sugar", "granulated sugar",
                        "caster sugar", "brown sugar", "sucrose"});
    add(NameOf::alkali, {"naoh",
                         "koh",
                         "lye",
                         "lye water",
                         "lye solution",
                         "lye concentrate",
                         "soda lye",
                         "potash lye",
                         "caustic",
                         "caustic soda",
                         "caustic potash",
                         "sodium hydroxide",
                         "potassium hydroxide",
                         "lithium hydroxide",
                         "calcium hydroxide",
                         "calcium oxide",
                         "magnesium hydroxide",
                         "ammonium hydroxide",
                         "ammonia",
                         "potash",
                         "pearl ash",
                         "pearlash",
                         "soda",
                         "soda ash",
                         "sal soda",
                         "washing soda",
                         "baking soda",
                         "bicarb",
                         "bicarbonate of soda",
                         "sodium bicarbonate",
                         "sodium hydrogen carbonate",
                         "sodium carbonate",
                         "sodium percarbonate",
                         "potassium carbonate",
                         "potassium bicarbonate",
                         "salt of tartar",
                         "baking powder",
                         "washing powder",
                         "borax",
                         "sodium borate",
                         "sodium tetraborate",
                         "lime",
                         "quicklime",
                         "slaked lime",
                         "pickling lime",
                         "wood ash",
                         "ash",
                         "trisodium phosphate",
                         "sodium silicate",
                         "water glass",
                         "waterglass",
                         "drain cleaner",
                         "oven cleaner"});
    return out;
  }();
  return all;
}

bool any_of(const std::vector<std::string>& words, const std::set<std::string>& wanted) {
  for (const auto& word : words) {
    if (wanted.contains(word)) return true;
  }
  return false;
}

}  // namespace

NameOf meaning_of(const std::string& name) {
  const std::string folded = plain(name);
  const auto found = names().find(folded);
  if (found != names().end()) return found->second;
  // Cider, wine, malt ...: a vinegar by its last word; "vinegar powder" is none.
  const auto words = words_of(folded);
  return !words.empty() && words.back() == "vinegar" ? NameOf::acetic : NameOf::nothing;
}

std::string sounds_like(const std::string& name) {
  static const std::set<std::string> alkali = {"lye",       "caustic",     "hydroxide", "potash",
                                               "carbonate", "bicarbonate", "naoh",      "koh",
                                               "quicklime", "ammonia",     "borax"};
  static const std::set<std::string> colour_or_scent = {
      "mica",      "pigment",   "dye",  "dyes",  "oxide",     "colour",  "color",   "lake",
      "colourant", "colorant",  "clay", "leaf",  "leaves",    "petals",  "flowers", "buds",
      "peel",      "fragrance", "zest", "scent", "essential", "perfume", "parfum"};
  static const std::set<std::string> fat = {
      "oil",       "oils",  "butter", "fat",  "fats", "lard",  "wax",     "ghee",      "tallow",
      "margarine", "cream", "egg",    "eggs", "yolk", "yolks", "lanolin", "shortening"};
  static const std::set<std::string> liquid = {
      "water",      "milk",  "tea",     "coffee",   "juice",  "beer",   "ale",
      "stout",      "wine",  "cider",   "whey",     "kefir",  "yogurt", "yoghurt",
      "buttermilk", "gel",   "syrup",   "puree",    "broth",  "sap",    "rum",
      "vodka",      "perry", "alcohol", "hydrosol", "liquid", "soda",   "solution"};
  const std::string folded = plain(name);
  // Chalk does not dissolve: it neither gives nor takes alkali.
  if (folded == "calcium carbonate") return {};
  const auto words = words_of(folded);
  if (any_of(words, alkali)) return "an alkali";
  if (any_of(words, colour_or_scent)) return {};
  if (any_of(words, fat)) return "a fat";
  if (any_of(words, liquid)) return "a liquid";
  return {};
}

}  // namespace barwright::recipe
