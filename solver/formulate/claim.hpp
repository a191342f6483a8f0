#pragma once

#include <optional>
#include <string>

#include "solver/formulate/formulation.hpp"
#include "solver/optimise/answer.hpp"

namespace barwright::formulate {

/// What the numbers of an answer allow to be said of its first goal. The one place where "proved"
/// is decided: text, pages, JSON and exit codes all take it from here.
struct Claim {
  /// What a later goal got for what the first one gave way by.
  struct Bought {
    std::string goal, unit;  ///< "cheapest", "EUR per kg of oils"
    double value = 0;        ///< of the blend told
    double instead = 0;      ///< of the blend that is best at the first goal alone
    double gave_way = 0;     ///< by how much the first goal is worse for it, its own unit
  };
  std::string goal, unit;  ///< "most hardness", "points"; no goal: empty
  double value = 0;        ///< of the blend told, that unit
  double bound = 0;        ///< beyond this nothing is possible
  double tie = 0;          ///< blends this near are as good as each other
  bool proved = false;     ///< no blend is better by more than `tie`
  std::optional<Bought> bought = {};
};

/// Returns the claim. Without a goal of the maker's own, `proved` says whether the search ended.
Claim claim_of(const Formulation& formulation, const optimise::Answer& answer);

/// Lets the status say no more than the numbers of every goal do: `optimal` only where value and
/// bound, on the maker's scale, lie within the goal's tie.
void keep_to_the_numbers(const Formulation& formulation, optimise::Answer& answer);

/// Returns "better at 'most hardness'" and by how much more than a tie, for a sentence that denies
/// it; "" without a goal of the maker's own.
std::string better_words(const Claim& claim);

/// Returns a sentence on what a tie was given for; "" where nothing was.
std::string bought_words(const Claim& claim);

}  // namespace barwright::formulate
