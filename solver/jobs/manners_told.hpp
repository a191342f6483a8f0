#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/formulate/kept_manner.hpp"
#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// What became of one manner.
struct MannerTold {
  enum class State {
    kept,      ///< without it no blend is better
    bound,     ///< without it a blend is better, by `price`
    gave_way,  ///< some or all of it: no blend keeps the wishes with it
  };
  const targets::Manner* manner = nullptr;
  State state = State::kept;
  std::string rule;      ///< as kept, its figures in
  bool dropped = false;  ///< gave way altogether
  /// How the first goal changes without it, in the goal's unit as shown; where it was dropped and
  /// need not have been, how it would change with it.
  std::optional<double> price;
  std::string unit;     ///< of `price`
  bool proved = false;  ///< the price is; else it is at least so much
  bool open = false;    ///< kept; whether a blend would be better without it was not settled
  bool had_to = false;  ///< gave way: as strict as before, it leaves no blend; proved
  std::string let_in;   ///< own oils: the one oil from outside
  int tried = 0;        ///< of so many, each with the oils of the bar
};
const char* word(MannerTold::State state);

/// What is told of the manners beside a blend.
struct MannersTold {
  std::vector<MannerTold> manners;  ///< in force, as listed in targets/data/manners.yaml
  formulate::HeldTo held;           ///< what is not named is held to this bar
  /// A claim that kept all blends out, where nothing fits and it alone stands in the way; empty.
  std::string claim_in_the_way;
  double hours_to_cut = 0;  ///< of the blend, h
  int given = 0;            ///< levels given way by, all manners together
  std::string goal;         ///< what prices are told in: "most lather"
};

/// Returns the job with these manners in it; its shares in steps of `step` %, 0: as it says.
BlendJob with_manners(const BlendJob& job, const formulate::HeldTo& held,
                      const std::vector<formulate::KeptManner>& kept, double step);

/// Returns whether a job has any blend, at whichever superfat its lye may be reckoned with; its
/// goals are not looked at.
optimise::Status any_blend(const BlendJob& job, const formulate::Assumed& assumed,
                           const optimise::SearchOptions& options);

struct Mannerly;

/// Tells what became of the manners `kept` in the answer found, and what each costs. `step`: the
/// size of its steps, %, 0: the brief states it. `tried`: oils from outside that were tried.
void tell_manners(const BlendJob& job, const std::vector<formulate::KeptManner>& kept, double step,
                  int tried, const optimise::SearchOptions& options, Mannerly& out);

}  // namespace barwright::jobs
