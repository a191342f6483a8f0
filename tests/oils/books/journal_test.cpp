#include "oils/books/journal.hpp"

#include <catch2/catch.hpp>

#include "oils/books/ledger.hpp"
#include "oils/text/journal_csv.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using Catch::Matchers::Equals;

namespace {

const std::string kHead = "date,event,batch,part,what,lot,grams,asked,bars,money,until,note\n";

oils::Journal journal(const std::string& lines) {
  return oils::read_journal(kHead + lines, "yard-journal.csv");
}

oils::Ledger ledger(const std::string& lines) { return oils::ledger_of(journal(lines)); }

// Invented.
const std::string kMade =
    "2027-02-13,made,slipway,,,,4100,,36,,2027-03-27,slipway.yaml\n"
    "2027-02-13,poured,slipway,body,,,4100,3600,,,,\n";

}  // namespace

TEST_CASE("what is written to a journal reads back the same") {
  oils::Entry entry;
  entry.date = *core::find_day("2027-02-13");
  entry.event = oils::Event::received;
  entry.what = "olive";
  entry.lot = "M-77, \"late\"";
  entry.grams = 5000.126;
  entry.money = 3450;
  entry.until = core::find_day("2028-02-01");
  entry.note = "Millbank\nand sons";
  const std::string text = oils::appended(oils::read_journal("", "j.csv"), std::vector{entry});
  // RFC 4180, section 2, rules 6 and 7: cells with separators or quotes stand in quotes, quotes are
  // doubled.
  CHECK_THAT(text,
             Equals("date,event,batch,part,what,lot,grams,asked,bars,money,until,note,format-1\n"
                    "2027-02-13,received,,,olive,\"M-77, \"\"late\"\"\",5000.13,,,34.50,"
                    "2028-02-01,Millbank and sons\n"));
  const auto back = oils::read_journal(text, "j.csv");
  REQUIRE(back.entries.size() == 1);
  const auto& read = back.entries[0];
  CHECK(read.lot == entry.lot);
  CHECK(*read.grams == 5000.13);
  CHECK(*read.money == 3450);
  CHECK(read.until == entry.until);
  CHECK(read.place.line == 2);
}

TEST_CASE("a journal saved by a spreadsheet reads, and goes on in its own manner") {
  const std::string text =
      "\xEF\xBB\xBF"
      "date;event;batch;part;what;lot;grams;asked;bars;money;until;note\r\n"
      "2027-02-01;received;;;olive;M-77;5000,5;;;34,50;;\"Millbank; Sons\"\r\n"
      ";;;;;;;;;;;\r\n";
  const auto read = oils::read_journal(text, "j.csv");
  REQUIRE(read.entries.size() == 1);
  CHECK(*read.entries[0].grams == 5000.5);
  CHECK(*read.entries[0].money == 3450);
  CHECK(read.entries[0].note == "Millbank; Sons");
  oils::Entry more;
  more.date = *core::find_day("2027-02-02");
  more.event = oils::Event::reorder_level;
  more.what = "olive";
  more.grams = 1500.5;
  CHECK_THAT(oils::appended(read, std::vector{more}),
             Equals(text + "2027-02-02;reorder-level;;;olive;;1500,5;;;;;\r\n"));
}

TEST_CASE("columns may stand in any order, and a last line without an end is no trouble") {
  const std::string text =
      "event,date,batch,part,what,lot,grams,asked,bars,money,until,note\n"
      "reorder-level,2027-02-01,,,olive,,900,,,,,";
  const auto read = oils::read_journal(text, "j.csv");
  REQUIRE(read.entries.size() == 1);
  const auto again = oils::read_journal(oils::appended(read, read.entries), "j.csv");
  REQUIRE(again.entries.size() == 2);
  CHECK(again.entries[1].date == read.entries[0].date);
}

TEST_CASE("a hand edit that breaks a journal is pointed at") {
  CHECK_THROWS_WITH(journal("1890-02-01,received,,,olive,,5000,,,,,\n"),
                    Equals("yard-journal.csv:2:1: 1890-02-01 lies outside the years 2000 to 2199\n"
                           "  1890-02-01,received,,,olive,,5000,,,,,\n"
                           "  ^\n"
                           "  Correct the year."));
  CHECK_THROWS_WITH(journal("13.02.2027,received,,,olive,,5000,,,,,\n"),
                    Contains("yard-journal.csv:2:1: '13.02.2027' is not a day"));
  CHECK_THROWS_WITH(journal("2027-02-30,noted,a,,,,,,,,,x\n"), Contains("is not a day"));
  CHECK_THROWS_WITH(journal("2027-02-01,recieved,,,olive,,5000,,,,,\n"),
                    Contains("yard-journal.csv:2:12: 'recieved' is no event") &&
                        Contains("Did you mean 'received'"));
  CHECK_THROWS_WITH(journal("2027-02-01,received,,,olive,,5 kg,,,,,\n"),
                    Contains("yard-journal.csv:2:30: '5 kg' is no number"));
  CHECK_THROWS_WITH(journal("2027-02-01,received,,,olive,,-5,,,,,\n"), Contains("below zero"));
  CHECK_THROWS_WITH(journal("2027-02-01,received,,,olive,,nan,,,,,\n"), Contains("is no number"));
  CHECK_THROWS_WITH(journal("2027-02-01,received,,,olive,,,,,,,\n"),
                    Contains("'received' needs its 'grams'"));
  CHECK_THROWS_WITH(journal(",received,,,olive,,5,,,,,\n"), Contains("has no date"));
  CHECK_THROWS_WITH(journal("2027-02-01,,,,olive,,5,,,,,\n"), Contains("what happened"));
  CHECK_THROWS_WITH(journal("2027-02-01,noted,a,,,,,,,,,\"open\n"),
                    Contains("yard-journal.csv:2:28: this quote never closes"));
  CHECK_THROWS_WITH(journal("2027-02-01,noted,a,,,,,,,,,\"x\"y\n"),
                    Contains("yard-journal.csv:2:31: text stands behind"));
  CHECK_THROWS_WITH(journal("2027-02-01,noted,a,,,,,,,,,x,y\n"), Contains("more cells than"));
  CHECK_THROWS_WITH(journal("2027-02-01,sold,a,,,,,,2.5,,,\n"), Contains("no whole number"));
  CHECK_THROWS_WITH(journal("2027-02-01,tested,a,body,fine,,,,,,,\n"), Contains("pass or fail"));
  CHECK_THROWS_WITH(oils::read_journal("date,event\n", "j.csv"),
                    Contains("j.csv:1:1: the column 'batch' is missing"));
  CHECK_THROWS_WITH(oils::read_journal("date,evnt\n", "j.csv"),
                    Contains("j.csv:1:6: 'evnt' is no column") && Contains("Did you mean 'event'"));
  CHECK_THROWS_WITH(oils::read_journal("date,date\n", "j.csv"), Contains("stands twice"));
}

