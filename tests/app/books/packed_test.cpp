// Packaging: what a bar takes, by whichever file says it, reserved, drawn, told.
#include <catch2/catch.hpp>

#include "tests/app/books/shelf_yard.hpp"
#include "tests/app/running.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using tests::YardFolder;

namespace {

void boxes(const YardFolder& yard) {
  yard.write("yard-shelf.yaml", std::string(tests::kYardShelf) +
                                    "  - {packaging: kraft box, have: 50, lot: B-1}\n"
                                    "  - {packaging: paper band, have: 200}\n");
}

}  // namespace

TEST_CASE("packaging stands in the recipe, and goes before the workshop's", "[books][packed]") {
  const YardFolder yard("packed");
  boxes(yard);
  yard.write("workshop.yaml", "workshop: Weighbridge Yard\npacked-in: {kraft box: 1}\n");
  CHECK_THAT(
      yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20"}),
      Contains("kraft box   lot B-1  20 pieces") || Contains("kraft box  lot B-1  20 pieces"));
  yard.write("yard-bar.yaml", std::string(tests::kYardBar) + "packed-in: {paper band: 2}\n");
  const std::string banded =
      yard.on("2027-02-14", {"make", "@yard-bar.yaml", "--bars", "20", "--as", "banded"});
  CHECK_THAT(banded, Contains("paper band") && Contains("40 pieces") && !Contains("kraft box"));
  yard.write("yard-bar.yaml", std::string(tests::kYardBar) + "packed-in: none\n");
  CHECK_THAT(yard.on("2027-02-15", {"make", "@yard-bar.yaml", "--bars", "2", "--as", "bare"}),
             !Contains("pieces") && !Contains("keeps no packaging"));
}

TEST_CASE("a plan reserves its packaging, and the shelf tells who counts on it",
          "[books][packed]") {
  const YardFolder yard("packed-plan");
  boxes(yard);
  yard.write("yard-bar.yaml", std::string(tests::kYardBar) + "packed-in: [kraft box]\n");
  CHECK_THAT(yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "30", "--plan"}),
             Contains("kraft box") && Contains("30 pieces") && Contains("holds enough"));
  CHECK_THAT(
      yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "25", "--plan", "--as", "second"}),
      Contains("kraft box: 50 pieces on the shelf, 55 pieces planned for (yard bar and"));
  CHECK_THAT(yard.read("yard-shelf-journal.csv"),
             Contains("reserved,yard bar,,kraft box,,,,30,,,"));
  const auto week = yard.json("2027-02-13", {"shelf"});
  CHECK(week["planned"][0]["pieces"]["kraft box"] == 30);
  // Made: what was kept for it is free for the other.
  yard.on("2027-02-14", {"make", "@yard-bar.yaml", "--bars", "10"});
  CHECK(yard.json("2027-02-14", {"shelf"})["planned"].size() == 1);
  yard.on("2027-02-14", {"shelf", "reserve", "paper band", "12", "--for", "fair"});
  CHECK_THAT(yard.on("2027-02-14", {"shelf"}), Contains("fair: paper band 12 pieces"));
}

TEST_CASE("shelf and release say when the workshop's file named the shelf", "[books][workshop]") {
  const std::string folder = tests::fresh_folder("packed-words");
  tests::spill(folder + "/stock.yaml", tests::kYardShelf);
  tests::spill(folder + "/bar.yaml", tests::kYardBar);
  tests::spill(folder + "/workshop.yaml", "workshop: Weighbridge Yard\nshelf: stock.yaml\n");
  const auto out = [&](const std::string& command) {
    const auto ran = tests::run("barwright " + command, folder);
    INFO(ran.err);
    CHECK(ran.exit_code == 0);
    return ran.out;
  };
  CHECK_THAT(out("shelf --date 2027-02-13"), Contains("From workshop.yaml: shelf."));
  CHECK_THAT(out("shelf list --date 2027-02-13"), Contains("From workshop.yaml: shelf."));
  CHECK_THAT(out("shelf --json --date 2027-02-13"), Contains("\"workshop\": \"From"));
  CHECK_THAT(out("shelf stock.yaml --date 2027-02-13"), !Contains("workshop.yaml"));
  tests::spill(folder + "/bar.yaml",
               "name: bar\nblend: {olive: 100 %}\nsuperfat: 5 %\noils: 1000 g\n");
  out("make bar.yaml --bars 10 --date 2027-02-13");
  CHECK_THAT(out("release bar --date 2027-02-13"), Contains("From workshop.yaml: shelf."));
}
