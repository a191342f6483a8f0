#pragma once

#include <string>
#include <vector>

#include "oils/books/stock.hpp"
#include "solver/books/make_plan.hpp"

namespace barwright::app {

/// What a record of a batch should tell the maker beside what was drawn.
struct MakeReport {
  oils::Making making;
  std::vector<oils::Draw> drawn;
  std::vector<oils::Shortage> shortages;  ///< planned batches that now come short
  std::vector<std::string> remarks;       ///< whole sentences
  double bar_grams = 0;                   ///< cured, estimated
  std::string changed;  ///< the recipe is not that of the sheet it was made by; else empty
};

/// Returns the page. `before`: the shelf as it was, which `drawn` counts on.
std::string text_made(const MakeReport& report, const oils::Shelf& before);
/// Returns the page for a plan on this shelf.
std::string text_planned(const std::string& name, const std::vector<oils::Wanted>& wanted,
                         const std::vector<oils::Shortage>& shortages, const oils::Shelf& shelf,
                         const std::vector<std::string>& remarks);

}  // namespace barwright::app
