#include "core/lye/lye_cautions.hpp"

#include "core/lye/lye_order.hpp"
#include "core/units/format.hpp"

namespace barwright::core {

namespace {

constexpr double kNearBoiling =
    90;  // C, no loss reckoned: the pot gets there or nearly (judgement)

}  // namespace

std::string heat_words(double celsius) {
  if (celsius >= 100) return "heats itself to boiling: it can boil up and spit";
  const std::string out = "heats itself to about " + fixed(celsius, 0) + " C";
  return celsius >= kNearBoiling ? out + ", near boiling: it can boil up" : out;
}

std::string ice_heat_words(double celsius) {
  return "with the alkali all at once it would heat itself to about " + fixed(celsius, 0) +
         " C: by the spoonful, the pot in ice water, it stays cool";
}

const std::vector<std::string>& lye_dangers() {
  static const std::vector<std::string> lines = {
      "Alkali INTO water, never water onto alkali: it spits and boils over.",
      "No glass, no aluminium: glass can break hot, aluminium makes hydrogen. Stainless steel, or "
      "plastic marked PP or HDPE.",
      "Lye fumes are not for breathing: fan, open window, face away.",
      "Goggles, gloves, sleeves. No children, no animals, no food at the bench; a phone or tablet "
      "only in a clear bag, pressed with clean hands."};
  return lines;
}

const std::vector<std::string>& lye_first_aid() {
  static const std::vector<std::string> lines = {
      "Skin: clothes off, rinse with plenty of running water, at least 15 minutes; then to a "
      "doctor with any burn.",
      "Eyes: rinse at once with plenty of water, lids open, at least 15 minutes; then to a doctor, "
      "rinsing on the way.",
      "Swallowed: rinse the mouth, sips of water, do NOT make them vomit; call for help at once.",
      "No vinegar on skin or eyes. The supplier's safety data sheet and local rules come first."};
  return lines;
}

std::vector<Note> lye_cautions(const Recipe& recipe) {
  std::vector<Note> out;
  for (const auto& text : lye_dangers()) out.push_back({Severity::danger, text});
  const double made = made_celsius(recipe);
  out.push_back({Severity::danger, made_in_ice(lye_order(recipe))
                                       ? "This lye: " + ice_heat_words(made) + "."
                                       : "This lye " + heat_words(made) + "."});
  for (const auto& text : lye_first_aid()) out.push_back({Severity::caution, text});
  return out;
}

}  // namespace barwright::core
