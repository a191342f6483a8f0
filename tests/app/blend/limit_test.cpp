#include <catch2/catch.hpp>
#include <filesystem>

#include "oils/records/library.hpp"
#include "running.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/program.hpp"
#include "solver/app/time_limit.hpp"
#include "solver/formulate/goal_watch.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/report/report_blend.hpp"

using namespace barwright;
using namespace barwright::tests;
using Catch::Matchers::Contains;

TEST_CASE("every question has an end: --within, or else so much work") {
  optimise::Allowance allowance;
  optimise::SearchOptions usual, within;
  app::set_limit("", allowance, usual);
  CHECK(usual.allowance == &allowance);
  CHECK(allowance.most == app::kUsualWork);
  CHECK_FALSE(usual.deadline);
  app::set_limit("2s", allowance, within);
  CHECK(within.allowance == nullptr);
  CHECK(within.deadline);
  CHECK_THROWS_AS(app::set_limit("soon", allowance, within), app::UsageError);
}

namespace {

// Sees all there is to see.
struct Onlooker : formulate::GoalWatch {
  bool due() override { return true; }
  void seen(std::size_t, double, double) override {}
  void so_far(const formulate::Claim& claim, bool found, bool bounded) override {
    if (!found || claim.goal.empty()) return;
    last = claim;
    with_bound += bounded ? 1 : 0;
  }
  formulate::Claim last;
  int with_bound = 0;
};

}  // namespace

// 89 oils in steps of a tenth of a per cent: hours would not prove the nearest. Invented.
TEST_CASE("a question that is hard to prove ends with the best so far, the same every time") {
  const std::string folder = fresh_folder("limit");
  spill(folder + "/hard.yaml",
        "brief: a long search\nmake: {oils: 2000 g}\noils-from: library\n"
        "compared-with: " BARWRIGHT_SOURCE_DIR
        "/examples/yard-bar.yaml\n"
        "want: {hardness: 51.0 to 51.3, lather: 38.6 to 38.9}\nbest: nearest in feel\n"
        "limits: {steps: 0.1 %, oils: at most 8}\nscale: {lye: 0.1 g}\nmanners: none\n");
  const oils::Library library = oils::Library::embedded();
  const jobs::BlendJob job = jobs::read_blend_job(folder + "/hard.yaml", library);
  std::vector<std::string> texts;
  Onlooker onlooker;
  for (int run = 0; run < 3; ++run) {
    // As the program does, with less work, so that the test is short.
    optimise::Allowance allowance{100'000'000, nullptr};
    jobs::ReportOptions how;
    how.search.allowance = &allowance;
    if (run == 2) how.search.watch = &onlooker;
    const jobs::BlendReport report = jobs::report_blend(job, library, how);
    CHECK(report.result.answer.status == optimise::Status::feasible);
    CHECK(report.result.has_blend());
    CHECK(allowance.used < 2 * allowance.most);
    texts.push_back(app::text_blend(report, false));
  }
  CHECK(texts[0] == texts[1]);
  CHECK(texts[0] == texts[2]);  // being looked at changes nothing
  CHECK(onlooker.last.goal == "nearest in feel");
  CHECK(onlooker.last.value >= onlooker.last.bound);
  CHECK(onlooker.with_bound > 0);
  CHECK_THAT(texts[0], Contains("The search was cut short, and this is the best"));
  CHECK_THAT(texts[0], Contains("allowance was used up"));
  std::filesystem::remove_all(folder);
}
