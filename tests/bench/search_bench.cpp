// bench_search            the tables: ratios to CBC, curved goals, curves, growth, memory
// bench_search --quick    the same with fewer instances
// bench_search --sets     the slow check: every set of 5 from 40 oils with NLopt in each
// bench_search --unseen   problems as briefs are, on the odd seeds; --unseen even: on the others
// bench_search --lots     the tables' lines on lots alone
// bench_search --manners  the line on plain briefs with manners alone
// bench_search --benchmark_filter=.   single instances through Google Benchmark

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <cstring>
#include <string_view>

#include "solver/optimise/search.hpp"
#include "tests/bench/tables.hpp"
#include "tests/solver/optimise/outside_cbc.hpp"

namespace {

using barwright::testing::InstanceSpec;
using barwright::testing::Wish;

InstanceSpec kind(int oils, int most_oils) {
  InstanceSpec spec;
  spec.oils = oils;
  spec.most_oils = most_oils;
  return spec;
}

void tables(bool quick) {
  using namespace barwright::bench;
  const int many = quick ? 20 : 200, some = quick ? 10 : 50, few = quick ? 5 : 12;
  alone(
      "memory: feel, 120 oils, K 8",
      [] {
        InstanceSpec s = kind(120, 8);
        s.wish = Wish::nearest_in_feel;
        return s;
      }(),
      few, 2);
  fmt::print("peak memory so far {:.0f} MB (library and model included)\n", peak_memory());
  against_cbc("cheapest, 60 oils, K 6", kind(60, 6), many, 60);
  InstanceSpec ties = kind(60, 6);
  ties.equal_prices = true;
  ties.duplicates = 0.3;
  against_cbc("  equal prices, 30 % duplicates", ties, some, 60);
  against_cbc("  120 oils, K 8", kind(120, 8), some, 20);
  InstanceSpec narrow = kind(60, 6);
  narrow.narrowest = 0.1;
  narrow.widest = 0.4;
  against_cbc("  ranges 0.1 to 0.4 wide", narrow, few, 20);
  InstanceSpec none = kind(60, 6);
  none.impossible = true;
  against_cbc("  mostly nothing fits", none, some, 20);
  InstanceSpec floor = kind(60, 6);
  floor.soluble_floor = true;
  against_cbc("  a floor on the soluble share", floor, few, 20);

  manners_against_cbc();

  InstanceSpec feel = kind(60, 6);
  feel.wish = Wish::nearest_in_feel;
  alone("nearest in feel, 60 oils, K 6", feel, 50, 10);
  curve("cheapest against a property", kind(60, 6), false, some);
  curve("feel against cost", kind(60, 6), true, some);
  sureness("cheapest at three levels, 60 oils, K 6", kind(60, 6), some);
  lots();

  for (const int oils : {20, 40, 80, 120})
    against_cbc(fmt::format("growth: {} oils, K 6", oils), kind(oils, 6), few, 20);
  for (const int k : {3, 4, 6, 8, 10})
    against_cbc(fmt::format("growth: 60 oils, K {}", k), kind(60, k), few, 20);
  for (const int oils : {20, 40, 80, 120}) {
    feel.oils = oils;
    alone(fmt::format("growth in feel: {} oils, K 6", oils), feel, few, 10);
  }
}

void lots_alone() {
  barwright::bench::sureness("cheapest at three levels, 60 oils, K 6", kind(60, 6), 50);
  barwright::bench::lots();
}

void unseen(bool even) {
  using barwright::testing::Asked;
  using barwright::testing::UnseenSpec;
  const auto line = [&](const std::string& name, Asked asked, int oils, int most, int steps,
                        bool ranges, bool met = false) {
    UnseenSpec spec;
    spec.asked = asked;
    spec.oils = oils;
    spec.most_oils = most;
    spec.steps = steps;
    spec.can_be_met = met;
    if (!ranges) spec.ranges = spec.bent = 0;
    constexpr std::uint64_t kWork = 2'000'000'000;
    barwright::bench::unseen(name, spec, 24, even, kWork);
  };
  line("cheapest, 60 oils, K 6", Asked::cheapest, 60, 6, 100, true);
  line("  89 oils, K 10, 0.1 % steps", Asked::cheapest, 89, 10, 1000, true);
  line("most of a property, 60 oils, K 6", Asked::most, 60, 6, 100, true);
  line("least of one, 0.5 % steps", Asked::least, 60, 6, 200, true);
  line("nearest point, 60 oils, K 6", Asked::nearest_point, 60, 6, 100, true);
  line("  89 oils, K 8, 0.5 % steps", Asked::nearest_point, 89, 8, 200, true);
  line("nearest in feel, 60 oils, K 6", Asked::nearest_in_feel, 60, 6, 100, true);
  line("  it can be met", Asked::nearest_in_feel, 60, 6, 100, true, true);
  line("  89 oils, K 8, no ranges", Asked::nearest_in_feel, 89, 8, 100, false);
  line("  120 oils, K 8", Asked::nearest_in_feel, 120, 8, 100, true);
  const std::string blend = BARWRIGHT_BINARY " blend " BARWRIGHT_SOURCE_DIR "/examples/";
  for (const char* file : {"firmer-bar.yaml", "sure-bar.yaml"})
    barwright::bench::command(blend + file);
}

void ours(benchmark::State& state, Wish wish) {
  InstanceSpec spec = kind(int(state.range(0)), int(state.range(1)));
  spec.wish = wish;
  spec.seed = 7;
  const auto problem = barwright::testing::make_instance(spec);
  for (auto _ : state) benchmark::DoNotOptimize(barwright::optimise::search(problem));
}
void cbc(benchmark::State& state) {
  InstanceSpec spec = kind(int(state.range(0)), int(state.range(1)));
  spec.seed = 7;
  const auto problem = barwright::testing::make_instance(spec);
  for (auto _ : state) benchmark::DoNotOptimize(barwright::testing::solve_with_cbc(problem));
}
BENCHMARK_CAPTURE(ours, cheapest, Wish::cheapest)->Args({60, 6})->Args({120, 8});
BENCHMARK_CAPTURE(ours, feel, Wish::nearest_in_feel)->Args({60, 6});
BENCHMARK(cbc)->Args({60, 6})->Args({120, 8});

}  // namespace

int main(int argc, char** argv) {
  for (int i = 1; i < argc; ++i)
    if (std::strncmp(argv[i], "--benchmark", 11) == 0) {
      benchmark::Initialize(&argc, argv);
      benchmark::RunSpecifiedBenchmarks();
      return 0;
    }
  const std::string_view first = argc > 1 ? argv[1] : "";
  if (first == "--sets")
    barwright::bench::every_set(40, 5, 5);
  else if (first == "--unseen")
    unseen(argc > 2 && std::string_view(argv[2]) == "even");
  else if (first == "--lots")
    lots_alone();
  else if (first == "--manners")
    barwright::bench::manners_against_cbc();
  else
    tables(first == "--quick");
  return 0;
}
