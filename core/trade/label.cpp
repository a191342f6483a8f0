#include "core/trade/label.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <map>

#include "core/lye/products.hpp"
#include "core/lye/recipe.hpp"
#include "core/units/format.hpp"
#include "core/units/quantity.hpp"

namespace barwright::core {
namespace {

/// Adds up grams under one name.
class Collector {
 public:
  void add(const std::string& name, const std::string& from, double grams, Role role,
           NameStatus status, bool allergen = false, double error = 0) {
    if (!(grams > 0)) return;
    errors_[name] += error;
    const auto found = places_.find(name);
    if (found == places_.end()) {
      places_[name] = items_.size();
      items_.push_back({name, from, grams, 0, role, status, allergen});
      return;
    }
    Ingredient& item = items_[found->second];
    item.grams += grams;
    item.allergen = item.allergen && allergen;
    if (item.from != from &&
        (", " + item.from + ",").find(", " + from + ",") == std::string::npos) {
      item.from += ", " + from;
    }
  }

  IngredientList list() {
    IngredientList out;
    out.items = std::move(items_);
    for (const auto& item : out.items) {
      if (!item.allergen) out.total_grams += item.grams;
    }
    for (auto& item : out.items) {
      item.fraction = item.grams / out.total_grams;
      const double error = errors_[item.name];
      item.span = {std::max(0.0, item.grams - error) / out.total_grams,
                   (item.grams + error) / out.total_grams};
    }
    std::stable_sort(out.items.begin(), out.items.end(),
                     [](const Ingredient& a, const Ingredient& b) {
                       const bool last_a = a.role == Role::colourant;
                       const bool last_b = b.role == Role::colourant;
                       if (last_a != last_b) return last_b;
                       if (a.grams != b.grams) return a.grams > b.grams;
                       return a.name < b.name;
                     });
    for (std::size_t i = 0; i + 1 < out.items.size(); ++i)
      out.items[i].near_next = out.items[i].span.least < out.items[i + 1].span.most;
    return out;
  }

 private:
  std::vector<Ingredient> items_;
  std::map<std::string, std::size_t> places_;
  std::map<std::string, double> errors_;  // g either way, by name
};

struct Named {
  std::string name;
  Role role;
  NameStatus status;
};

Named name_of(const LabelAddition& addition, Custom custom) {
  const auto known = find_ingredient_name(addition.name);
  const Role role = addition.own_role.value_or(known ? known->role : Role::plain);
  if (!addition.own_name.empty()) return {addition.own_name, role, NameStatus::makers_own};
  if (role == Role::fragrance && !known)
    return {fragrance_name().in(custom), role, NameStatus::recalled};
  if (known) return {known->in(custom), role, NameStatus::recalled};
  return {addition.name, role, NameStatus::missing};
}

void add_additions(Collector& out, const LabelRequest& request, bool saponified) {
  for (const auto& addition : request.additions) {
    if (saponified && !addition.becomes.empty()) {
      out.add(addition.becomes, addition.name, addition.becomes_grams, Role::plain,
              NameStatus::recalled);
      continue;
    }
    const Named named = name_of(addition, request.custom);
    out.add(named.name, addition.name,
            saponified ? addition.cured_grams.value_or(addition.grams) : addition.grams, named.role,
            named.status);
  }
}

/// Allergens of all scents that reach the share of the finished bar from which law names them.
void add_allergens(Collector& out, const LabelRequest& request) {
  double cured = 0;
  for (const auto& part : request.parts) cured += part.cured_grams;
  std::map<std::string, double> grams;
  std::map<std::string, std::string> scents;
  for (const auto& allergen : request.allergens) {
    for (const auto& addition : request.additions) {
      if (addition.name != allergen.scent) continue;
      grams[allergen.name] += addition.grams * allergen.fraction;
      std::string& from = scents[allergen.name];
      if (from.find(allergen.scent) == std::string::npos)
        from += (from.empty() ? "" : ", ") + allergen.scent;
    }
  }
  for (const auto& [name, mass] : grams) {
    if (mass >= kAllergenLeast * cured * (1 - 1e-12))
      out.add(name, "in " + scents[name], mass, Role::plain, NameStatus::makers_own, true);
  }
}

void add_soaps(Collector& out, const LabelPart& part, const LabelFat& fat, double koh_moles) {
  const std::array<PotFat, 1> one{fat.fat};
  const NameStatus status =
      fat.saponified_by_analogy ? NameStatus::formed_by_analogy : NameStatus::established;
  for (const Alkali alkali : {Alkali::sodium_hydroxide, Alkali::potassium_hydroxide}) {
    const bool potassium = alkali == Alkali::potassium_hydroxide;
    const double share = potassium ? koh_moles : 1 - koh_moles;
    const std::array<AlkaliLine, 1> line{AlkaliLine{alkali, 1, 1, 1}};
    const Products made = products_of(one, line, {.superfat = part.superfat});
    out.add(potassium ? potassium_name(fat.saponified) : fat.saponified, fat.fat.name,
            share * made.soap, Role::plain, potassium ? NameStatus::formed_by_analogy : status);
    out.add(glycerin_name().eu, "set free by the lye", share * made.glycerine, Role::plain,
            NameStatus::established);
    out.add(fat.inci, fat.fat.name + " left over",
            share * (made.unsaponified + made.unsaponifiable), Role::plain,
            NameStatus::established);
  }
}

IngredientList saponified_as_stated(const LabelRequest& request) {
  Collector out;
  for (const auto& part : request.parts) {
    double sodium = 0, potassium = 0;
    for (const auto& line : part.alkali) {
      (line.alkali == Alkali::sodium_hydroxide ? sodium : potassium) +=
          line.pure_grams() / molar_mass(line.alkali);
    }
    const double koh_moles = potassium > 0 ? potassium / (sodium + potassium) : 0;
    for (const auto& fat : part.fats) add_soaps(out, part, fat, koh_moles);
    out.add(water_name().in(request.custom), "water left after the cure", part.cured_water,
            Role::plain, NameStatus::established);
  }
  add_additions(out, request, true);
  add_allergens(out, request);
  return out.list();
}

/// A soap's weight is known no better, for the fatty acids of a lot vary (judgement).
constexpr double kAsGood = 0.99;

std::string folded(std::string_view text) {
  std::string out = " ";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool letter = std::isalnum(byte) != 0 || byte >= 0x80;
    if (letter)
      out += static_cast<char>(std::tolower(byte));
    else if (out.back() != ' ')
      out += ' ';
  }
  return out + (out.back() == ' ' ? "" : " ");
}

}  // namespace

