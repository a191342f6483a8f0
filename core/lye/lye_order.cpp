#include "core/lye/lye_order.hpp"

#include <algorithm>

#include "core/chemistry/heat.hpp"
#include "core/units/format.hpp"
#include "core/units/weight_text.hpp"

namespace barwright::core {

namespace {

using Kind = LyeStep::Kind;

const std::string kSalted = "salted";  // more salt than dissolves: its words come last

bool dry(const Line& line) { return line.water < 0.5 * line.grams; }

std::string cooled_words(bool scorches) {
  return fixed(scorches ? kMilkLyeCelsius : kCooledLyeCelsius, 0) + " C";
}

std::string into_made_words(const std::vector<LyeStep>& order, const LyeStep& step) {
  const std::string made = "into the made lye, once " + lye_ready_words(order) + " and below " +
                           cooled_words(step.scorches);
  return step.scorches ? made + ", cold, in a thin stream" : made;
}

/// Salt of all that stands in the lye, g.
double salt_in_lye(const Recipe& recipe) {
  double salt = 0;
  for (const auto* lines : {&recipe.liquids, &recipe.additives}) {
    for (const auto& line : *lines) salt += in_lye(line.into) ? line.salt : 0;
  }
  return salt;
}

}  // namespace

std::vector<LyeStep> lye_order(const Recipe& recipe) {
  std::vector<LyeStep> order;
  std::string frozen;
  double liquid = recipe.water_grams;
  for (const auto* lines : {&recipe.liquids, &recipe.additives}) {
    for (const auto& line : *lines) {
      if (line.into != Into::lye || !(line.grams > 0)) continue;
      if (line.frozen) {
        if (frozen.empty()) frozen = line.name;
      } else {
        liquid += line.water;
      }
    }
  }
  for (const auto& line : recipe.acids) {
    if (line.into == Into::lye) liquid += line.water;
  }
  if (recipe.water_grams > 0) {
    order.push_back({Kind::water, "water", recipe.water_grams, "cold, into the lye pot first"});
  }
  const double salt = salt_in_lye(recipe);
  // Nothing is told to dissolve that the same sheet says does not.
  const auto salted = [&](const std::string& when) {
    return "of it about " + round_grams(recipe.salt_dissolves) + ", " + when +
           ": more does not dissolve; the rest at trace";
  };
  const auto undissolved = [&](const Line& line) {
    return line.salt > 0 && salt > recipe.salt_dissolves;
  };
  // Dry matter is dissolved in whatever is liquid; where all is frozen, before it was.
  const auto dissolve = [&](const std::string& into_water) {
    return liquid > 0 ? into_water : "stir it into the " + frozen + " before that is frozen";
  };
  for (const auto& line : recipe.acids) {
    if (line.into != Into::lye || !(line.grams > 0)) continue;
    order.push_back({Kind::acid, line.name, line.grams,
                     dissolve("before the alkali; poured into made lye it spits")});
  }
  std::vector<LyeStep> solids, liquids, ices, cooled;
  for (const auto* lines : {&recipe.liquids, &recipe.additives}) {
    for (const auto& line : *lines) {
      if (!(line.grams > 0)) continue;
      if (line.into == Into::cooled_lye) {
        cooled.push_back(
            {Kind::cooled, line.name, line.grams, undissolved(line) ? kSalted : "", line.scorches});
      } else if (line.into != Into::lye) {
        continue;
      } else if (line.frozen) {
        ices.push_back({Kind::frozen, line.name, line.grams,
                        "frozen, in small pieces, before the alkali; the pot stands in ice water"});
      } else if (dry(line)) {
        solids.push_back({Kind::dry, line.name, line.grams,
                          undissolved(line)
                              ? salted("before the alkali")
                              : dissolve("dissolve it in the cold water, before the alkali")});
      } else {
        liquids.push_back({Kind::liquid, line.name, line.grams, "cold, before the alkali"});
      }
    }
  }
  // A liquid comes before what dissolves in it, for there may be no plain water at all.
  for (auto* steps : {&liquids, &solids, &ices})
    order.insert(order.end(), steps->begin(), steps->end());
  if (recipe.water_grams == 0) {
    // Nor may an acid's crystals come before the liquid that stands in for the water.
    std::stable_partition(order.begin(), order.end(),
                          [](const LyeStep& step) { return step.kind == Kind::liquid; });
  }
  for (const auto& line : recipe.alkali) {
    order.push_back({Kind::alkali, name(line.alkali), line.grams,
                     ices.empty() ? "a little at a time INTO what is in the pot, never the reverse"
                                  : "by the spoonful INTO what is in the pot, never the reverse"});
  }
  for (auto& step : cooled) {
    const std::string made = into_made_words(order, step);
    step.how = step.how == kSalted ? salted(made) : made;
  }
  order.insert(order.end(), cooled.begin(), cooled.end());
  return order;
}

std::string lye_order_words(const std::vector<LyeStep>& order) {
  std::string before, after;
  bool alkali = false, scorches = false;
  for (const auto& step : order) {
    if (step.kind == Kind::alkali) {
      alkali = true;
    } else if (alkali) {
      after += (after.empty() ? "" : ", ") + step.name;
      scorches = scorches || step.scorches;
    } else {
      before += (before.empty() ? "" : ", then ") +
                (step.kind == Kind::frozen ? "the frozen " + step.name : step.name);
    }
  }
  std::string out = before + ", then the alkali into it " +
                    (made_in_ice(order) ? "by the spoonful, the pot standing in ice water"
                                        : "a little at a time") +
                    ", never the reverse";
  if (!after.empty()) {
    out +=
        "; once " + lye_ready_words(order) + " and below " + cooled_words(scorches) + ", " + after;
  }
  return out;
}

std::string lye_ready_words(const std::vector<LyeStep>& order) {
  const bool hidden = std::any_of(order.begin(), order.end(), [](const LyeStep& step) {
    return step.kind == Kind::frozen || step.kind == Kind::liquid;
  });
  return hidden ? "no grain of alkali is left" : "it is clear";
}

bool made_in_ice(const std::vector<LyeStep>& order) {
  return std::any_of(order.begin(), order.end(),
                     [](const LyeStep& step) { return step.kind == Kind::frozen; });
}

std::string lye_made_sign(const std::vector<LyeStep>& order) {
  if (made_in_ice(order)) return "no grain of alkali is left; it may thicken";
  const bool tinted = std::any_of(order.begin(), order.end(), [](const LyeStep& step) {
    return step.kind == Kind::liquid || step.kind == Kind::dry;
  });
  return tinted ? "no grain is left on the bottom" : "clear, no grains";
}

double made_celsius(const Recipe& recipe, double room_celsius) {
  double grams = 0, pure = 0, ice = 0;
  for (const auto& line : recipe.alkali) {
    grams += line.grams;
    pure += line.pure_grams();
  }
  if (!(grams > 0)) return room_celsius;
  for (const auto* lines : {&recipe.liquids, &recipe.additives}) {
    for (const auto& line : *lines) {
      if (line.into == Into::lye && line.frozen) ice += line.water;
    }
  }
  // Mixed alkali: the one named first decides the heat; both warm much alike.
  return fresh_lye_celsius({.alkali = recipe.alkali.front().alkali,
                            .alkali_grams = grams,
                            .purity = pure / grams,
                            .water_grams = recipe.pot_water_grams,
                            .ice_grams = ice,
                            .water_celsius = kTapCelsius,
                            .room_celsius = room_celsius,
                            .acid_moles = recipe.acid_moles_in_lye,
                            .sugar_grams = recipe.sugar_in_lye});
}

}  // namespace barwright::core
