#include "targets/files/lye_file_reader.hpp"

#include <fmt/format.h>

#include <cmath>

#include "oils/text/yaml_text.hpp"
#include "targets/files/lye_file.hpp"
#include "targets/files/lye_file_dose.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

namespace {

using Alkali = LyeWish::Alkali;

Alkali read_alkali(const Node& node) {
  return choice<Alkali>(node, {{"sodium hydroxide", Alkali::sodium},
                               {"potassium hydroxide", Alkali::potassium},
                               {"NaOH", Alkali::sodium},
                               {"KOH", Alkali::potassium},
                               {"soda lye", Alkali::sodium},
                               {"potash lye", Alkali::potassium}});
}

/// {sodium hydroxide: 95 %, potassium hydroxide: 5 %, by: moles}
void read_mixed(const Node& node, LyeWish& lye) {
  Block block(node);
  const auto soda = block.take({"sodium hydroxide", "NaOH", "soda lye"});
  const auto potash = block.take({"potassium hydroxide", "KOH", "potash lye"});
  const auto by = block.take("by");
  block.done();
  if (!soda || !potash)
    node.fail("mixed alkali names both",
              "Write {sodium hydroxide: 95 %, potassium hydroxide: 5 %, "
              "by: moles}, or one alkali alone.");
  if (!by)
    node.fail("the shares of the alkalis: by what?",
              "Add 'by: moles', 'by: grams' or 'by: fat' (the share of the fat each saponifies).");
  const double soda_share = fraction_within(*soda, 0, 1);
  const double potash_share = fraction_within(*potash, 0, 1);
  if (std::abs(soda_share + potash_share - 1) > 1e-9)
    node.fail("the alkalis add to " + percent(soda_share + potash_share),
              "Make them add to 100 %.");
  lye.alkali = Alkali::mixed;
  lye.koh_share = potash_share;
  lye.koh_basis = choice<LyeWish::KohBasis>(*by, {{"moles", LyeWish::KohBasis::moles},
                                                  {"grams", LyeWish::KohBasis::grams},
                                                  {"fat", LyeWish::KohBasis::fat}});
  if (potash_share <= 0 || potash_share >= 1)
    (potash_share <= 0 ? potash : soda)
        ->fail("0 % of it is none, and the lye is not mixed",
               std::string("Write 'alkali: ") + (potash_share <= 0 ? "sodium" : "potassium") +
                   " hydroxide'.");
}

double strength_of(const Node& node) {
  const double value = fraction_within(node, 0, 1);
  if (value < 0.5)
    node.fail("'" + node.text() + "' is no strength of solid alkali",
              "Write what the jar's label says, such as 99 %.");
  return value;
}

/// 90 %, or {stated: 90 %, least: 89.5 %, most: 91 %}
StrengthWish strength(const Node& node) {
  StrengthWish out;
  out.written = written(node);
  if (!node.is_map()) {
    out.stated = strength_of(node);
    return out;
  }
  Block block(node);
  out.stated = strength_of(block.need("stated"));
  block.read("least", [&](const Node& least) {
    out.least = strength_of(least);
    if (*out.least > out.stated) least.fail("the least is above what is stated", "Correct one.");
  });
  block.read("most", [&](const Node& most) {
    out.most = strength_of(most);
    if (*out.most < out.stated) most.fail("the most is below what is stated", "Correct one.");
  });
  block.done();
  return out;
}

void read_strength(const Node& node, LyeWish& lye) {
  if (node.is_map() && !node.has("stated")) {
    Block block(node);
    block.read({"sodium hydroxide", "NaOH", "soda lye"},
               [&](const Node& soda) { lye.naoh_strength = strength(soda); });
    block.read({"potassium hydroxide", "KOH", "potash lye"},
               [&](const Node& potash) { lye.koh_strength = strength(potash); });
    block.done();
    return;
  }
  if (lye.alkali == Alkali::mixed)
    node.fail("one strength for two alkalis",
              "Write {sodium hydroxide: 99 %, potassium hydroxide: 90 %}.");
  if (!lye.alkali)
    node.fail("a strength without its alkali", "Add 'alkali: sodium hydroxide' beside it.");
  (lye.alkali == Alkali::potassium ? lye.koh_strength : lye.naoh_strength) = strength(node);
}

void read_superfat(const Node& node, LyeWish& lye) {
  if (node.is_map()) {
    Block block(node);
    block.read("aim", [&](const Node& aim) { lye.superfat = fraction_within(aim, 0, 0.5); });
    const auto floor = block.take("never-below");
    block.read("raise", [&](const Node& raise) { lye.raise = raise.yes_no(); });
    block.faults().of([&] {
      if (floor) lye.never_below = fraction_within(*floor, 0, 0.5);
    });
    block.done();
    if (floor && lye.superfat && *lye.never_below > *lye.superfat)
      floor->fail("never below " + percent(*lye.never_below) + " is above the aim of " +
                      percent(*lye.superfat),
                  "Aim higher, or set a lower floor.");
    return;
  }
  lye.superfat = fraction_within(node, 0, 0.5);
}

/// "2 to 1", "2:1", "2": grams of water per gram of alkali.
double water_ratio(const Node& node) {
  const std::string remedy = "Write water to alkali, such as '2 to 1'.";
  std::string text = node.text();
  double over = 1;
  if (const auto colon = text.find(':'); colon != std::string::npos) text.replace(colon, 1, " to ");
  Phrase phrase(node, text, 0);
  const double water = phrase.number();
  if (phrase.take("to")) over = phrase.number();
  phrase.end({"to"}, remedy);
  if (!(over > 0) || !(water > 0) || !std::isfinite(water / over))
    node.fail("'" + node.text() + "' is no ratio of water to alkali", remedy);
  return water / over;
}

void read_water(const Node& node, LyeWish& lye) {
  Phrase phrase(node);
  const double share = phrase.fraction();
  if (!phrase.take_any({"of the oils", "of oils", "of the oil"}))
    phrase.fail("'" + node.text() + "': of what?",
                "Write '38 % of oils', or give concentration or water-ratio.");
  phrase.end({}, "Write '38 % of oils'.");
  if (!(share > 0 && share <= 2))
    node.fail(percent(share) + " of the oils cannot be", "Write a share such as 30 % of oils.");
  lye.water_of_oils = share;
}

void read_lactate(const Node& node, LyeWish& lye) {
  Addition addition;
  addition.name = "sodium lactate";
  addition.written = {"sodium lactate", node.place(), node};
  if (!node.is_map())
    node.fail("sodium lactate: syrup or dry?",
              "Write {syrup: 60 %, dose: 20 g per kg oils} or {dry: 12 g per kg oils}.");
  Block block(node);
  block.one_only({"syrup", "dry"});
  block.settle();
  if (auto dry = block.take("dry")) {
    addition.strength = 1;
    addition.dose = read_dose(*dry, PlainGrams::need_basis);
  } else {
    const Node syrup = block.need("syrup");
    addition.strength = above_zero(fraction_within(syrup, 0, 1), syrup, "a strength");
    addition.dose = read_dose(block.need("dose"), PlainGrams::need_basis);
  }
  block.read("when", [&](const Node& when) { addition.when = plain_text(when); });
  block.done();
  lye.into_lye.push_back(std::move(addition));
}

/// Refuses a word that bears on nothing where it stands.
void check_additions(const LyeWish& lye) {
  for (const auto* list : {&lye.acids, &lye.liquids, &lye.into_lye})
    for (const Addition& addition : *list)
      if (addition.dose.teaspoons || addition.spoon_grams)
        addition.written.fail(
            "what meets the lye is weighed, never spooned: '" + addition.name + "'",
            "Write grams, such as '20 g per kg oils'.");
  const auto useless = [](const Addition& addition, const std::string& word, const char* where) {
    addition.written.fail("'" + word + "' has no effect on '" + addition.name + "'",
                          std::string("Take it out; it is for ") + where + ".");
  };
  for (const Addition& acid : lye.acids)
    if (acid.frozen) useless(acid, "frozen: yes", "liquids");
  for (const Addition& liquid : lye.liquids)
    if (liquid.lye_corrected) useless(liquid, "lye", "acids");
  for (const Addition& other : lye.into_lye)
    if (other.frozen) useless(other, "frozen: yes", "liquids");
}

}  // namespace

