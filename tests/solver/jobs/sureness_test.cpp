// Whole briefs at the three levels: what they rest on, how lots treat them, what they cost.
#include "solver/jobs/sureness.hpp"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/try_lots.hpp"
#include "targets/model/difference.hpp"
#include "tests/solver/formulate/sure_testing.hpp"

using namespace barwright;
using namespace barwright::jobs;
using namespace barwright::optimise;
using targets::Sureness;

namespace {

const std::string kExamples = BARWRIGHT_SOURCE_DIR "/examples/";

BlendJob job_of(const std::string& brief) {
  const auto path = std::filesystem::temp_directory_path() /
                    ("barwright-sureness-" + std::to_string(getpid()) + ".yaml");
  std::ofstream(path) << brief;
  BlendJob job = read_blend_job(path.string(), barwright::testing::whole_library());
  std::filesystem::remove(path);
  return job;
}

// Oils of measured and of guessed chains, against a bar every maker knows.
std::string many_oils_brief(const std::string& level) {
  return "brief: firmer\n"
         "oils-from: [olive, coconut, murumuru butter, shea butter, tucuma butter, meadowfoam, "
         "moringa, castor, rice bran, high-oleic sunflower, babassu]\n"
         "compared-with: {name: a common bar, superfat: 5 %, blend: {olive: 40 %, palm: 30 %, "
         "coconut: 25 %, castor: 5 %}}\n"
         "want: {lather: no less, conditioning: at least 2 above}\n"
         "best: most hardness\n"
         "limits: {oils: at most 6}\n"
         "lye: {superfat: 5 %}\n"
         "scale: {oils: 1 g, lye: 0.1 g}\n"
         "sureness: " +
         level + "\n";
}

std::string shelf_brief(const std::string& wishes, const std::string& rest) {
  return "brief: from the shelf\n"
         "oils-from: shelf\n"
         "shelf: " +
         kExamples + "weighbridge-shelf.yaml\ncompared-with: " + kExamples +
         "yard-bar.yaml\nwant: {" + wishes + "}\n" + rest +
         "limits: {oils: at most 5}\nmake: {oils: 3 kg}\n";
}

// Chains whose soaps no source measures: hardness of them is a guess (targets/data/model.yaml).
double guessed(const targets::Composition& bar) {
  double share = 0;
  for (const auto acid : {core::FattyAcid::C18_1t, core::FattyAcid::C20_1, core::FattyAcid::C22_1,
                          core::FattyAcid::C22_2, core::FattyAcid::C24_1})
    share += core::at(bar.acids, acid);
  return share;
}

}  // namespace

TEST_CASE("a likely answer does not rest on guessed constants, a typical one does", "[sureness]") {
  const BlendResult typical = find_blend(job_of(many_oils_brief("typical")), {});
  const BlendResult likely = find_blend(job_of(many_oils_brief("likely")), {});
  REQUIRE(typical.answer.status == Status::optimal);
  REQUIRE(likely.answer.status == Status::optimal);
  CHECK(guessed(typical.composition) > 0.05);
  CHECK(guessed(likely.composition) < 0.02);
  // What it gains is sure: nine tenths of the doubt lie above what a hand can tell.
  const auto model = targets::PropertyModel::embedded();
  const BlendJob job = job_of(many_oils_brief("likely"));
  const auto gain =
      targets::difference(model, model.readings(), targets::Property::hardness, likely.composition,
                          likely.settings, job.yardstick->composition, job.yardstick->settings);
  CHECK(gain.sure);
}

TEST_CASE("worst-case never fails: ten thousand lots keep every wish", "[sureness]") {
  int tried = 0;
  for (const std::string wishes :
       {"hardness: at least 2 above, lather: no more than 3 below",
        "conditioning: no more than 4 below, keeping: no less", "lather: at least 40",
        "hardness: at least 45, conditioning: at least 30", "iodine value: at most 80"}) {
    for (const std::string goal : {"best: cheapest\n", "best: most hardness\n"}) {
      const BlendJob job = job_of(shelf_brief(wishes, goal + "sureness: worst-case\n"));
      const BlendResult result = find_blend(job, {});
      if (result.answer.status != Status::optimal) continue;
      const LotTrial trial = try_lots(job, result, 10000, 4);
      INFO(wishes);
      CHECK(trial.all.held == 10000);
      ++tried;
    }
  }
  CHECK(tried >= 6);
}

