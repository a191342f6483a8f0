#include "solver/books/jars.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"
#include "core/units/format.hpp"
#include "oils/books/shelf_writer.hpp"

namespace barwright::books {
namespace {

/// Alkali out of several jars as one.
class Mix {
 public:
  Mix(core::Alkali alkali, const core::Strength& asked) : alkali_(alkali), asked_(asked) {}

  void add(const oils::Lot& lot, double grams) {
    const core::Strength strength = lot.strength.value_or(asked_);
    known_ = known_ || lot.strength.has_value();
    sum_ += grams * strength.stated;
    grams_ += grams;
    least_ = std::min(least_, core::weakest(alkali_, strength));
    most_ = std::max(most_, core::strongest(alkali_, strength));
  }
  core::Strength strength() const {
    if (!known_ || !(grams_ > 0)) return asked_;
    return {sum_ / grams_, least_, most_};
  }

 private:
  core::Alkali alkali_;
  core::Strength asked_;
  double sum_ = 0, grams_ = 0, least_ = 1, most_ = 0;
  bool known_ = false;
};

void add_once(std::vector<std::string>& to, std::string text) {
  if (std::find(to.begin(), to.end(), text) == to.end()) to.push_back(std::move(text));
}

// The shelf keeps no such alkali: nothing is drawn, but the jars must not be taken for each other.
void tell_other_kind(std::vector<std::string>& out, const oils::Shelf& shelf,
                     const std::string& what, const oils::LotChoice& chosen) {
  const auto choice = chosen.find(what);
  for (const oils::Lot& lot : shelf.lots) {
    if (choice == chosen.end() || lot.kind != oils::StockKind::lye || lot.lot != choice->second)
      continue;
    throw core::InputError(
        lot.place, fmt::format("{} is no {}", oils::lot_words(lot.oil, lot.lot), what),
        "The two are never taken for each other. Was the wrong jar weighed? Do not use the "
        "batter: see 'barwright rescue'.");
  }
  if (const oils::Lot* other = shelf.other_alkali(what))
    add_once(out, fmt::format("The recipe takes {}, and the only alkali on the shelf is {}: be "
                              "sure which jar it was. One in the place of the other is dangerous.",
                              what, other->oil));
}

void tell_jar(std::vector<std::string>& out, const oils::Lot& lot, const PlanLine& line) {
  const std::string which = oils::lot_words(lot.oil, lot.lot);
  const double asked = line.alkali.strength.stated;
  if (!lot.strength) {
    add_once(out, fmt::format("The purity of {} is not entered: it is reckoned as the recipe has "
                              "it, {}. Write 'purity:' into the shelf, as its label says.",
                              which, core::percent_text(asked)));
  } else if (std::abs(lot.strength->stated - asked) > 1e-6) {
    add_once(out, fmt::format("The {} of {} is {} pure, the recipe reckons with {}{}.", lot.oil,
                              lot.lot.empty() ? "the jar" : "lot " + lot.lot,
                              core::percent_text(lot.strength->stated), core::percent_text(asked),
                              lot.strength->stated > asked ? ": it is stronger" : ""));
  }
}

}  // namespace

std::vector<std::string> reckon_jars(MakePlan& plan, const oils::Shelf& shelf,
                                     const oils::LotChoice& chosen) {
  std::vector<std::string> out;
  std::vector<oils::Wanted> wanted;
  std::vector<PlanLine*> lines;
  for (PlanPart& part : plan.parts) {
    for (PlanLine& line : part.lines) {
      if (line.kind != PlanKind::alkali) continue;
      if (!shelf.kind_of(line.what)) {
        tell_other_kind(out, shelf, line.what, chosen);
        continue;
      }
      wanted.push_back({part.name, line.what, line.grams, line.grams});
      lines.push_back(&line);
    }
  }
  oils::LotChoice jars;
  for (const auto& [what, lot] : chosen) {
    if (shelf.kind_of(what.substr(what.find('/') + 1)) == oils::StockKind::lye)
      jars.emplace(what, lot);
  }
  const auto taken = oils::draws(shelf, wanted, jars);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Mix mix(lines[i]->alkali.alkali, lines[i]->alkali.strength);
    for (const auto& draw : taken) {
      if (draw.wanted != i) continue;
      mix.add(shelf.lots[draw.lot], draw.grams);
      tell_jar(out, shelf.lots[draw.lot], *lines[i]);
    }
    lines[i]->alkali.strength = mix.strength();
  }
  return out;
}

}  // namespace barwright::books
