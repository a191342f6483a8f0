#pragma once

#include <span>
#include <vector>

#include "solver/jobs/buying/buying_plan.hpp"

namespace barwright::jobs {

/// An oil of a joint problem; `bought`: what is bought of it, apart from what is there.
struct JointColumn {
  int oil = -1;
  bool bought = false;
};

/// All bars of a range as one problem over (bar, column): every bar takes an equal number of steps,
/// and its shares are those steps over its own. `relaxed` lets an oil that stands in two columns
/// take any part of its share in either.
class Joint {
 public:
  Joint(const BuyingQuestion& question, std::vector<JointColumn> columns, bool relaxed);

  /// Returns kg of a column over all bars.
  optimise::Form kilograms(std::size_t column) const;
  /// Returns the same at a point in steps, one per variable.
  double kilograms_at(std::size_t column, std::span<const double> steps) const;
  std::size_t variable(std::size_t bar, std::size_t column) const {
    return bar * columns_.size() + column;
  }
  optimise::Form empty() const;
  optimise::Problem& problem() { return out_; }

 private:
  optimise::Form mapped(const optimise::Form& form, std::size_t bar) const;
  std::vector<double> spread(const std::vector<double>& linear, std::size_t bar) const;

  const BuyingQuestion& question_;
  std::vector<JointColumn> columns_;
  optimise::Problem out_;
};

}  // namespace barwright::jobs
