#include "solver/optimise/lp_file.hpp"

#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "solver/optimise/search.hpp"
#include "tests/solver/explain/explain_cases.hpp"
#include "tests/solver/optimise/outside_lp.hpp"

using namespace barwright::optimise;
using namespace barwright::cases;

TEST_CASE("a small problem in the LP format, letter by letter") {
  Problem p = plain(2, 10);
  p.oils[0] = {2, 8, true};
  p.oils[1] = {1, 0, false};
  p.most_oils = 1;
  p.limits = {{{1, {20, -80}, {{2, {10, 0}, 3}}}, 5, kInfinity, 0}};
  p.goals = {Goal{{0.5, {1, 2.5}, {}}, {}, 0}};
  LpWords words;
  words.oils = {"olive", "palm kernel"};
  CHECK(lp_text(p, words).text ==
        "\\ Oils in whole steps: the w add up to 10. z = 1: the oil is in.\n"
        "Minimize\n"
        " goal: + 0.10000000000000001 w1_olive + 0.25 w2_palm_kernel + 0.5 one\n"
        "Subject To\n"
        " whole: + 1 w1_olive + 1 w2_palm_kernel = 10\n"
        " count: + 1 z1_olive + 1 z2_palm_kernel <= 1\n"
        " least1_olive: + 1 w1_olive - 2 z1_olive >= 0\n"
        " most1_olive: + 1 w1_olive - 8 z1_olive <= 0\n"
        " in1_olive: + 1 z1_olive = 1\n"
        " least2_palm_kernel: + 1 w2_palm_kernel - 1 z2_palm_kernel >= 0\n"
        " most2_palm_kernel: + 1 w2_palm_kernel <= 0\n"
        " in2_palm_kernel: + 1 z2_palm_kernel = 0\n"
        " h_limit1_1_slope: + 1 h_limit1_1 - 1 w1_olive <= 0\n"
        " h_limit1_1_cap: + 1 h_limit1_1 <= 3\n"
        " limit1_low: + 2 w1_olive - 8 w2_palm_kernel + 1 one + 2 h_limit1_1 >= 5\n"
        "Bounds\n"
        " one = 1\n"
        " 0 <= w1_olive <= 8\n"
        " 0 <= w2_palm_kernel <= 0\n"
        " h_limit1_1 free\n"
        "Generals\n"
        " w1_olive\n"
        " w2_palm_kernel\n"
        "Binaries\n"
        " z1_olive\n"
        " z2_palm_kernel\n"
        "End\n");
}

TEST_CASE("what is not linear is left out, and both the text and the list say so") {
  Problem p = plain(2, 10);
  p.goals = {Goal{linear({0, 0}), {Pull{linear({1, 0}), 0.5, 1}}, 0}};
  LpWords words;
  words.goal = "nearest in feel";
  const LpText lp = lp_text(p, words);
  CHECK(lp.left_out == std::vector<std::string>{"the goal 'nearest in feel'"});
  CHECK_THAT(lp.text, Catch::Contains("\\ Not linear, so not in this file: the goal 'nearest in "
                                      "feel'.\n") &&
                          Catch::Contains("\n goal: + 0 one\n"));
  words.oils = {"one"};
  CHECK_THROWS_AS(lp_text(plain(2, 10), words), std::invalid_argument);
}

TEST_CASE("the fewest oils are a goal over the z") {
  Problem p = plain(2, 10);
  p.goals = {Goal{linear({0, 0}), {}, 0}};
  LpWords words;
  words.goal = "fewest oils";
  words.fewest_oils = true;
  CHECK_THAT(lp_text(p, words).text, Catch::Contains("\n goal: + 1 z1 + 1 z2\n"));
}

TEST_CASE("CBC and GLPK read the file and find the same value") {
  const std::string file = std::filesystem::temp_directory_path() / "barwright-lp-file-test.lp";
  Dice dice(2718);
  int fits = 0;
  int none = 0;
  for (int round = 0; round < 40; ++round) {
    Problem p = random_problem(dice, 6, 20, 3, 2);
    p.most_oils = 3;
    for (OilBounds& oil : p.oils) oil = {1 + dice.below(3), 5 + dice.below(16), false};
    if (round % 3 == 0) p.oils[0].must = true;
    if (round % 4 == 0) p.oils[1].most = 0;
    // A bend the wrong way round needs the exact form with a binary.
    Kink kink{-2.0, {1, 4, 2, 0, 3, 5}, 2};
    p.limits[0].form.kinks.push_back(kink);
    p.goals[0].form.constant = 1.5;
    std::ofstream(file) << lp_text(p).text;
    const Answer ours = search(p);
    for (const auto& theirs :
         {barwright::testing::solve_lp_by_cbc(file), barwright::testing::solve_lp_by_glpk(file)}) {
      if (ours.status == Status::infeasible) {
        CHECK(theirs.said == barwright::testing::LpSolved::Said::infeasible);
        continue;
      }
      REQUIRE(ours.status == Status::optimal);
      REQUIRE(theirs.said == barwright::testing::LpSolved::Said::optimal);
      CHECK(theirs.value == Approx(ours.goals[0].value).margin(1e-6));
    }
    ++(ours.status == Status::infeasible ? none : fits);
  }
  std::filesystem::remove(file);
  CHECK(fits > 10);
  CHECK(none > 2);
}