void check_strengths_used(const LyeWish& lye) {
  const Alkali alkali = lye.alkali.value_or(Alkali::sodium);
  const auto unused = [](const StrengthWish& strength, const char* its, const char* holds) {
    strength.written.fail(
        std::string("the strength of ") + its + " hydroxide bears on nothing: the lye is " + holds +
            " hydroxide alone",
        std::string("Take it out, or write 'alkali: ") + its + " hydroxide' or a mix of both.");
  };
  if (lye.koh_strength && alkali == Alkali::sodium)
    unused(*lye.koh_strength, "potassium", "sodium");
  if (lye.naoh_strength && alkali == Alkali::potassium)
    unused(*lye.naoh_strength, "sodium", "potassium");
}

void take_short_lye(Block& block, LyeWish& lye) {
  block.one_only({"concentration", "water-ratio", "water"});
  block.read("superfat", [&](const Node& node) { read_superfat(node, lye); });
  block.read("concentration", [&](const Node& node) {
    lye.concentration = fraction_within(node, 0, 1);
    if (*lye.concentration <= 0 || *lye.concentration >= 1)
      node.fail("a lye of " + percent(*lye.concentration) + " cannot be",
                "Write grams of alkali per 100 g of lye, such as 33 %.");
  });
  block.read("water-ratio", [&](const Node& node) { lye.water_per_alkali = water_ratio(node); });
  block.read("water", [&](const Node& node) { read_water(node, lye); });
}

