#include <catch2/catch.hpp>

#include "tests/app/books/shelf_yard.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using Catch::Matchers::Equals;
using tests::complaint;
using tests::YardFolder;

TEST_CASE("shelf: a lot in, a level set, the week shown") {
  const YardFolder yard("shelf");
  CHECK_THAT(yard.on("2027-02-01",
                     {"shelf", "receive", "shea", "900 g", "--paid", "13.20 for 1 kg", "--supplier",
                      "Millbank", "--lot", "S-4", "--best-before", "2027-04-20", "--certificate",
                      "ref: SB-0417, saponification-value: 181 mg KOH/g"}),
             Contains("Received: 900 g of shea butter, lot S-4."));
  CHECK_THAT(yard.on("2027-02-01", {"shelf", "reorder", "coconut", "3 kg"}),
             Equals("coconut: reorder when less than 3 kg is free.\n"));
  const auto week = yard.json("2027-02-20", {"shelf"});
  CHECK(week["schema"] == 1);
  CHECK(week["command"] == "shelf");
  CHECK(week["use_up"][0]["lot"] == "S-4");
  CHECK(week["use_up"][0]["days"] == 59);
  CHECK(week["use_up"][1]["lot"] == "C-1");
  CHECK(week["reorder"][0]["oil"] == "coconut");
  CHECK_THAT(yard.on("2027-02-20", {"shelf"}),
             Equals("Weighbridge Yard                                                          Sat "
                    "2027-02-20\n"
                    "\n"
                    "USE UP   best before within 90 days\n"
                    "  shea butter  S-4  900 g  by  2027-04-20  in 59 days\n"
                    "  castor       C-1  300 g  by  2027-05-01  in 70 days\n"
                    "\n"
                    "REORDER\n"
                    "  coconut  2.6 kg  free, level  3 kg\n"
                    "\n"
                    "READY TO SELL   0 bars\n"
                    "\n"
                    "NEXT\n"
                    "  Plan a bar that uses the shea butter first ('then: use up shea butter' in a "
                    "brief).\n"));
  CHECK_THAT(yard.on("2027-06-01", {"shelf"}), Contains("PAST  2027-05-01  31 days ago"));
}

TEST_CASE("shelf: what cannot be is told, and nothing is written") {
  const YardFolder yard("shelf-no");
  const auto says = [&](const std::string& day, std::vector<std::string> words) {
    return complaint([&] { yard.on(day, words); });
  };
  CHECK_THAT(says("1890-02-13", {"shelf", "reorder", "olive", "1 kg"}),
             Contains("--date: 1890-02-13 lies outside the years 2000 to 2199"));
  CHECK_THAT(says("13.2.2027", {"shelf"}), Contains("is not a day"));
  CHECK_THAT(
      says("2027-02-13", {"shelf", "receive", "olive", "1 kg", "--best-before", "1890-01-01"}),
      Contains("--best-before: 1890-01-01 lies outside"));
  CHECK_THAT(says("2027-02-13", {"shelf", "receive", "oliv", "1 kg"}), Contains("oliv"));
  CHECK_THAT(says("2027-02-13", {"shelf", "receive", "olive", "1 kg", "--lot", "MB-2291"}),
             Contains("yard-shelf.yaml:4:") && Contains("is on the shelf already"));
  CHECK_THAT(says("2027-02-13", {"shelf", "bars", "x", "--sold", "1"}), Contains("no batch 'x'"));
  CHECK_THAT(says("2027-02-13", {"shelf", "bars", "x"}), Contains("Give one of --in"));
  CHECK_THAT(says("2027-02-13", {"shelf", "trace", "M-1"}), Contains("no lot and no batch 'M-1'"));
  CHECK(yard.read("yard-shelf.yaml") == tests::kYardShelf);
  CHECK(yard.read("yard-shelf-journal.csv").empty());
}

TEST_CASE("shelf: plans on one shelf warn each other") {
  const YardFolder yard("shelf-plans");
  CHECK_THAT(yard.on("2027-02-01", {"make", "@yard-bar.yaml", "--plan", "--as", "spring"}),
             Contains("The shelf holds enough"));
  CHECK_THAT(yard.on("2027-02-01", {"make", "@yard-bar.yaml", "--plan", "--as", "fair"}),
             Contains("The shelf holds enough"));
  CHECK_THAT(yard.on("2027-02-02", {"shelf", "reserve", "olive", "2.5 kg", "--for", "gift"}),
             Contains("! olive: 5 kg on the shelf, 5.3 kg planned for (spring, fair and this one): "
                      "300 g short."));
  const auto week = yard.json("2027-02-03", {"shelf"});
  CHECK(week["planned"].size() == 3);
  CHECK(week["shortages"][0]["oil"] == "olive");
  CHECK_THAT(yard.on("2027-02-03", {"shelf", "reserve", "--for", "gift", "--drop"}),
             Contains("Nothing is reserved for gift any more."));
  CHECK(yard.json("2027-02-03", {"shelf"})["shortages"].empty());
}

TEST_CASE("shelf: a whole delivery note comes in at once, or not at all") {
  const YardFolder yard("shelf-list");
  yard.write("note.csv",
             "oil,pack,price,count,lot,best-before\ncastor,1 kg,8.00,2,C-3,2028-05-01\n"
             "shea butter,2 kg,24.00,1,S-9,\n");
  // Shipping by weight, 3.00 for each: 2 x 8.00 + 3.00 and 24.00 + 3.00.
  CHECK_THAT(yard.on("2027-02-01", {"shelf", "receive", "--from", "@note.csv", "--shipping", "6",
                                    "--supplier", "Millbank"}),
             Contains("castor         2 kg  C-3  2028-05-01   19.00 EUR") &&
                 Contains("shea butter    2 kg  S-9  -            27.00 EUR") &&
                 Contains("in all                                 46.00 EUR"));
  CHECK_THAT(yard.read("yard-shelf.yaml"),
             Contains("{oil: castor, have: 2 kg, paid: 19.00 for 2 kg, supplier: Millbank, lot: "
                      "C-3, best-before: 2028-05-01}") &&
                 Contains("{oil: shea butter, have: 2 kg, paid: 27.00 for 2 kg"));
  CHECK_THAT(yard.read("yard-shelf-journal.csv"),
             Contains("2027-02-01,received,,,castor,C-3,2000,,,19.00,2028-05-01,Millbank"));
  const std::string before = yard.read("yard-shelf.yaml");
  const auto says = [&](std::vector<std::string> words) {
    return complaint([&] { yard.on("2027-02-02", words); });
  };
  CHECK_THAT(says({"shelf", "receive", "--from", "@note.csv"}),
             Contains("note.csv:2:1: lot C-3 of castor stands already on line"));
  yard.write("more.csv", "oil,pack,lot\nolive,5 kg,MB-3000\nmoonshine,1 kg,X\n");
  CHECK_THAT(says({"shelf", "receive", "--from", "@more.csv"}), Contains("more.csv:3:1"));
  CHECK_THAT(says({"shelf", "receive", "olive", "--from", "@more.csv"}), Contains("name none"));
  CHECK_THAT(says({"shelf", "receive", "olive"}), Contains("--from delivery.csv"));
  CHECK(yard.read("yard-shelf.yaml") == before);
  CHECK_THAT(
      yard.on("2027-02-02", {"shelf", "receive", "--from", "@more.csv", "--skip-wrong-rows"}),
      Contains("Received: 1 lot of") && Contains("MB-3000") && Contains("more.csv:3: 'moonshine'"));
}
