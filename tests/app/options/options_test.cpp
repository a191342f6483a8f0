// An option that would change nothing was meant to change something: it is an error.
#include <catch2/catch.hpp>
#include <filesystem>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;

namespace {

std::string yard(const std::string& name) {
  const std::string folder = fresh_folder(name);
  REQUIRE(run("barwright new yard", folder).exit_code == 0);
  return folder + "/yard";
}

}  // namespace

TEST_CASE("options without effect are errors, and nothing is recorded") {
  const std::string folder = yard("options");
  for (const std::string command :
       {"blend firmer-bar.yaml --seed -1",
        "blend firmer-bar.yaml --try-lots 10 --seed -1",
        "blend firmer-bar.yaml --try-lots 10 --seed 99999999999999999999",
        "blend firmer-bar.yaml --seed 5",
        "blend firmer-bar.yaml --oil olive",
        "blend firmer-bar.yaml --apart '20 %'",
        "blend firmer-bar.yaml --within '2 sausages'",
        "blend firmer-bar.yaml --within 0x2s",
        "blend firmer-bar.yaml --within infs",
        "blend firmer-bar.yaml --within nans",
        "blend firmer-bar.yaml --within 2,5s",
        "swap yard-bar.yaml --out coconut --delivery 5",
        "swap yard-bar.yaml --out coconut --skip-wrong-rows",
        "shelf receive olive '1 kg' --lot A --shipping 5",
        "shelf receive olive '1 kg' --lot A --tax 5",
        "shelf receive olive '1 kg' --lot A --spread weight",
        "shelf receive olive '1 kg' --lot A --skip-wrong-rows",
        "shelf receive --from spring-line-prices.csv --spread value",
        "shelf reserve olive '1 kg' --for x --drop",
        "shelf a-shelf.yaml list --shelf b-shelf.yaml",
        "shelf bars x --in 3 --at 5",
        "make yard-bar.yaml --undo --plan",
        "make yard-bar.yaml --undo --bars 3",
        "make yard-bar.yaml --undo --weighed 'olive=5 g'",
        "make yard-bar.yaml --plan --note x",
        "make yard-bar.yaml --plan --lot olive=M",
        "oils lard --units oz",
        "new another --units oz",
        "oils --than lard"}) {
    CAPTURE(command);
    const Ran ran = run("barwright " + command, folder);
    CHECK(ran.exit_code == 2);
    CHECK(ran.out.empty());
  }
  CHECK_FALSE(std::filesystem::exists(folder + "/weighbridge-shelf-journal.csv"));
}

TEST_CASE("the shelf named before the word is the shelf of the word") {
  const std::string folder = yard("options-shelf");
  spill(folder + "/other-shelf.yaml", "shelf: other\nstock:\n  - {oil: castor, have: 1 kg}\n");
  CHECK_THAT(run("barwright shelf other-shelf.yaml list", folder).out,
             Contains("castor") && !Contains("olive"));
}
