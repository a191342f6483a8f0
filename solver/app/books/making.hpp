#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "oils/books/stock.hpp"
#include "solver/books/make_plan.hpp"

namespace barwright::app {

/// Adds all that goes in, and what the weights and the jars mean for the lye.
void fill_making(oils::Making& making, const books::MakePlan& asked, const books::MakePlan& typed,
                 const oils::Shelf& shelf, const std::map<std::string, std::string>& lots,
                 std::vector<std::string>& remarks);

/// Takes the packaging of the bars, as far as it is there: a batch is made without it too.
void take_packaging(oils::Making& making, const oils::Shelf& shelf,
                    const std::vector<std::pair<std::string, double>>& packed,
                    std::vector<std::string>& remarks);

/// Returns all that a plan takes and the shelf keeps, g.
std::vector<oils::Wanted> wanted_of(const books::MakePlan& plan, const oils::Shelf& shelf);

/// Adds the packaging of the bars that a plan makes, and to the remarks what cannot be reserved.
void plan_packaging(std::vector<oils::Wanted>& wanted, const books::MakePlan& plan,
                    const oils::Shelf& shelf, std::vector<std::string>& remarks);

/// Adds to the remarks what is to be ordered now that this was taken.
void tell_levels(const oils::Books& books, const std::vector<oils::Wanted>& wanted,
                 std::vector<std::string>& remarks);

}  // namespace barwright::app
