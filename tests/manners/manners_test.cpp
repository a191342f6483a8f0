// What the plainest briefs get, judged by what a maker would look at; and what stands in the files.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <set>

#include "cases.hpp"

using namespace barwright;
using namespace barwright::tests;
using jobs::MannerTold;

namespace {

// As the program allows a brief (solver/app/blend/command_blend.cpp).
constexpr std::uint64_t kWork = 32'000'000'000;

jobs::Mannerly answered(const jobs::BlendJob& job) {
  optimise::Allowance allowance{kWork, nullptr};
  optimise::SearchOptions options;
  options.allowance = &allowance;
  return jobs::find_mannerly(job, options);
}

std::string words(const jobs::BlendJob& job, const jobs::BlendResult& found) {
  std::string out;
  if (!found.has_blend()) return "no blend";
  for (const std::size_t i : found.used)
    out += job.candidates.oils[i].oil.name + " " +
           std::to_string(100.0 * found.answer.steps[i] / found.formulation.problem.steps)
               .substr(0, 4) +
           ", ";
  return out;
}

}  // namespace

TEST_CASE("forty plain briefs get a bar a maker would pour", "[manners]") {
  REQUIRE(cases().size() == 40);
  const bool tell = std::getenv("BARWRIGHT_TELL") != nullptr;
  for (const auto& one : cases()) {
    DYNAMIC_SECTION(one.shelf << ": " << one.lines) {
      const auto job = job_of(one);
      const auto found = answered(job);
      std::string odd;
      for (const auto& sentence : oddities(job, found.result)) odd += sentence + "; ";
      if (tell) {
        std::cout << one.shelf << ": " << one.lines << "   " << words(job, found.result) << " ["
                  << odd << "]";
        for (const auto& manner : found.manners)
          if (manner.state == MannerTold::State::gave_way)
            std::cout << " gave way: " << manner.manner->name << " -> " << manner.rule
                      << (manner.dropped ? " DROPPED" : "");
        std::cout << "\n";
      }
      INFO(words(job, found.result));
      CHECK(odd == "");
    }
  }
}

// How many of the forty a maker would pour, free and with manners, and how long they take: run by
// name, it prints.
TEST_CASE("figures of the forty briefs", "[.figures]") {
  int free_well = 0, well = 0;
  std::vector<double> seconds;
  for (const auto& one : cases()) {
    const auto none = job_of(one, "manners: none\n");
    try {
      free_well += oddities(none, answered(none).result).empty() ? 1 : 0;
    } catch (const core::Refusal&) {  // no safe lye for what the free search likes best
    }
    const auto job = job_of(one);
    const auto start = std::clock();
    const auto found = answered(job);
    seconds.push_back(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    well += oddities(job, found.result).empty() ? 1 : 0;
  }
  std::sort(seconds.begin(), seconds.end());
  std::cout << "poured: free " << free_well << ", with manners " << well << " of " << cases().size()
            << "; CPU s a brief: median " << seconds[seconds.size() / 2] << ", most "
            << seconds.back() << "\n";
}
