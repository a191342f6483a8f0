#include "solver/tune/learn.hpp"

#include <algorithm>
#include <memory>

#include "solver/tune/pilot.hpp"

namespace barwright::tune {
namespace {

constexpr double kRHat = 1.01;
constexpr double kEffective = 400;
constexpr std::size_t kEvery = 4;  // steps per draw that is kept

constexpr int kCheapSteps = 2;  // per step around the fit

struct Run {
  Dice dice;
  Stand stand;
  std::vector<std::vector<double>> states;
  std::vector<std::vector<double>> figures;  // one row per difference
};

class Learner {
 public:
  Learner(const NotesModel& model, const LearnOptions& options)
      : model_(model),
        options_(options),
        fit_(pilot(model)),
        readers_(model.readers()),
        // One run is moved at a time, so what its constants decide is worked out once for all
        // steps that leave them alone.
        likelihood_([&model, worked = std::make_shared<NotesModel::Worked>()](
                        std::span<const double> z) { return model.log_likelihood(z, *worked); }) {}

  Learned learn() {
    for (std::size_t r = 0; r < options_.runs; ++r) start(r);
    // What a run does until it has come from its start is not kept.
    if (!go(options_.steps / 4, false)) return stopped();
    Learned out;
    for (std::size_t done = 0; done < options_.most_steps && !out.settled;) {
      const std::size_t more = done == 0 ? options_.steps : done;
      if (!go(more, true)) return stopped();
      done += more;
      judge(out);
    }
    keep(out);
    return out;
  }

 private:
  static Learned stopped() {
    Learned out;
    out.stopped = true;
    return out;
  }

  void start(std::size_t number) {
    Run run{Dice(options_.seed * 1000 + number), {}, {}, {}};
    for (std::size_t i = 0; i < model_.size(); ++i) run.stand.at.push_back(run.dice.normal());
    run.stand.log_likelihood = likelihood_(run.stand.at);
    run.figures.resize(model_.asked().size());
    runs_.push_back(std::move(run));
  }

  bool go(std::size_t steps, bool kept) {
    for (std::size_t step = 0; step < steps; ++step) {
      for (Run& run : runs_) {
        if (options_.stop != nullptr && options_.stop->load()) return false;
        fitted_step(run.stand, likelihood_, fit_, run.dice);
        crossing_step(run.stand, likelihood_, fit_, run.dice);
        for (int again = 0; again < kCheapSteps; ++again) {
          elliptical_step(run.stand, likelihood_, model_.not_constants(), run.dice);
          elliptical_step(run.stand, likelihood_, readers_, run.dice);
        }
        model_.rescale(run.stand.at, run.dice);
        run.stand.log_likelihood = likelihood_(run.stand.at);
        if (!kept || step % kEvery != 0) continue;
        run.states.push_back(run.stand.at);
        const std::vector<double> differences = model_.differences(run.stand.at);
        for (std::size_t f = 0; f < differences.size(); ++f)
          run.figures[f].push_back(differences[f]);
      }
      ++done_;
      if (options_.seen && done_ % 50 == 0)
        options_.seen(static_cast<double>(done_) / static_cast<double>(options_.most_steps));
    }
    return true;
  }

  void judge(Learned& out) const {
    out.agreed.clear();
    out.settled = true;
    for (std::size_t f = 0; f < model_.asked().size(); ++f) {
      std::vector<std::vector<double>> rows;
      for (const Run& run : runs_) rows.push_back(run.figures[f]);
      out.agreed.push_back(agreement(rows));
      out.settled = out.settled && out.agreed.back().r_hat < kRHat &&
                    out.agreed.back().effective > kEffective;
    }
  }

  void keep(Learned& out) const {
    const std::size_t each = runs_.front().states.size();
    const std::size_t all = each * runs_.size();
    for (std::size_t k = 0; k < options_.readings; ++k) {
      const std::size_t at = (2 * k + 1) * all / (2 * options_.readings);
      out.states.push_back(runs_[at / each].states[at % each]);
    }
    out.strays.assign(model_.sayings().size(), 0.0);
    for (const auto& z : out.states) {
      out.by_saying.push_back(model_.by_saying(z));
      const std::vector<double> strays = model_.strays(z);
      for (std::size_t s = 0; s < out.strays.size(); ++s)
        out.strays[s] += strays[s] / static_cast<double>(out.states.size());
    }
  }

  const NotesModel& model_;
  const LearnOptions& options_;
  Fit fit_;
  std::vector<std::size_t> readers_;
  LogLikelihood likelihood_;
  std::vector<Run> runs_;
  std::size_t done_ = 0;
};

}  // namespace

Learned learn(const NotesModel& model, const LearnOptions& options) {
  return Learner(model, options).learn();
}

}  // namespace barwright::tune