void take_lye(Block& block, LyeWish& lye) {
  const bool alkali = block.read("alkali", [&](const Node& node) {
    if (node.is_map())
      read_mixed(node, lye);
    else
      lye.alkali = read_alkali(node);
  });
  block.read({"strength", "purity"}, [&](const Node& node) {
    if (alkali) read_strength(node, lye);
  });
  take_short_lye(block, lye);
  block.read("lye-at", [&](const Node& node) { lye.lye_celsius = node.celsius(); });
  block.read("oils-at", [&](const Node& node) { lye.oils_celsius = node.celsius(); });
  block.read("acids",
             [&](const Node& node) { lye.acids = read_additions(node, PlainGrams::need_basis); });
  block.read("liquids",
             [&](const Node& node) { lye.liquids = read_additions(node, PlainGrams::need_basis); });
  block.read("into-lye", [&](const Node& node) {
    lye.into_lye = read_additions(node, PlainGrams::need_basis);
  });
  block.read("salt", [&](const Node& node) {
    Addition salt;
    salt.name = "salt";
    salt.written = {"salt: " + node.text(), node.place(), node};
    salt.dose = read_dose(node, PlainGrams::need_basis);
    lye.into_lye.push_back(std::move(salt));
  });
  block.read("sodium lactate", [&](const Node& node) { read_lactate(node, lye); });
  block.faults().of([&] { check_additions(lye); });
}

LyeWish read_lye(const Node& node, Strengths strengths) {
  LyeWish lye;
  lye.written = written(node);
  Block block(node);
  take_lye(block, lye);
  block.done();
  if (strengths == Strengths::all_used) check_strengths_used(lye);
  return lye;
}

Scale read_scale(const Node& node) {
  Scale scale;
  Block block(node);
  const auto step = [&](std::string_view key) -> std::optional<double> {
    std::optional<double> out;
    block.read(
        key, [&](const Node& value) { out = above_zero(value.grams(), value, "a scale's step"); });
    return out;
  };
  scale.oils_grams = step("oils");
  scale.lye_grams = step("lye");
  block.done();
  return scale;
}

}  // namespace barwright::targets
