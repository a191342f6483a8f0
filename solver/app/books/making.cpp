#include "solver/app/books/making.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/format.hpp"
#include "solver/app/books/command_shelf_books.hpp"

namespace barwright::app {
namespace {

constexpr double kMostOff = 0.10;  // of the poured weight, judgement

/// Holds a part that was not weighed as its recipe says: another superfat than its band allows,
/// another total, a line left out. `by`: what says so, "By the weights typed in".
void hold_strange(oils::Making& making, const books::PlanPart& asked, const books::PlanPart& typed,
                  const core::PotCheck& now, const std::string& by) {
  const auto hold = [&](const std::string& why) { making.held.emplace_back(typed.name, why); };
  const core::PotCheck planned = books::check_weights(asked);
  if (now.superfat < planned.band.low - 1e-9 || now.superfat > planned.band.high + 1e-9) {
    hold(fmt::format("{} the superfat of the {} is {}; its recipe lies between {} and {}.", by,
                     typed.name, core::percent_text(now.superfat),
                     core::percent_text(planned.band.low), core::percent_text(planned.band.high)));
  }
  if (std::abs(typed.poured - asked.poured) > kMostOff * asked.poured) {
    hold(fmt::format("By the weights typed in the {} comes to {}; its recipe to {}.", typed.name,
                     core::grams_text(typed.poured), core::grams_text(asked.poured)));
  }
  for (std::size_t i = 0; i < typed.lines.size(); ++i) {
    if (typed.lines[i].grams > 0 || !(asked.lines[i].grams > 0)) continue;
    hold(fmt::format("By the weights typed in the {} has no {}.", typed.name, typed.lines[i].what));
  }
}

/// Puts a line where it comes from: the shelf, or elsewhere.
void take_line(oils::Making& making, const books::PlanPart& part, const books::PlanLine& line,
               double sheet, const oils::Shelf& shelf,
               const std::map<std::string, std::string>& lots) {
  if (line.kind == books::PlanKind::oil) {
    making.wanted.push_back({part.name, line.what, line.grams, sheet});
    return;
  }
  const auto stocked = shelf.name_of(line.what);
  if (stocked && line.lot.empty() && shelf.kind_of(*stocked)) {
    making.wanted.push_back({part.name, *stocked, line.grams, sheet});
    return;
  }
  const bool other = std::abs(line.grams - sheet) >= 0.005;
  auto lot = lots.find(part.name + "/" + line.what);
  if (lot == lots.end()) lot = lots.find(line.what);
  making.others.push_back({part.name, line.what, lot == lots.end() ? line.lot : lot->second,
                           line.grams, other ? std::optional(sheet) : std::nullopt, false});
}

/// What of a part is other than its recipe has it.
struct Differs {
  bool weights = false;
  bool purity = false;  ///< of the alkali
};

/// Judges a part by what was weighed.
void judge(oils::Making& making, const books::PlanPart& asked, const books::PlanPart& part,
           const Differs& differs, std::vector<std::string>& remarks) {
  const core::PotCheck now = books::check_weights(part);
  const std::string by = differs.weights ? "By the weights typed in" : "By the purity of the jar";
  hold_strange(making, asked, part, now, by);
  if (now.lye_heavy()) {
    making.lye_heavy.emplace_back(
        part.name,
        fmt::format("{} its superfat is {}, at worst {}: free lye can be "
                    "left. Not for skin, whatever a test says: see 'barwright rescue'.",
                    differs.weights ? "by the weights typed in" : "by the purity of the jar",
                    core::percent_text(now.superfat), core::percent_text(now.band.low)));
  } else {
    remarks.push_back(fmt::format("{}, the {} has {} superfat (the sheet: {}).", by, part.name,
                                  core::percent_text(now.superfat),
                                  core::percent_text(part.superfat)));
  }
}

}  // namespace

void fill_making(oils::Making& making, const books::MakePlan& asked, const books::MakePlan& typed,
                 const oils::Shelf& shelf, const std::map<std::string, std::string>& lots,
                 std::vector<std::string>& remarks) {
  for (std::size_t p = 0; p < typed.parts.size(); ++p) {
    const books::PlanPart& part = typed.parts[p];
    making.parts.push_back({part.name, part.poured, part.cured});
    Differs differs;
    for (std::size_t i = 0; i < part.lines.size(); ++i) {
      const books::PlanLine& line = part.lines[i];
      const books::PlanLine& sheet = asked.parts[p].lines[i];
      differs.weights = differs.weights || std::abs(line.grams - sheet.grams) >= 0.005;
      differs.purity = differs.purity ||
                       std::abs(line.alkali.strength.stated - sheet.alkali.strength.stated) > 1e-6;
      take_line(making, part, line, sheet.grams, shelf, lots);
    }
    if (differs.weights || differs.purity) judge(making, asked.parts[p], part, differs, remarks);
  }
}

void take_packaging(oils::Making& making, const oils::Shelf& shelf,
                    const std::vector<std::pair<std::string, double>>& packed,
                    std::vector<std::string>& remarks) {
  for (const auto& [name, each] : packed) {
    const auto what = shelf.name_of(name);
    if (!what || shelf.kind_of(*what) != oils::StockKind::packaging) {
      remarks.push_back(
          fmt::format("The shelf keeps no packaging '{}': none of it is drawn.", name));
      continue;
    }
    const double wanted = books::pieces_for(each, making.bars);
    const double there = std::min(wanted, shelf.usable_grams(*what));
    if (there > 0) making.wanted.push_back({"", *what, there, there});
    if (there < wanted)
      remarks.push_back(fmt::format("{}: {:.0f} for these bars, {:.0f} there: {:.0f} short.", *what,
                                    wanted, there, wanted - there));
  }
}

void plan_packaging(std::vector<oils::Wanted>& wanted, const books::MakePlan& plan,
                    const oils::Shelf& shelf, std::vector<std::string>& remarks) {
  if (plan.packed_in.empty()) return;
  if (plan.bars < 1) {
    remarks.push_back("The file does not say how many bars: no packaging is reserved.");
    return;
  }
  for (const auto& [name, each] : plan.packed_in) {
    const auto what = shelf.name_of(name);
    if (!what || shelf.kind_of(*what) != oils::StockKind::packaging) {
      remarks.push_back(
          fmt::format("The shelf keeps no packaging '{}': none of it is reserved.", name));
      continue;
    }
    const double pieces = books::pieces_for(each, plan.bars);
    wanted.push_back({"", *what, pieces, pieces});
  }
}

std::vector<oils::Wanted> wanted_of(const books::MakePlan& plan, const oils::Shelf& shelf) {
  oils::Making making;
  for (const auto& part : plan.parts) {
    for (const auto& line : part.lines) take_line(making, part, line, line.grams, shelf, {});
  }
  return making.wanted;
}

void tell_levels(const oils::Books& books, const std::vector<oils::Wanted>& wanted,
                 std::vector<std::string>& remarks) {
  for (const auto& [what, level] : books.ledger().reorder) {
    const auto taken =
        std::find_if(wanted.begin(), wanted.end(),
                     [&, name = what](const auto& each) { return each.oil == name; });
    if (taken == wanted.end()) continue;
    const double free = books.free_amount(what);
    if (free < level)
      remarks.push_back(fmt::format("Order {}: {} free, your level is {}.", what,
                                    amount_words(books.shelf(), what, free),
                                    amount_words(books.shelf(), what, level)));
  }
}

}  // namespace barwright::app