TEST_CASE("likely fails no more than stated over lots drawn anew", "[sureness]") {
  int tried = 0;
  for (const int share : {80, 90, 95}) {
    for (const std::string wishes :
         {"hardness: at least 2 above, lather: no more than 3 below",
          "conditioning: no more than 4 below, keeping: no less",
          "hardness: at least 45, conditioning: at least 30", "iodine value: at most 80"}) {
      const BlendJob job = job_of(shelf_brief(
          wishes, "best: cheapest\nsureness: likely " + std::to_string(share) + " %\n"));
      const BlendResult result = find_blend(job, {});
      if (result.answer.status != Status::optimal) continue;
      for (const auto& wish : try_lots(job, result, 10000, 5).wishes) {
        INFO(wishes << ", " << share << " %");
        CHECK(wish.high >= share / 100.0);
        ++tried;
      }
    }
  }
  CHECK(tried >= 12);
}

TEST_CASE("more sureness never makes a blend cheaper", "[sureness]") {
  const BlendJob job =
      job_of(shelf_brief("hardness: at least 2 above, lather: no more than 3 below",
                         "best: cheapest\nsureness: likely\nmanners: none\n"));
  const BlendResult asked = find_blend(job, {});
  const std::vector<double> shares = {0.8, 0.99};
  const SurenessPrice price = price_of_sureness(job, asked, 0, shares, {});
  REQUIRE(price.levels.size() == 5);
  CHECK(price.levels.front().level == Sureness::typical);
  CHECK(price.levels.back().level == Sureness::worst_case);
  CHECK(price.levels[2].asked);
  for (std::size_t k = 1; k < price.levels.size(); ++k) {
    if (!price.levels[k].cost_per_kg) continue;  // nothing fits: dearer still
    REQUIRE(price.levels[k - 1].cost_per_kg);
    CHECK(*price.levels[k].cost_per_kg >= *price.levels[k - 1].cost_per_kg - 1e-2);
  }
}

TEST_CASE("a wish may have its own level", "[sureness]") {
  const BlendJob job =
      job_of(shelf_brief("hardness: \"at least 2 above, worst-case\", lather: no more than 3 below",
                         "best: cheapest\n"));
  CHECK(asks_for_sureness(job.brief));
  const BlendResult result = find_blend(job, {});
  REQUIRE(result.answer.status == Status::optimal);
  const LotTrial trial = try_lots(job, result, 5000, 6);
  REQUIRE(trial.wishes.size() == 2);
  CHECK(trial.wishes[0].held == 5000);
  CHECK(trial.wishes[1].held < 5000);
}

TEST_CASE("the soluble share is refused for varying lots, with a way out", "[sureness]") {
  const auto put = [](const std::string& wish, const std::string& level) {
    const BlendJob job = job_of(shelf_brief(wish, "best: cheapest\nsureness: " + level + "\n"));
    return formulation_of(job, first_assumptions(job));
  };
  CHECK_THROWS_WITH(put("soluble-38: at least 30", "worst-case"),
                    Catch::Contains("typical lots only"));
  CHECK_NOTHROW(put("soluble-38: \"at least 30, typical\"", "worst-case"));
  CHECK_NOTHROW(put("soluble-38: at least 30", "typical"));
}

TEST_CASE("lots tried twice are the same, with another seed others", "[sureness]") {
  const BlendJob job = job_of(shelf_brief("lather: no more than 1 below", "best: most hardness\n"));
  const BlendResult result = find_blend(job, {});
  REQUIRE(result.has_blend());
  const int once = try_lots(job, result, 4000, 1).all.held;
  CHECK(once == try_lots(job, result, 4000, 1).all.held);
  CHECK(once != try_lots(job, result, 4000, 2).all.held);
}

TEST_CASE("an interval of a share is Wilson's", "[sureness]") {
  // 81 of 263: 0.2553 to 0.3662 (Newcombe 1998, Statistics in Medicine 17:857, table I, method 3;
  // recalled).
  const auto [low, high] = share_interval(81, 263);
  CHECK(low == Approx(0.2553).margin(5e-5));
  CHECK(high == Approx(0.3662).margin(5e-5));
  CHECK(share_interval(10, 10).second == Approx(1));
  CHECK(share_interval(0, 10).first == Approx(0).margin(1e-12));
}

TEST_CASE("measured lots take the place of drawn ones", "[sureness]") {
  const BlendJob job = job_of(
      shelf_brief("hardness: at least 0 above, lather: no more than 8 below", "best: cheapest\n"));
  const BlendResult result = find_blend(job, {});
  REQUIRE(result.has_blend());
  const auto lots = oils::read_lots(BARWRIGHT_SOURCE_DIR "/tests/oils/olive-lots.csv",
                                    *barwright::testing::whole_library().find("olive"));
  CHECK(try_lots(job, result, 0, 1, lots).lots == 29);
  CHECK(try_lots(job, result, 300, 1, lots).lots == 300);
}
