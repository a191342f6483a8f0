#pragma once

#include <string>
#include <vector>

#include "oils/records/library.hpp"
#include "solver/formulate/sure_measure.hpp"
#include "targets/model/model.hpp"
#include "tests/solver/optimise/instances.hpp"

namespace barwright::testing {

const oils::Library& whole_library();

/// Returns these oils of the library as candidates.
std::vector<formulate::Candidate> candidates_of(const std::vector<std::string>& names);

/// Returns a bar of these candidates and shares.
formulate::KnownBar bar_of(const std::vector<formulate::Candidate>& candidates,
                           const std::vector<double>& shares);

/// Returns shares of which about `used` are not 0, summing to 1.
std::vector<double> drawn_shares(Uniform& draw, std::size_t oils, int used);

targets::Subject property_subject(targets::Property property);

/// Returns the property of the mix, each candidate's lot drawn anew.
std::vector<targets::Composition> drawn_lots(const formulate::LotBook& book, std::mt19937_64& bits);

}  // namespace barwright::testing
