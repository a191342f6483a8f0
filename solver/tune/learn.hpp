#pragma once

#include <atomic>
#include <functional>

#include "solver/tune/notes_model.hpp"
#include "solver/tune/settled.hpp"

namespace barwright::tune {

struct LearnOptions {
  std::size_t runs = 4;
  std::size_t steps = 1000;       ///< of each run before it is first asked whether it has settled
  std::size_t most_steps = 8000;  ///< after so many it is taken as it is
  std::size_t readings = 400;     ///< kept
  std::uint64_t seed = 1;
  const std::atomic<bool>* stop = nullptr;  ///< raised: ends with nothing
  std::function<void(double)> seen;         ///< told the share of `most_steps` that is done
};

/// What notes leave of what was not known.
struct Learned {
  std::vector<std::vector<double>> states;     ///< `readings` of them, of equal weight
  std::vector<std::vector<double>> by_saying;  ///< log likelihood per state and saying
  std::vector<double> strays;     ///< per saying: how surely it is a slip or stray, 0..1
  std::vector<Agreement> agreed;  ///< per difference the notes ask about
  bool settled = false;           ///< every r_hat below 1.01, every one worth more than 400
  bool stopped = false;           ///< by the flag: the rest is empty
};

/// Returns what the notes leave. The same notes give the same bytes.
Learned learn(const NotesModel& model, const LearnOptions& options);

}  // namespace barwright::tune
