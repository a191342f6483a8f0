#include "solver/recipe/jar_notes.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/chemistry/alkali.hpp"
#include "core/units/format.hpp"

namespace barwright::recipe {
namespace {

core::Note about(const oils::Lot& lot, double reckoned) {
  const double pure = lot.strength->stated;
  const std::string which = lot.lot.empty() ? "in the jar on the shelf" : "of lot " + lot.lot;
  if (pure > reckoned)
    return {core::Severity::caution,
            fmt::format("The {} {} is {} pure, this recipe reckons with {}: with that jar less oil "
                        "is left than it says. Write 'purity: {}' under 'lye:'.",
                        lot.oil, which, core::percent_text(pure), core::percent_text(reckoned),
                        core::percent_text(pure))};
  return {core::Severity::note,
          fmt::format("The {} {} is {} pure, this recipe reckons with {}: with that jar there is "
                      "more superfat than it says. 'purity: {}' under 'lye:' reckons with it.",
                      lot.oil, which, core::percent_text(pure), core::percent_text(reckoned),
                      core::percent_text(pure))};
}

}  // namespace

std::vector<core::Note> jar_notes(const core::Recipe& recipe, const oils::Shelf& shelf) {
  std::vector<core::Note> out;
  for (const auto& line : recipe.alkali) {
    const std::string wanted = core::name(line.alkali);
    for (const auto& lot : shelf.lots) {
      if (lot.oil != wanted) continue;
      if (lot.grams > 0 && lot.strength && std::abs(lot.strength->stated - line.purity) > 1e-6)
        out.push_back(about(lot, line.purity));
    }
    const oils::Lot* other = shelf.other_alkali(wanted);
    if (other == nullptr || shelf.kind_of(wanted)) continue;
    out.push_back(
        {core::Severity::caution,
         fmt::format("This recipe takes {}, and the only alkali on the shelf is {}: never "
                     "put one in the place of the other.",
                     wanted, other->oil)});
  }
  return out;
}

}  // namespace barwright::recipe