std::string IngredientList::line() const {
  std::string out;
  for (const auto& item : items) out += (out.empty() ? "" : ", ") + item.name;
  return out;
}

std::vector<std::size_t> IngredientList::nearly_equal() const {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i + 1 < items.size(); ++i) {
    const Ingredient& one = items[i];
    const Ingredient& next = items[i + 1];
    if (one.role == Role::colourant || next.role == Role::colourant) continue;
    if (one.allergen || next.allergen || next.fraction < kAnyOrderBelow) continue;
    if (one.near_next) out.push_back(i);
  }
  return out;
}

IngredientList as_added(const LabelRequest& request) {
  Collector out;
  for (const auto& part : request.parts) {
    for (const auto& fat : part.fats)
      out.add(fat.inci, fat.fat.name, fat.fat.grams, Role::plain, NameStatus::established, false,
              part.oils_error);
    for (const auto& line : part.alkali) {
      out.add(line.alkali == Alkali::sodium_hydroxide ? "Sodium Hydroxide" : "Potassium Hydroxide",
              name(line.alkali), line.grams, Role::plain, NameStatus::established, false,
              part.lye_error);
    }
    out.add(water_name().in(request.custom), "water", part.water_grams, Role::plain,
            NameStatus::established, false, part.lye_error);
  }
  add_additions(out, request, false);
  add_allergens(out, request);
  return out.list();
}

IngredientList as_saponified(const LabelRequest& request) {
  IngredientList out = saponified_as_stated(request);
  std::map<std::string, Ingredient*> by_name;
  for (auto& item : out.items) by_name[item.name] = &item;
  for (const bool much_superfat : {false, true}) {
    for (const bool much_water : {false, true}) {
      LabelRequest other = request;
      for (auto& part : other.parts) {
        if (part.superfat_band)
          part.superfat = std::clamp(
              much_superfat ? part.superfat_band->most : part.superfat_band->least, 0.0, 1.0);
        if (part.cured_water_band)
          part.cured_water =
              much_water ? part.cured_water_band->most : part.cured_water_band->least;
      }
      std::map<std::string, double> fractions;
      for (const auto& item : saponified_as_stated(other).items) {
        const auto found = by_name.find(item.name);
        if (found == by_name.end()) continue;
        fractions[item.name] = item.fraction;
        Range& span = found->second->span;
        span = {std::min(span.least, item.fraction), std::max(span.most, item.fraction)};
      }
      // Their doubts go together: what counts is whether one overtakes the other.
      for (std::size_t i = 0; i + 1 < out.items.size(); ++i) {
        if (fractions[out.items[i + 1].name] > kAsGood * fractions[out.items[i].name])
          out.items[i].near_next = true;
      }
    }
  }
  return out;
}

