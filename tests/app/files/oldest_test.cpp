// Files as they were first written (tests/oldest) are readable for ever.
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

std::string oldest(const std::string& name) {
  const std::string folder = fresh_folder(name) + "/1";
  fs::copy(BARWRIGHT_SOURCE_DIR "/tests/oldest/1", folder);
  return folder;
}

}  // namespace

TEST_CASE("every file of format 1 is read") {
  const std::string folder = oldest("oldest");
  for (const auto& [command, code] : {std::pair{"weigh yard-bar.yaml", 0},
                                      {"weigh fireside-bar.yaml", 0},
                                      {"weigh saved-bar.yaml", 0},
                                      {"blend firmer-bar.yaml", 0},
                                      {"blend sure-bar.yaml", 0},
                                      {"blend saved-brief.yaml", 0},
                                      {"blend too-hard.yaml", 4},
                                      {"swap butter-out.yaml", 0},
                                      {"sheet towpath-batch.yaml", 0},
                                      {"label yard-bar.yaml --with label.yaml", 0},
                                      {"price yard-bar.yaml --bars 10 --costs costs.yaml", 0},
                                      {"oils --check own-record.yaml", 0},
                                      {"blend firmer-bar.yaml --lots lots.csv --oil olive", 0},
                                      {"shelf weighbridge-shelf.yaml", 0},
                                      {"shelf weighbridge-shelf.yaml list", 0},
                                      {"shelf butter-out-stock.yaml", 0}}) {
    CAPTURE(command);
    const Ran ran = run(std::string("barwright ") + command, folder);
    CHECK(ran.exit_code == code);
    CHECK_FALSE(ran.out.empty());
  }
}

TEST_CASE("a look around of format 1 is read") {
  const Ran ran = run("barwright explore spring-line.yaml", oldest("oldest-explore"));
  CHECK((ran.exit_code == 0 || ran.exit_code == 5));  // proved or not: it is about reading
}

TEST_CASE("a journal of format 1 says what it said, and goes on") {
  const std::string folder = oldest("oldest-journal");
  const json week = json::parse(
      run("barwright shelf weighbridge-shelf.yaml --json --date 2027-03-04", folder).out);
  CHECK(week["status"] == "listed");
  const json batch = json::parse(
      run("barwright release yard --shelf weighbridge-shelf.yaml --date 2027-03-04 --json", folder)
          .out);
  CHECK(batch["bars_left"] == 4);
  CHECK_THAT(run("barwright shelf trace MB-2291 --shelf weighbridge-shelf.yaml", folder).out,
             Contains("yard"));
  const std::string before = slurp(folder + "/weighbridge-shelf-journal.csv");
  CHECK(run("barwright shelf receive olive '1 kg' --lot NEW --shelf weighbridge-shelf.yaml --date "
            "2027-03-04",
            folder)
            .exit_code == 0);
  CHECK(slurp(folder + "/weighbridge-shelf-journal.csv") ==
        before + "2027-03-04,received,,,olive,NEW,1000,,,,,\n");
}

TEST_CASE("a note of an unfinished entry of format 1 is completed") {
  const std::string folder = oldest("oldest-note");
  fs::rename(folder + "/pot-shelf-unfinished", folder + "/.pot-shelf-unfinished");
  const Ran ran =
      run("barwright shelf reserve castor '100 g' --for spring --shelf pot-shelf.yaml --date "
          "2027-01-03",
          folder);
  CHECK(ran.exit_code == 0);
  CHECK_THAT(ran.err, Contains("was completed first"));
  CHECK_THAT(slurp(folder + "/pot-shelf.yaml"), Contains("O-1"));
  CHECK_THAT(slurp(folder + "/pot-shelf-journal.csv"),
             Contains("received,,,olive,O-1,2000") && Contains("reserved,spring"));
}

TEST_CASE("a file of a newer format is refused politely, whichever it is") {
  const std::string folder = oldest("oldest-newer");
  for (const auto& [file, command] : {std::pair{"yard-bar.yaml", "weigh"},
                                      {"firmer-bar.yaml", "blend"},
                                      {"butter-out.yaml", "swap"},
                                      {"spring-line.yaml", "explore"},
                                      {"towpath-batch.yaml", "sheet"},
                                      {"weighbridge-shelf.yaml", "shelf"},
                                      {"label.yaml", "label yard-bar.yaml --with"},
                                      {"costs.yaml", "price yard-bar.yaml --bars 10 --costs"},
                                      {"own-record.yaml", "oils --check"}}) {
    CAPTURE(file, command);
    const std::string text = slurp(folder + "/" + file);
    spill(folder + "/" + file, text + "\nformat: 1\n");
    const int code = run(std::string("barwright ") + command + " " + file, folder).exit_code;
    CHECK((code == 0 || code == 5));  // proved or not: it is about reading
    spill(folder + "/" + file, text + "\nformat: 3\n");
    const Ran ran = run(std::string("barwright ") + command + " " + file, folder);
    CHECK(ran.exit_code == 3);
    CHECK_THAT(ran.err, Contains("written for a newer barwright"));
    spill(folder + "/" + file, text);
  }
}
