#include "solver/lp_file.hpp"

#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "solver/search.hpp"
#include "tests/solver/explain_cases.hpp"

#if __has_include(<coin/Cbc_C_Interface.h>) && __has_include(<dlfcn.h>)
#include <coin/Cbc_C_Interface.h>
#include <dlfcn.h>
#define BARWRIGHT_CBC 1
#endif

using namespace barwright::solver;
using namespace barwright::solver::cases;

TEST_CASE("a small problem in the LP format, letter by letter") {
  Problem p = plain(2, 10);
  p.oils[0] = {2, 8, true};
  p.oils[1] = {1, 0, false};
  p.most_oils = 1;
  p.limits = {{{1, {20, -80}, {{2, {10, 0}, 3}}}, 5, kInfinity, 0}};
  p.goals = {Goal{{0.5, {1, 2.5}, {}}, {}, 0}};
  const std::vector<std::string> names{"olive", "palm kernel"};
  CHECK(lp_text(p, names) ==
        "\\ Oils in whole steps: the w add up to 10. z = 1: the oil is in.\n"
        "Minimize\n"
        " goal: + 0.10000000000000001 w1_olive + 0.25 w2_palm_kernel + 0.5 one\n"
        "Subject To\n"
        " whole: + 1 w1_olive + 1 w2_palm_kernel = 10\n"
        " count: + 1 z1_olive + 1 z2_palm_kernel <= 1\n"
        " least1_olive: + 1 w1_olive - 2 z1_olive >= 0\n"
        " most1_olive: + 1 w1_olive - 8 z1_olive <= 0\n"
        " least2_palm_kernel: + 1 w2_palm_kernel - 1 z2_palm_kernel >= 0\n"
        " most2_palm_kernel: + 1 w2_palm_kernel <= 0\n"
        " h_limit1_1_slope: + 1 h_limit1_1 - 1 w1_olive <= 0\n"
        " h_limit1_1_cap: + 1 h_limit1_1 <= 3\n"
        " limit1_low: + 2 w1_olive - 8 w2_palm_kernel + 1 one + 2 h_limit1_1 >= 5\n"
        "Bounds\n"
        " one = 1\n"
        " 0 <= w1_olive <= 8\n"
        " z1_olive = 1\n"
        " 0 <= w2_palm_kernel <= 0\n"
        " z2_palm_kernel = 0\n"
        " h_limit1_1 free\n"
        "Generals\n"
        " w1_olive\n"
        " w2_palm_kernel\n"
        "Binaries\n"
        " z1_olive\n"
        " z2_palm_kernel\n"
        "End\n");
}

TEST_CASE("a goal with squares is refused, not written wrongly") {
  Problem p = plain(2, 10);
  p.goals = {Goal{linear({0, 0}), {Pull{linear({1, 0}), 0.5, 1}}, 0}};
  CHECK_THROWS_AS(lp_text(p), std::invalid_argument);
  CHECK_THROWS_AS(lp_text(plain(2, 10), std::vector<std::string>{"one"}), std::invalid_argument);
}

#ifdef BARWRIGHT_CBC
namespace {

/// CBC (COIN-OR), a solver by others, loaded as it lies on the machine: it reads our file by its
/// own reader.
class Cbc {
 public:
  Cbc() {
    for (const char* name : {"libCbcSolver.so.3", "libCbcSolver.so"}) {
      if (library_ == nullptr) library_ = dlopen(name, RTLD_NOW);
    }
  }
  bool loaded() const { return library_ != nullptr; }

  template <typename F>
  F* get(const char* name) const {
    F* function = reinterpret_cast<F*>(dlsym(library_, name));
    REQUIRE(function != nullptr);
    return function;
  }

  /// The least value of the file's goal; infinite when CBC finds that nothing fits.
  double least(const std::string& file) const {
    Cbc_Model* model = get<decltype(Cbc_newModel)>("Cbc_newModel")();
    get<decltype(Cbc_setLogLevel)>("Cbc_setLogLevel")(model, 0);
    REQUIRE(get<decltype(Cbc_readLp)>("Cbc_readLp")(model, file.c_str()) == 0);
    get<decltype(Cbc_solve)>("Cbc_solve")(model);
    double value = kInfinity;
    if (get<decltype(Cbc_isProvenInfeasible)>("Cbc_isProvenInfeasible")(model) == 0) {
      REQUIRE(get<decltype(Cbc_isProvenOptimal)>("Cbc_isProvenOptimal")(model) != 0);
      value = get<decltype(Cbc_getObjValue)>("Cbc_getObjValue")(model);
    }
    get<decltype(Cbc_deleteModel)>("Cbc_deleteModel")(model);
    return value;
  }

 private:
  void* library_ = nullptr;
};

}  // namespace

TEST_CASE("another solver reads the file and finds the same value") {
  const Cbc cbc;
  REQUIRE(cbc.loaded());
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
    std::ofstream(file) << lp_text(p);
    const Answer ours = search(p);
    const double theirs = cbc.least(file);
    if (ours.status == Status::infeasible) {
      CHECK(theirs == kInfinity);
      ++none;
    } else {
      REQUIRE(ours.status == Status::optimal);
      CHECK(theirs == Approx(ours.goals[0].value).margin(1e-6));
      ++fits;
    }
  }
  std::filesystem::remove(file);
  CHECK(fits > 10);
  CHECK(none > 2);
}
#endif
