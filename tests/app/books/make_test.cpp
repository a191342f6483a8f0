#include <catch2/catch.hpp>

#include "tests/app/books/shelf_yard.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using Catch::Matchers::Equals;
using tests::complaint;
using tests::YardFolder;

TEST_CASE("make: from the sheet to the journal, best before first") {
  const YardFolder yard("make");
  const auto made = yard.json("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20"});
  CHECK(made["status"] == "recorded");
  CHECK(made["batch"] == "yard-bar-2027-02-13");
  CHECK(made["ready"] == "2027-03-27");
  REQUIRE(made["drawn"].size() == 3);
  CHECK(made["drawn"][0]["lot"] == "MB-2291");
  CHECK(made["drawn"][0]["grams"] == 1400);
  CHECK(made["drawn"][2]["lot"] == "C-1");  // 200 g of the castor that is to be used up
  CHECK(made["lye_heavy"].empty());
  CHECK_THAT(yard.read("yard-shelf.yaml"), Contains("have: 3.6 kg, paid: 31.00") &&
                                               Contains("have: 2.2 kg") &&
                                               Contains("have: 100 g") && Contains("# two pails"));
  // The weights of the sheet and of the journal are the same.
  CHECK_THAT(yard.read("yard-shelf-journal.csv"),
             Contains("2027-02-13,drawn,yard-bar-2027-02-13,bar,castor,C-1,200,,,,,\n") &&
                 Contains("2027-02-13,used,yard-bar-2027-02-13,bar,sodium hydroxide,,"));

  SECTION("twice on one day needs a name of its own") {
    CHECK_THAT(
        complaint([&] {
          yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20"});
        }),
        Contains("yard-shelf-journal.csv:2: batch 'yard-bar-2027-02-13' is recorded already"));
    CHECK_NOTHROW(
        yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20", "--as", "second"}));
    CHECK_THAT(yard.on("2027-02-14", {"shelf", "trace", "C-1"}),
               Contains("yard-bar-2027-02-13") && Contains("second"));
    CHECK_THAT(yard.on("2027-02-14", {"shelf", "trace", "second"}),
               Contains("C-1") && Contains("C-2") && Contains("MB-2291"));
  }
  SECTION("a shelf that runs out is told, and stays as it is") {
    const std::string before = yard.read("yard-shelf.yaml");
    yard.write("big.yaml", "name: big\nblend: {olive: 100 %}\nsuperfat: 5 %\noils: 4000 g\n");
    CHECK_THAT(
        complaint([&] {
          yard.on("2027-02-14", {"make", "@big.yaml", "--bars", "40"});
        }),
        Contains("yard-shelf.yaml:4:11: olive would be drawn below zero: 4000 g wanted, 3600 g "
                 "there"));
    CHECK(yard.read("yard-shelf.yaml") == before);
  }
  SECTION("undone by the file or by the name") {
    CHECK_THAT(yard.on("2027-02-14", {"make", "@yard-bar.yaml", "--undo", "--note", "wrong file"}),
               Contains("Undone: yard-bar-2027-02-13."));
    CHECK_THAT(yard.read("yard-shelf.yaml"), Contains("have: 5 kg") && Contains("have: 300 g"));
    CHECK_THAT(complaint([&] {
                 yard.on("2027-02-14", {"make", "yard bar", "--undo"});
               }),
               Contains("no batch 'yard bar'"));
  }
}

TEST_CASE("make: weights as typed in, lots as chosen, notes and defects") {
  const YardFolder yard("make-typed");
  const std::string page = yard.on(
      "2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20", "--weighed", "olive oil=1412.5 g",
                     "--lot", "castor=C-2", "--lot", "sodium hydroxide=N-9", "--note", "cold room",
                     "--defect", "cracked: 2 bars", "--defect", "soda ash"});
  CHECK_THAT(page, Contains("lot MB-2291  1412.5 g  (sheet: 1400 g)") && Contains("lot C-2"));
  CHECK_THAT(page, Contains("By the weights typed in, the bar has 5.6 % superfat"));
  const std::string journal = yard.read("yard-shelf-journal.csv");
  CHECK_THAT(journal, Contains(",olive,MB-2291,1412.5,1400,") &&
                          Contains("sodium hydroxide,N-9,") &&
                          Contains("defect,yard-bar-2027-02-13,,,,,,2,,,cracked\n") &&
                          Contains("soda ash") && Contains("cold room"));
  CHECK(yard.json("2027-02-14", {"shelf"})["on_hold"][0]["bars_left"] == 18);
  const auto says = [&](std::vector<std::string> words) {
    std::vector<std::string> all = {"make", "@yard-bar.yaml", "--bars", "20", "--as", "x"};
    all.insert(all.end(), words.begin(), words.end());
    return complaint([&] { yard.on("2027-02-13", all); });
  };
  CHECK_THAT(says({"--weighed", "lard=3 g"}),
             Contains("'lard' is no line") && Contains("bar/olive"));
  CHECK_THAT(says({"--weighed", "olive"}), Contains("no '='"));
  CHECK_THAT(says({"--weighed", "olive=12"}), Contains("--weighed"));
  CHECK_THAT(says({"--lot", "olive=Q"}), Contains("holds no lot 'Q' of olive"));
  CHECK_THAT(says({"--lot", "salt=Q"}), Contains("'salt' is no line"));
  CHECK_THAT(complaint([&] {
               yard.on("2027-02-13", {"make", "@yard-bar.yaml"});
             }),
             Contains("give '--bars'"));
}

TEST_CASE("make: weights that leave free lye keep the batch on hold for good") {
  const YardFolder yard("make-heavy");
  const std::string page = yard.on(
      "2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20", "--weighed", "olive=1200 g"});
  CHECK_THAT(page, Contains("DANGER The bar: by the weights typed in its superfat is -"));
  CHECK_THAT(yard.on("2027-02-20", {"release", "yard bar", "--test", "bar=pass, no zap"}),
             Contains("ON HOLD") && Contains("free lye") && Contains("barwright rescue"));
  CHECK_THAT(complaint([&] {
               yard.on("2027-06-01", {"shelf", "bars", "yard bar", "--sold", "1"});
             }),
             Contains("is on hold") && Contains("Keep it apart"));
}
