#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "core/units/error.hpp"
#include "solver/formulate/lye_slice.hpp"
#include "solver/jobs/blend_job.hpp"
#include "solver/optimise/parts.hpp"

namespace barwright::jobs {

/// Blends of one job and batch size, weighed: each once, and only those the search comes upon.
class Weighing {
 public:
  struct Weighed {
    bool refused = true;
    std::vector<double> shares;  ///< by the rounded grams
    targets::BarSettings settings;
    std::size_t level = 0;  ///< of core::superfat_levels
    double need = 0;        ///< mol of alkali its fat needs
    bool in_stock = true;
    bool judged = false;         ///< the next two are known
    bool keeps_wishes = false;   ///< every one, at its own settings
    std::vector<double> worths;  ///< per goal, in steps, at its own settings
  };

  /// `assumed`: the batch; its settings are what no blend of it changes. Errors: Refusal.
  Weighing(const BlendJob& job, formulate::Assumed assumed);

  const BlendJob& job() const { return job_; }
  const formulate::LyeGround& ground() const { return ground_; }
  const formulate::Assumed& assumed() const { return assumed_; }
  const std::vector<formulate::LyeSlice>& slices() const { return slices_; }
  /// Returns whether every blend is reckoned at the superfat asked for and its settings hardly
  /// move.
  bool plain() const;
  /// Returns a blend of whole steps as it is weighed.
  Weighed& at(std::span<const int> steps);
  /// Returns a blend that was not refused, its wishes and goals judged as well.
  const Weighed& judged_at(std::span<const int> steps);
  /// Returns the first refusal met, where there was one.
  const std::optional<core::Refusal>& refusal() const { return refusal_; }
  std::uint64_t work() const { return work_; }
  /// Says that a blend was met whose settings lie outside its slice's: nothing is proved then.
  void met_outside() { outside_ = true; }
  bool outside() const { return outside_; }
  /// Returns whether a blend was met that keeps every wish in steps, and by its grams does not.
  bool rounding_broke() const { return rounding_broke_; }
  /// Returns whether lots other than typical ones are asked for.
  bool sure() const { return sure_; }
  /// Returns the problem at these settings, and the same for typical lots throughout.
  formulate::Formulation formulated(const targets::BarSettings& settings) {
    return of(job_, settings);
  }
  formulate::Formulation typical(const targets::BarSettings& settings) {
    return of(typical_ ? *typical_ : job_, settings);
  }

 private:
  formulate::Formulation of(const BlendJob& job, const targets::BarSettings& settings);
  std::vector<double> in_steps_of(std::span<const int> steps) const;

  const BlendJob& job_;
  formulate::Assumed assumed_;
  std::optional<BlendJob> typical_;  ///< unset: the job itself
  bool sure_ = false;
  int steps_ = 0;
  formulate::LyeGround ground_;
  std::vector<formulate::LyeSlice> slices_;
  std::map<std::vector<int>, Weighed> weighed_;
  std::optional<core::Refusal> refusal_;
  std::uint64_t work_ = 0;
  bool outside_ = false;
  bool rounding_broke_ = false;
};

/// Returns the parts of a batch's question, one per slice. `weighing` must outlive them.
optimise::Parts weighed_parts(Weighing& weighing);

}  // namespace barwright::jobs
