#include "tests/bench/tables.hpp"

#include <fmt/format.h>
#include <sys/resource.h>
#include <time.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "oils/records/library.hpp"
#include "solver/explain/curve.hpp"
#include "solver/jobs/try_lots.hpp"
#include "solver/optimise/search.hpp"
#include "tests/solver/optimise/outside_cbc.hpp"
#include "tests/solver/optimise/outside_sets.hpp"

namespace barwright::bench {

using barwright::testing::CbcAnswer;
using barwright::testing::InstanceSpec;
using optimise::Answer;
using optimise::Problem;
using optimise::SearchOptions;
using optimise::Status;

double cpu_seconds() {
  timespec t{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return double(t.tv_sec) + 1e-9 * double(t.tv_nsec);
}

double Series::at(double quantile) const {
  if (values.empty()) return 0;
  std::vector<double> sorted = values;
  std::sort(sorted.begin(), sorted.end());
  return sorted[std::size_t(quantile * double(sorted.size() - 1) + 0.5)];
}

double peak_memory() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return double(usage.ru_maxrss) / 1024;
}

namespace {

// The least of three runs for short ones: a first run pays for cold caches.
double timed(const Problem& problem, const SearchOptions& options, Answer& answer) {
  double best = 0;
  for (int run = 0; run < 3; ++run) {
    const double before = cpu_seconds();
    answer = optimise::search(problem, options);
    const double took = cpu_seconds() - before;
    best = run == 0 ? took : std::min(best, took);
    if (took > 0.02) break;
  }
  return best;
}

}  // namespace

void against_cbc(const std::string& name, InstanceSpec spec, int count, double cbc_seconds) {
  Series ours, theirs, ratio, nodes;
  int differ = 0, unproved = 0, none = 0, cbc_late = 0;
  for (int k = 0; k < count; ++k) {
    spec.seed = std::uint64_t(k + 1);
    const Problem problem = barwright::testing::make_instance(spec);
    Answer answer;
    const double took = timed(problem, {}, answer);
    const double before = cpu_seconds();
    const CbcAnswer cbc = barwright::testing::solve_with_cbc(problem, cbc_seconds);
    const double cbc_took = cpu_seconds() - before;
    ours.add(1e3 * took);
    theirs.add(1e3 * cbc_took);
    ratio.add(cbc_took / took);
    nodes.add(double(answer.stats.nodes));
    none += answer.status == Status::infeasible;
    unproved += answer.status == Status::feasible || answer.status == Status::undecided;
    if (cbc.said == CbcAnswer::Said::other) {
      ++cbc_late;
    } else if (cbc.said == CbcAnswer::Said::infeasible) {
      differ += answer.status != Status::infeasible;
    } else {
      differ += answer.goals.empty() || std::abs(answer.goals[0].value - cbc.value) > 1e-6;
    }
  }
  fmt::print(
      "{:<34} {:>4} ours ms {:>8.3f} p95 {:>8.3f} nodes {:>6.0f} | CBC ms {:>8.2f} p95 {:>9.2f} | "
      "ratio {:>6.1f} "
      "p5 {:>6.1f} least {:>6.1f} | none {} unproved {} CBC late {} differ {}\n",
      name, count, ours.at(.5), ours.at(.95), nodes.at(.5), theirs.at(.5), theirs.at(.95),
      ratio.at(.5), ratio.at(.05), ratio.at(0), none, unproved, cbc_late, differ);
  std::fflush(stdout);
}

void alone(const std::string& name, InstanceSpec spec, int count, double limit) {
  Series ours, nodes, gap;
  int unproved = 0;
  for (int k = 0; k < count; ++k) {
    spec.seed = std::uint64_t(k + 1);
    const Problem problem = barwright::testing::make_instance(spec);
    SearchOptions options;
    options.deadline = std::chrono::steady_clock::now() +
                       std::chrono::microseconds(static_cast<long>(limit * 1e6));
    Answer answer;
    const double before = cpu_seconds();
    answer = optimise::search(problem, options);
    ours.add(1e3 * (cpu_seconds() - before));
    nodes.add(double(answer.stats.nodes));
    if (answer.status != Status::optimal && answer.status != Status::infeasible) {
      ++unproved;
      if (!answer.goals.empty())
        gap.add(100 * (answer.goals[0].value - answer.goals[0].bound) /
                std::max(1e-9, std::abs(answer.goals[0].value)));
    }
  }
  fmt::print(
      "{:<34} {:>4} ours ms {:>8.2f} p95 {:>8.2f} most {:>8.2f} nodes {:>6.0f} | unproved {} "
      "(limit {} s wall, largest gap {:.2f} %)\n",
      name, count, ours.at(.5), ours.at(.95), ours.at(1), nodes.at(.5), unproved, limit, gap.at(1));
  std::fflush(stdout);
}

void unseen(const std::string& name, barwright::testing::UnseenSpec spec, int count, bool even,
            std::uint64_t work) {
  Series ours, nodes;
  int unproved = 0;
  for (int k = 0; k < count; ++k) {
    spec.seed = std::uint64_t(2 * k + (even ? 2 : 1));
    const Problem problem = barwright::testing::make_unseen(spec);
    optimise::Allowance allowance{work, nullptr};
    SearchOptions options;
    options.allowance = &allowance;
    const double before = cpu_seconds();
    const Answer answer = optimise::search(problem, options);
    ours.add(1e3 * (cpu_seconds() - before));
    nodes.add(double(answer.stats.nodes));
    unproved += answer.status != Status::optimal;
  }
  fmt::print(
      "{:<34} {:>4} {} seeds: ms {:>8.2f} p95 {:>8.2f} most {:>8.2f} nodes {:>6.0f} | "
      "unproved {}\n",
      name, count, even ? "even" : "odd", ours.at(.5), ours.at(.95), ours.at(1), nodes.at(.5),
      unproved);
  std::fflush(stdout);
}

void command(const std::string& line) {
  const auto children = [] {
    rusage usage{};
    getrusage(RUSAGE_CHILDREN, &usage);
    const auto seconds = [](const timeval& t) {
      return double(t.tv_sec) + 1e-6 * double(t.tv_usec);
    };
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
  };
  double least = 0;
  for (int run = 0; run < 5; ++run) {
    const double before = children();
    const int status = std::system((line + " > /dev/null 2>&1").c_str());
    if (status != 0) {
      fmt::print("'{}' ended with {}\n", line, status);
      return;
    }
    const double took = children() - before;
    least = run == 0 ? took : std::min(least, took);
  }
  fmt::print("{}: {:.0f} ms of CPU time\n", line, 1e3 * least);
  std::fflush(stdout);
}

void curve(const std::string& name, InstanceSpec spec, bool feel, int count) {
  Series ours;
  int unproved = 0;
  for (int k = 0; k < count; ++k) {
    spec.seed = std::uint64_t(k + 1);
    Problem problem = barwright::testing::make_instance(spec);
    optimise::Form axis = problem.limits[0].form;
    if (feel) {  // nearest in feel against the price
      axis = problem.goals[0].form;
      InstanceSpec other = spec;
      other.wish = barwright::testing::Wish::nearest_in_feel;
      problem = barwright::testing::make_instance(other);
    }
    const double before = cpu_seconds();
    const explain::Curve traced = explain::trade_off(problem, axis, 21);
    ours.add(1e3 * (cpu_seconds() - before));
    unproved += !traced.proved;
  }
  fmt::print("{:<34} {:>4} curves of 21: ms {:>8.2f} p95 {:>8.2f} most {:>8.2f} unproved {}\n",
             name, count, ours.at(.5), ours.at(.95), ours.at(1), unproved);
  std::fflush(stdout);
}

void every_set(int oils, int most_oils, int count) {
  for (int k = 0; k < count; ++k) {
    InstanceSpec spec;
    spec.seed = std::uint64_t(700 + k);
    spec.oils = oils;
    spec.most_oils = most_oils;
    spec.wish = barwright::testing::Wish::nearest_in_feel;
    const Problem problem = barwright::testing::make_instance(spec);
    double before = cpu_seconds();
    const Answer answer = optimise::search(problem);
    const double ours = cpu_seconds() - before;
    before = cpu_seconds();
    const auto sets = barwright::testing::look_at_every_set(problem);
    fmt::print(
        "every set of {} from {}, seed {}: {:.1f} s, search {:.1f} ms; values {:.9g} and {:.9g}, "
        "{}\n  {} sets: {} cannot add up, {} miss a limit, {} bounded, {} with NLopt and every "
        "whole "
        "step (NLopt: {} unfit, {} above, {} wrong)\n",
        most_oils, oils, spec.seed, cpu_seconds() - before, 1e3 * ours, sets.value,
        answer.goals.empty() ? NAN : answer.goals[0].value,
        !answer.goals.empty() && std::abs(sets.value - answer.goals[0].value) <= 1e-6 ? "the same"
                                                                                      : "DIFFERENT",
        sets.sets, sets.sum, sets.out_of_reach, sets.bounded, sets.minimised, sets.unfit,
        sets.above, sets.misled);
    std::fflush(stdout);
  }
}

void sureness(const std::string& name, InstanceSpec spec, int count) {
  using barwright::testing::LotsCount;
  Series plain, typical, likely, worst, worst_ratio, worst_plain, likely_ratio;
  int unproved = 0;
  for (int k = 0; k < count; ++k) {
    spec.seed = std::uint64_t(k + 1);
    double took[4] = {};
    for (const LotsCount lots :
         {LotsCount::none, LotsCount::typical, LotsCount::likely, LotsCount::worst_case}) {
      spec.lots = lots;
      const Problem problem = barwright::testing::make_instance(spec);
      Answer answer;
      SearchOptions options;
      options.deadline = std::chrono::steady_clock::now() + std::chrono::seconds(20);
      took[int(lots)] = timed(problem, options, answer);
      unproved += answer.status != Status::optimal;
    }
    plain.add(1e3 * took[0]);
    typical.add(1e3 * took[1]);
    likely.add(1e3 * took[2]);
    worst.add(1e3 * took[3]);
    likely_ratio.add(took[2] / took[1]);
    worst_ratio.add(took[3] / took[1]);
    worst_plain.add(took[3] / took[0]);
  }
  const auto all = [](const Series& times) {
    return std::accumulate(times.values.begin(), times.values.end(), 0.0);
  };
  fmt::print(
      "{}: {} instances; typical {:.3f} ms, worst-case {:.3f}, ratio {:.2f} (p95 {:.2f}; of all "
      "times {:.2f}); in ranges wide enough for worst lots typical {:.3f}, likely {:.3f}, ratios "
      "likely {:.2f} (p95 {:.2f}), worst-case {:.2f} (p95 {:.2f}); unproved {}\n",
      name, count, plain.at(0.5), worst.at(0.5), worst_plain.at(0.5), worst_plain.at(0.95),
      all(worst) / all(plain), typical.at(0.5), likely.at(0.5), likely_ratio.at(0.5),
      likely_ratio.at(0.95), worst_ratio.at(0.5), worst_ratio.at(0.95), unproved);
}

void lots() {
  const oils::Library library = oils::Library::embedded();
  jobs::BlendJob job{{}, {}, {}, targets::PropertyModel::embedded(), {}, {}};
  jobs::BlendResult result;
  formulate::KnownBar known;
  std::vector<targets::Composition> parts;
  const std::vector<std::string> names = {"olive",       "coconut", "palm",
                                          "shea butter", "castor",  "rice bran"};
  for (std::size_t i = 0; i < names.size(); ++i) {
    formulate::Candidate one;
    one.oil = *library.find(names[i]);
    one.composition = targets::composition(one.oil);
    known.parts.push_back({one.oil, 1.0 / 6});
    parts.push_back(one.composition);
    job.candidates.oils.push_back(std::move(one));
    result.used.push_back(i);
    result.shares.push_back(1.0 / 6);
  }
  known.composition = targets::mix(parts, result.shares);
  job.yardstick = known;
  for (const auto property : {targets::Property::hardness, targets::Property::lather,
                              targets::Property::conditioning, targets::Property::keeping}) {
    targets::Wish wish;
    wish.subject.property = property;
    wish.compared = true;
    wish.low = targets::Bound{};
    job.brief.wishes.push_back(wish);
  }
  Series times;
  for (int run = 0; run < 5; ++run) {
    const double before = cpu_seconds();
    const auto trial = jobs::try_lots(job, result, 10000, 1);
    times.add(1e3 * (cpu_seconds() - before));
    if (trial.all.held != trial.lots) fmt::print("a bar was less than itself\n");
  }
  fmt::print("10,000 lots, six oils, four wishes against a bar: {:.0f} ms\n", times.at(0.5));
}

}  // namespace barwright::bench