std::string net_weight_line(double grams, Custom custom) {
  std::string metric = fixed(grams, grams < 10 ? 1 : 0) + " g";
  if (custom == Custom::eu) return metric;
  return "Net Wt " + fixed(std::floor(grams / kGramsPerOunce * 10 + 1e-9) / 10, 1) + " oz (" +
         metric + ")";
}

std::vector<Claim> find_claims(std::string_view words) {
  static constexpr const char* kMedicine =
      "says it treats or prevents something: that makes it a medicine to the law, not a soap";
  static constexpr const char* kSkin =
      "says what it does to skin: a cosmetic claim, which must be borne out (EU 655/2013), and in "
      "the US takes it out of the plain-soap exemption (21 CFR 701.20)";
  static constexpr const char* kFree =
      "a 'free from' or 'no' claim must hold for every trace and must not run others down";
  static constexpr const char* kVague =
      "has no single legal meaning for soap: say what you mean by it and be able to show it";
  static constexpr const char* kCertified =
      "is often reserved to certified goods: ask the certifier";
  struct Entry {
    const char* word;
    const char* why;
  };
  static constexpr std::array kEntries = {
      Entry{"eczema", kMedicine},
      Entry{"psoriasis", kMedicine},
      Entry{"acne", kMedicine},
      Entry{"heals", kMedicine},
      Entry{"healing", kMedicine},
      Entry{"treats", kMedicine},
      Entry{"cures", kMedicine},
      Entry{"antibacterial", kMedicine},
      Entry{"antiseptic", kMedicine},
      Entry{"therapeutic", kMedicine},
      Entry{"kills", kMedicine},
      Entry{"moisturising", kSkin},
      Entry{"moisturizing", kSkin},
      Entry{"nourishing", kSkin},
      Entry{"anti ageing", kSkin},
      Entry{"anti aging", kSkin},
      Entry{"soothing", kSkin},
      Entry{"sensitive", kSkin},
      Entry{"gentle", kSkin},
      Entry{"mild", kSkin},
      Entry{"hypoallergenic", kSkin},
      Entry{"dermatologically tested", kSkin},
      Entry{"baby", kSkin},
      Entry{"free from", kFree},
      Entry{"free", kFree},
      Entry{"no", kFree},
      Entry{"without", kFree},
      Entry{"chemical free", kFree},
      Entry{"natural", kVague},
      Entry{"pure", kVague},
      Entry{"eco", kVague},
      Entry{"green", kVague},
      Entry{"sustainable", kVague},
      Entry{"biodegradable", kVague},
      Entry{"handmade", kVague},
      Entry{"organic", kCertified},
      Entry{"vegan", kCertified},
      Entry{"cruelty free", kCertified},
      Entry{"fair trade", kCertified},
      Entry{"fairtrade", kCertified},
  };
  std::vector<Claim> out;
  const std::string text = folded(words);
  for (const auto& entry : kEntries) {
    if (text.find(" " + std::string(entry.word) + " ") == std::string::npos) continue;
    out.push_back({entry.word, entry.why});
  }
  // "free" within "free from" is said once.
  const std::vector<Claim> all = out;
  std::erase_if(out, [&all](const Claim& each) {
    return std::any_of(all.begin(), all.end(), [&each](const Claim& other) {
      return other.word.size() > each.word.size() &&
             (" " + other.word + " ").find(" " + each.word + " ") != std::string::npos;
    });
  });
  return out;
}

const std::string& law_note() {
  static const std::string note =
      "Labelling law is local: in the EU Regulation (EC) No 1223/2009 (article 19), in the US 21 "
      "CFR "
      "701. What stands here is reckoned from your recipe and must be checked against the law "
      "where "
      "you sell and your suppliers' documents. Some words on a label are claims, and claims must "
      "be "
      "borne out.";
  return note;
}

}  // namespace barwright::core