TEST_CASE("a journal that contradicts itself is pointed at") {
  CHECK_THROWS_WITH(ledger(kMade + kMade),
                    Contains("yard-journal.csv:4:1: batch 'slipway' is recorded twice: first on "
                             "line 2"));
  CHECK_THROWS_WITH(ledger("2027-02-13,tested,slipway,body,pass,,,,,,,\n"),
                    Contains("no line before says was made"));
  CHECK_THROWS_WITH(ledger(kMade + "2027-02-20,tested,slipwya,body,pass,,,,,,,\n"),
                    Contains("Did you mean 'slipway'"));
  CHECK_THROWS_WITH(ledger(kMade + "2027-02-20,tested,slipway,toping,pass,,,,,,,\n"),
                    Contains("has no part 'toping'"));
  CHECK_THROWS_WITH(ledger(kMade + "2027-02-12,noted,slipway,,,,,,,,,x\n"),
                    Contains("before it was made on 2027-02-13"));
  CHECK_THROWS_WITH(ledger(kMade + "2027-04-01,sold,slipway,,,,,,5,,,\n"),
                    Contains("sold while it is on hold"));
  const std::string tested = kMade + "2027-03-01,tested,slipway,body,pass,,,,,,,\n";
  CHECK_THROWS_WITH(ledger(tested + "2027-04-01,sold,slipway,,,,,,37,,,\n"),
                    Contains("only 36 are there"));
  CHECK_THROWS_WITH(ledger(tested + "2027-04-01,sold,slipway,,,,,,3,,,\n" +
                           "2027-04-02,undone,slipway,,,,,,,,,\n"),
                    Contains("bars of it were sold"));
}

TEST_CASE("a batch adds up over its lines") {
  const auto all = ledger(kMade +
                          "2027-02-13,defect,slipway,,,,,,2,,,ash on the ends\n"
                          "2027-03-01,tested,slipway,body,fail,,,,,,,zap\n"
                          "2027-03-20,tested,slipway,body,pass,,,,,,,no zap\n"
                          "2027-04-01,sold,slipway,,,,,,5,32.50,,market\n"
                          "2027-04-02,lost,slipway,,,,,,1,,,gift\n");
  const auto& batch = all.batches.at(0);
  CHECK(batch.bars_left() == 36 - 2 - 5 - 1);
  CHECK(batch.earned == 3250);
  CHECK(core::release(batch.release_request(), *core::find_day("2027-03-10")).hold ==
        core::Hold::on_hold);
  CHECK(core::release(batch.release_request(), *core::find_day("2027-03-21")).hold ==
        core::Hold::curing);
  CHECK(core::release(batch.release_request(), *core::find_day("2027-03-27")).hold ==
        core::Hold::fit_to_sell);
  // Counted in later: what is there then, not what was cut.
  const auto counted = ledger(kMade +
                              "2027-03-20,tested,slipway,body,pass,,,,,,,\n"
                              "2027-04-01,sold,slipway,,,,,,5,,,\n"
                              "2027-04-02,bars-in,slipway,,,,,,30,,,\n"
                              "2027-04-03,sold,slipway,,,,,,4,,,\n");
  CHECK(counted.batches.at(0).bars_left() == 26);
}

TEST_CASE("a batch is found by its id, or by its name when that was made once") {
  const std::string twice =
      "2027-02-13,made,bar-2027-02-13,,,,4100,,36,,2027-03-27,\n"
      "2027-02-20,made,bar-2027-02-20,,,,4100,,36,,2027-04-03,\n"
      "2027-02-20,made,loaf-2027-02-20,,,,4100,,36,,2027-04-03,\n";
  const auto all = ledger(twice);
  CHECK(oils::need_batch(all, "loaf", "j").id == "loaf-2027-02-20");
  CHECK(oils::need_batch(all, "bar-2027-02-13", "j").place.line == 2);
  CHECK_THROWS_WITH(oils::need_batch(all, "bar", "j"), Contains("made more than once"));
  CHECK_THROWS_WITH(oils::need_batch(all, "laof", "j"), Contains("no batch 'laof'"));
}
