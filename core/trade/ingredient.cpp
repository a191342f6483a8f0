#include "core/trade/ingredient.hpp"

#include <array>
#include <cctype>

namespace barwright::core {
namespace {

struct Known {
  std::string_view name;
  std::string_view eu;
  std::string_view us;
  Role role = Role::plain;
};

// All from memory of CosIng and of 21 CFR 73 and 74 (recalled): a label's names are to be checked.
constexpr std::array kKnown = {
    Known{"water", "Aqua", "Water"},
    Known{"sodium hydroxide", "Sodium Hydroxide", "Sodium Hydroxide"},
    Known{"potassium hydroxide", "Potassium Hydroxide", "Potassium Hydroxide"},
    Known{"salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"table salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"fine salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"coarse salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"rock salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"pickling salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"cooking salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"kitchen salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"himalayan salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"pink salt", "Sodium Chloride", "Sodium Chloride"},
    Known{"sodium chloride", "Sodium Chloride", "Sodium Chloride"},
    Known{"sea salt", "Maris Sal", "Sea Salt"},
    Known{"fine sea salt", "Maris Sal", "Sea Salt"},
    Known{"coarse sea salt", "Maris Sal", "Sea Salt"},
    Known{"dead sea salt", "Maris Sal", "Sea Salt"},
    Known{"epsom salt", "Magnesium Sulfate", "Magnesium Sulfate"},
    Known{"dead sea mud", "Maris Limus", "Sea Silt"},
    Known{"brown sugar", "Sucrose", "Sucrose"},
    Known{"white sugar", "Sucrose", "Sucrose"},
    Known{"sugar", "Sucrose", "Sucrose"},
    Known{"honey", "Mel", "Honey"},
    Known{"milk", "Lac", "Milk"},
    Known{"whole milk", "Lac", "Milk"},
    Known{"goat milk", "Caprae Lac", "Goat Milk"},
    Known{"goats milk", "Caprae Lac", "Goat Milk"},
    Known{"goat's milk", "Caprae Lac", "Goat Milk"},
    Known{"cow milk", "Lac", "Milk"},
    Known{"buttermilk", "Butyris Lac", "Buttermilk"},
    Known{"yogurt", "Yogurt", "Yogurt"},
    Known{"yoghurt", "Yogurt", "Yogurt"},
    Known{"plain yogurt", "Yogurt", "Yogurt"},
    Known{"plain yoghurt", "Yogurt", "Yogurt"},
    Known{"coconut milk", "Cocos Nucifera Milk", "Cocos Nucifera (Coconut) Milk"},
    Known{"oat milk", "Avena Sativa Kernel Extract", "Avena Sativa (Oat) Kernel Extract"},
    Known{"oat drink", "Avena Sativa Kernel Extract", "Avena Sativa (Oat) Kernel Extract"},
    Known{"almond milk", "Prunus Amygdalus Dulcis Seed Extract",
          "Prunus Amygdalus Dulcis (Sweet Almond) Seed Extract"},
    Known{"almond drink", "Prunus Amygdalus Dulcis Seed Extract",
          "Prunus Amygdalus Dulcis (Sweet Almond) Seed Extract"},
    Known{"beer", "Beer", "Beer"},
    Known{"ale", "Beer", "Beer"},
    Known{"stout", "Beer", "Beer"},
    Known{"lager", "Beer", "Beer"},
    Known{"wine", "Wine", "Wine"},
    Known{"red wine", "Wine", "Wine"},
    Known{"white wine", "Wine", "Wine"},
    Known{"aloe", "Aloe Barbadensis Leaf Juice", "Aloe Barbadensis Leaf Juice"},
    Known{"aloe vera", "Aloe Barbadensis Leaf Juice", "Aloe Barbadensis Leaf Juice"},
    Known{"aloe juice", "Aloe Barbadensis Leaf Juice", "Aloe Barbadensis Leaf Juice"},
    Known{"aloe vera juice", "Aloe Barbadensis Leaf Juice", "Aloe Barbadensis Leaf Juice"},
    Known{"aloe gel", "Aloe Barbadensis Leaf Juice", "Aloe Barbadensis Leaf Juice"},
    Known{"aloe vera gel", "Aloe Barbadensis Leaf Juice", "Aloe Barbadensis Leaf Juice"},
    Known{"coconut water", "Cocos Nucifera Fruit Juice", "Cocos Nucifera (Coconut) Fruit Juice"},
    Known{"sea water", "Maris Aqua", "Sea Water"},
    Known{"seawater", "Maris Aqua", "Sea Water"},
    Known{"tea", "Camellia Sinensis Leaf Extract", "Camellia Sinensis Leaf Extract"},
    Known{"green tea", "Camellia Sinensis Leaf Extract", "Camellia Sinensis Leaf Extract"},
    Known{"black tea", "Camellia Sinensis Leaf Extract", "Camellia Sinensis Leaf Extract"},
    Known{"pumpkin puree", "Cucurbita Pepo Fruit", "Cucurbita Pepo (Pumpkin) Fruit"},
    Known{"carrot puree", "Daucus Carota Sativa Root", "Daucus Carota Sativa (Carrot) Root"},
    Known{"cucumber puree", "Cucumis Sativus Fruit", "Cucumis Sativus (Cucumber) Fruit"},
    Known{"banana puree", "Musa Sapientum Fruit", "Musa Sapientum (Banana) Fruit"},
    Known{"avocado puree", "Persea Gratissima Fruit", "Persea Gratissima (Avocado) Fruit"},
    Known{"strawberry puree", "Fragaria Ananassa Fruit", "Fragaria Ananassa (Strawberry) Fruit"},
    Known{"oats", "Avena Sativa Kernel Meal", "Avena Sativa (Oat) Kernel Meal"},
    Known{"oatmeal", "Avena Sativa Kernel Meal", "Avena Sativa (Oat) Kernel Meal"},
    Known{"colloidal oatmeal", "Avena Sativa Kernel Flour", "Avena Sativa (Oat) Kernel Flour"},
    Known{"oat", "Avena Sativa Kernel Meal", "Avena Sativa (Oat) Kernel Meal"},
    Known{"oat flour", "Avena Sativa Kernel Flour", "Avena Sativa (Oat) Kernel Flour"},
    Known{"ground oats", "Avena Sativa Kernel Meal", "Avena Sativa (Oat) Kernel Meal"},
    Known{"coffee", "Coffea Arabica Seed Powder", "Coffea Arabica (Coffee) Seed Powder"},
    Known{"sodium lactate", "Sodium Lactate", "Sodium Lactate"},
    Known{"sodium lactate syrup", "Sodium Lactate", "Sodium Lactate"},
    Known{"sodium lactate powder", "Sodium Lactate", "Sodium Lactate"},
    Known{"citric acid", "Citric Acid", "Citric Acid"},
    Known{"citric acid anhydrous", "Citric Acid", "Citric Acid"},
    Known{"citric acid monohydrate", "Citric Acid", "Citric Acid"},
    Known{"lactic acid", "Lactic Acid", "Lactic Acid"},
    Known{"vinegar", "Acetum", "Vinegar"},
    Known{"silk", "Serica", "Silk"},
    Known{"vitamin e", "Tocopherol", "Tocopherol"},
    Known{"tocopherol", "Tocopherol", "Tocopherol"},
    Known{"rosemary extract", "Rosmarinus Officinalis Leaf Extract",
          "Rosmarinus Officinalis (Rosemary) Leaf Extract"},
    Known{"pumice", "Pumice", "Pumice"},
    Known{"kaolin", "Kaolin", "Kaolin"},
    Known{"white clay", "Kaolin", "Kaolin"},
    Known{"bentonite", "Bentonite", "Bentonite"},
    Known{"kaolin clay", "Kaolin", "Kaolin"},
    Known{"china clay", "Kaolin", "Kaolin"},
    Known{"pink clay", "Kaolin", "Kaolin"},
    Known{"rose clay", "Kaolin", "Kaolin"},
    Known{"bentonite clay", "Bentonite", "Bentonite"},
    Known{"montmorillonite", "Montmorillonite", "Montmorillonite"},
    Known{"montmorillonite clay", "Montmorillonite", "Montmorillonite"},
    Known{"illite", "Illite", "Illite"},
    Known{"green clay", "Illite", "Illite"},
    Known{"french green clay", "Illite", "Illite"},
    Known{"red clay", "Illite", "Illite"},
    Known{"yellow clay", "Illite", "Illite"},
    Known{"rhassoul", "Moroccan Lava Clay", "Moroccan Lava Clay"},
    Known{"rhassoul clay", "Moroccan Lava Clay", "Moroccan Lava Clay"},
    Known{"ghassoul", "Moroccan Lava Clay", "Moroccan Lava Clay"},
    Known{"ghassoul clay", "Moroccan Lava Clay", "Moroccan Lava Clay"},
    Known{"fuller's earth", "Solum Fullonum", "Fuller's Earth"},
    Known{"diatomaceous earth", "Solum Diatomeae", "Diatomaceous Earth"},
    Known{"zeolite", "Zeolite", "Zeolite"},
    Known{"talc", "Talc", "Talc"},
    Known{"charcoal", "Charcoal Powder", "Charcoal Powder"},
    Known{"activated charcoal", "Charcoal Powder", "Charcoal Powder"},
    Known{"titanium dioxide", "CI 77891", "Titanium Dioxide", Role::colourant},
    Known{"zinc oxide", "CI 77947", "Zinc Oxide", Role::colourant},
    Known{"mica", "CI 77019", "Mica", Role::colourant},
    Known{"red iron oxide", "CI 77491", "Iron Oxides", Role::colourant},
    Known{"yellow iron oxide", "CI 77492", "Iron Oxides", Role::colourant},
    Known{"black iron oxide", "CI 77499", "Iron Oxides", Role::colourant},
    Known{"brown iron oxide", "CI 77491, CI 77492, CI 77499", "Iron Oxides", Role::colourant},
    Known{"ultramarine blue", "CI 77007", "Ultramarines", Role::colourant},
    Known{"ultramarine violet", "CI 77007", "Ultramarines", Role::colourant},
    Known{"ultramarine pink", "CI 77007", "Ultramarines", Role::colourant},
    Known{"chromium oxide green", "CI 77288", "Chromium Oxide Greens", Role::colourant},
    Known{"hydrated chromium oxide", "CI 77289", "Chromium Hydroxide Green", Role::colourant},
    Known{"manganese violet", "CI 77742", "Manganese Violet", Role::colourant},
    Known{"annatto", "CI 75120", "Annatto", Role::colourant},
    Known{"fragrance oil", "Parfum", "Fragrance", Role::fragrance},
    Known{"fragrance", "Parfum", "Fragrance", Role::fragrance},
    Known{"scent", "Parfum", "Fragrance", Role::fragrance},
};

std::string lower(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool space = c == ' ' || c == '-' || c == '_';
    if (space && (out.empty() || out.back() == ' ')) continue;
    out += space ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

}  // namespace

const char* word(NameStatus status) {
  switch (status) {
    case NameStatus::established:
      return "established";
    case NameStatus::formed_by_analogy:
      return "formed by analogy";
    case NameStatus::recalled:
      return "from memory";
    case NameStatus::makers_own:
      return "your own entry";
    case NameStatus::missing:
      return "missing";
  }
  return "";
}

std::optional<IngredientName> find_ingredient_name(std::string_view name) {
  std::string wanted = lower(name);
  if (wanted.ends_with('%')) {  // "citric acid anhydrous 50 %": what it is, not how strong
    wanted.erase(wanted.find_last_not_of("0123456789.% ") + 1);
  }
  for (const auto& known : kKnown) {
    if (known.name == wanted) {
      return IngredientName{std::string(known.eu), std::string(known.us), known.role};
    }
  }
  return std::nullopt;
}

const IngredientName& water_name() {
  static const IngredientName name{"Aqua", "Water", Role::plain};
  return name;
}
const IngredientName& glycerin_name() {
  static const IngredientName name{"Glycerin", "Glycerin", Role::plain};
  return name;
}
const IngredientName& fragrance_name() {
  static const IngredientName name{"Parfum", "Fragrance", Role::fragrance};
  return name;
}

std::string potassium_name(const std::string& sodium_name) {
  constexpr std::string_view kSodium = "Sodium ";
  if (!sodium_name.starts_with(kSodium)) return sodium_name;
  return "Potassium " + sodium_name.substr(kSodium.size());
}

}  // namespace barwright::core
