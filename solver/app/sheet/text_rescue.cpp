#include "solver/app/sheet/text_rescue.hpp"

#include <fmt/format.h>

#include "solver/app/print/screen.hpp"

namespace barwright::app {
namespace {

std::string head(batch::RescueVerdict verdict) {
  switch (verdict) {
    case batch::RescueVerdict::safe:
      return "SAFE AS IT IS";
    case batch::RescueVerdict::mend:
      return "NOT AS IT IS: MEND IT";
    case batch::RescueVerdict::hold:
      return "HOLD IT";
  }
  return {};
}

}  // namespace

std::string text_rescue(const batch::BatchPlan& plan, const batch::Rescue& rescue, bool colour) {
  Screen screen(colour);
  screen.title(head(rescue.verdict()), plan.file.name);
  screen.blank();
  screen.sentence("Understood: " + rescue.happened + ".");
  for (const auto& part : rescue.parts) {
    screen.heading(part.part, head(part.verdict));
    for (const auto& text : part.say) {
      if (text.starts_with("NOT S")) {
        screen.danger(text);
      } else {
        screen.sentence(text);
      }
    }
    int number = 0;
    for (const auto& fix : part.fixes) {
      screen.sentence(fmt::format("{} Then superfat {}, {} at worst.", fix.how,
                                  percent(fix.after.superfat), percent(fix.after.band.low)),
                      fmt::format("{}.", ++number));
    }
    if (part.fixes.size() > 1) screen.sentence("One of these, not all.");
  }
  if (rescue.other_way) {
    screen.heading("OR THE OTHER WAY ROUND?");
    screen.sentence(fmt::format(
        "If {}: superfat {}, {} at worst{}. Ask again with the two names changed over.",
        rescue.other_way_words, percent(rescue.other_way->superfat),
        percent(rescue.other_way->band.low), rescue.other_way->lye_heavy() ? ": NOT SAFE" : ""));
  }
  screen.heading("WHATEVER YOU DO");
  screen.sentence(
      "Gloves and goggles stay on; fresh soap with free lye burns. Write the slip and what "
      "you did on the batch's sheet.");
  return screen.text();
}

}  // namespace barwright::app
