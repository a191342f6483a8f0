#pragma once

#include "solver/optimise/answer.hpp"
#include "solver/optimise/problem.hpp"

namespace barwright::optimise {

/// Returns what the arithmetic between a value and its bound may slip by: kGap as a share of it.
double slip(double value);

/// Returns what counts as a tie in a goal, on the maker's scale: what later goals may use of it
/// included.
double tie_of(const Goal& goal);

/// Returns whether value and bound lie within the goal's tie: the numbers, whatever a search said
/// of itself. What is not a number is not proved.
bool is_proved(const Goal& goal, const GoalValue& of);

}  // namespace barwright::optimise
