#include "oils/books/trace.hpp"

#include <catch2/catch.hpp>

using namespace barwright;

namespace {

// Invented.
const std::string kJournal =
    "date,event,batch,part,what,lot,grams,asked,bars,money,until,note\n"
    "2027-01-10,received,,,olive,M-77,5000,,,30,2028-02-01,Millbank\n"
    "2027-01-10,received,,,coconut,M-77,2500,,,11,,Millbank\n"
    "2027-02-13,made,a,,,,4100,,36,,2027-03-13,\n"
    "2027-02-13,poured,a,body,,,3800,3400,,,,\n"
    "2027-02-13,poured,a,topping,,,300,260,,,,\n"
    "2027-02-13,drawn,a,body,olive,M-77,1400,,,,,\n"
    "2027-02-13,drawn,a,topping,olive,M-77,60,,,,,\n"
    "2027-02-13,drawn,a,body,coconut,K-3,600,,,,,\n"
    "2027-02-13,used,a,body,sodium hydroxide,N-2,280,,,,,\n"
    "2027-02-20,made,b,,,,1000,,9,,2027-03-20,\n"
    "2027-02-20,poured,b,body,,,1000,900,,,,\n"
    "2027-02-20,drawn,b,body,olive,M-77,700,,,,,\n"
    "2027-02-21,made,c,,,,1000,,9,,2027-03-20,\n"
    "2027-02-21,poured,c,body,,,1000,900,,,,\n"
    "2027-02-21,drawn,c,body,olive,M-77,700,,,,,\n"
    "2027-02-22,undone,c,,,,,,,,,\n"
    "2027-03-01,tested,b,body,pass,,,,,,,\n"
    "2027-03-21,sold,b,,,,,,4,26,,\n";

oils::Ledger ledger() { return oils::ledger_of(oils::read_journal(kJournal, "j.csv")); }

}  // namespace

TEST_CASE("a lot is traced forward to its batches and the bars that are out") {
  const auto all = ledger();
  const auto traces = oils::trace_lot(all, "M-77");
  REQUIRE(traces.size() == 2);  // two oils of one supplier under one number
  CHECK(traces[0].what == "coconut");
  CHECK(traces[0].batches.empty());
  const auto& olive = traces[1];
  CHECK(olive.receipt->supplier == "Millbank");
  REQUIRE(olive.batches.size() == 2);  // the undone one is not among them
  CHECK(olive.batches[0].batch->id == "a");
  CHECK(olive.batches[0].grams == 1460);
  CHECK(olive.batches[0].parts == std::vector<std::string>{"body", "topping"});
  CHECK(olive.grams_used == 2160);
  CHECK(olive.bars_sold == 4);
  CHECK(olive.bars_left == 36 + 5);
  CHECK(oils::trace_lot(all, "N-2").size() == 1);  // lye has lots too
  CHECK(oils::trace_lot(all, "none").empty());
}

TEST_CASE("a batch is traced back to its lots") {
  const auto all = ledger();
  const auto lots = oils::trace_batch(all, *all.find("a"));
  REQUIRE(lots.size() == 3);
  CHECK(lots[0].what == "olive");
  CHECK(lots[0].grams == 1460);
  CHECK(lots[0].supplier == "Millbank");
  CHECK(lots[1].lot == "K-3");
  CHECK(lots[1].supplier.empty());
  CHECK(lots[2].what == "sodium hydroxide");
}

TEST_CASE("there and back again: every batch of a lot names the lot") {
  const auto all = ledger();
  for (const auto& lot : oils::known_lots(all)) {
    for (const auto& trace : oils::trace_lot(all, lot)) {
      for (const auto& traced : trace.batches) {
        double grams = 0;
        for (const auto& back : oils::trace_batch(all, *traced.batch)) {
          if (back.lot == lot && back.what == trace.what) grams += back.grams;
        }
        CHECK(grams == traced.grams);
      }
    }
  }
}
