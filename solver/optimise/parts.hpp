#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "solver/optimise/search.hpp"

namespace barwright::optimise {

/// A part of a question, for where no form can say the whole: what a blend is worth, or whether it
/// fits at all, follows from the blend itself. The problem of a part stands for it from outside;
/// whole steps are judged one by one.
class Part {
 public:
  Part() = default;
  Part(const Part&) = delete;
  Part& operator=(const Part&) = delete;
  virtual ~Part() = default;
  /// Returns the numbers: every blend that is kept passes its limits, and no goal of it lies above
  /// the blend's worth.
  virtual const Problem& problem() const = 0;
  /// Returns whether whole steps that fit the problem are this part's and fit in truth. No blend is
  /// kept by two parts of a question.
  virtual bool keeps(std::span<const int> steps) const = 0;
  /// Returns what kept steps are worth at a goal (minimised).
  virtual double worth(std::size_t goal, std::span<const int> steps) const = 0;
  /// Returns whether worth() is the goal's own value, always.
  virtual bool exact(std::size_t goal) const = 0;
  /// Returns parts that together keep what this one does, each more exactly; none: as exact as it
  /// gets.
  virtual std::vector<std::shared_ptr<const Part>> split() const = 0;
  /// Returns multiply-adds of judging so far, about (see Allowance).
  virtual std::uint64_t work() const = 0;
};

using Parts = std::vector<std::shared_ptr<const Part>>;

/// Returns a problem as the one part of its question.
std::shared_ptr<const Part> whole(const Problem& problem);

/// What of the parts' problems is asked.
struct PartsAsked {
  std::vector<std::size_t> goals;  ///< by their place in the problems, the first first
  int most_oils = 0;               ///< fewer than the problems say; 0: as they say
};

/// Returns the best blend of all parts: as search(), goal by goal over every part before the next
/// goal. A part in which many steps pass the limits and are not kept, or are worth more than their
/// form says, is split. The parts' problems have the same oils, steps and number of goals.
/// Answer::goals has one entry per goal asked that was reached.
Answer search_parts(Parts parts, const PartsAsked& asked, const SearchOptions& options);

/// The same for every goal of the problems.
Answer search_parts(Parts parts, const SearchOptions& options);

}  // namespace barwright::optimise
