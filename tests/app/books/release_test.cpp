#include <catch2/catch.hpp>

#include "solver/app/print/ics.hpp"
#include "tests/app/books/shelf_yard.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using Catch::Matchers::Equals;
using tests::complaint;
using tests::YardFolder;

TEST_CASE("calendar lines are folded at 75 octets and never within a letter (RFC 5545, 3.1)") {
  CHECK(app::ics_line("SUMMARY:short") == "SUMMARY:short\r\n");
  CHECK(app::ics_line(std::string(75, 'x')) == std::string(75, 'x') + "\r\n");
  CHECK(app::ics_line(std::string(76, 'x')) == std::string(75, 'x') + "\r\n x\r\n");
  // 74 octets and then a letter of two: it goes whole to the next line.
  const std::string u = "\xC3\xBC";
  CHECK(app::ics_line(std::string(74, 'x') + u + "y") ==
        std::string(74, 'x') + "\r\n " + u + "y\r\n");
  std::string text;
  for (int i = 0; i < 200; ++i) text += i % 3 == 0 ? "\xE2\x82\xAC" : "ab";
  const std::string folded = app::ics_line(text);
  std::size_t start = 0;
  std::string joined;
  while (start < folded.size()) {
    const std::size_t end = folded.find("\r\n", start);
    const std::string line = folded.substr(start, end - start);
    CHECK(line.size() <= 75);
    joined += start == 0 ? line : line.substr(1);
    start = end + 2;
  }
  CHECK(joined == text);
}

TEST_CASE("calendar text is escaped (RFC 5545, 3.3.11)") {
  CHECK(app::ics_text("a;b,c\\d\ne\r") == "a\\;b\\,c\\\\d\\ne");
  CHECK(app::ics_text("colon: and \"quote\"") == "colon: and \"quote\"");
}

TEST_CASE("release: on hold, curing, fit to sell; the calendar is the same each time") {
  const YardFolder yard("release");
  yard.on("2027-02-13", {"make", "@yard-bar.yaml", "--bars", "20"});
  CHECK(yard.json("2027-02-14", {"release", "yard bar"})["status"] == "on hold");
  CHECK_THAT(yard.on("2027-02-14", {"release", "yard bar"}),
             Contains("No test of the bar is recorded.") && Contains("A cured bar weighs about"));
  CHECK_THAT(complaint([&] {
               yard.on("2027-02-14", {"release", "yard bar", "--test", "topping=pass"});
             }),
             Contains("has no part 'topping'"));
  CHECK_THAT(complaint([&] {
               yard.on("2027-02-14", {"release", "yard bar", "--test", "bar=ok"});
             }),
             Contains("'ok' is no outcome"));
  CHECK_THAT(complaint([&] {
               yard.on("2027-02-12", {"release", "yard bar", "--test", "bar=pass"});
             }),
             Contains("before yard-bar-2027-02-13 was made"));
  const auto tested = yard.json("2027-02-16", {"release", "yard bar", "--test",
                                               "bar=pass, no zap, pH 9.6", "--ics", "@ready.ics"});
  CHECK(tested["status"] == "curing");
  CHECK(tested["tests"][0]["how"] == "no zap, pH 9.6");
  const std::string calendar = yard.read("ready.ics");
  // RFC 5545: 3.6 and 3.6.1 (what must be there), 3.8.4.7 (UID), 3.8.7.2 (DTSTAMP in UTC).
  CHECK_THAT(
      calendar,
      Contains("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:") &&
          Contains("DTSTAMP:20270213T000000Z\r\nDTSTART;VALUE=DATE:20270327\r\nDTEND;VALUE=DATE:"
                   "20270328\r\n") &&
          Contains("SUMMARY:yard-bar-2027-02-13 cured: 20 bars\r\n") &&
          Contains("-ready@barwright.invalid\r\n"));
  CHECK(calendar.find('\n') != std::string::npos);
  for (std::size_t i = 0; i < calendar.size(); ++i) {
    if (calendar[i] == '\n') CHECK(calendar[i - 1] == '\r');
  }
  yard.on("2027-02-17", {"release", "yard bar", "--ics", "@ready.ics"});
  CHECK(yard.read("ready.ics") == calendar);
  yard.write("mine.ics", "BEGIN:VCALENDAR\r\nPRODID:-//other//EN\r\n");
  CHECK_THAT(complaint([&] {
               yard.on("2027-02-17", {"release", "yard bar", "--ics", "@mine.ics"});
             }),
             Contains("is left alone"));
  CHECK(yard.json("2027-03-27", {"release", "yard bar"})["status"] == "fit to sell");
  CHECK_THAT(yard.on("2027-03-28", {"shelf", "bars", "yard bar", "--in", "19"}),
             Equals("yard-bar-2027-02-13: 19 bars counted in; 19 left.\n"));
  CHECK_THAT(yard.on("2027-03-28", {"shelf", "bars", "yard bar", "--sold", "4", "--at", "6.50"}),
             Equals("yard-bar-2027-02-13: 4 bars sold; 15 left.\n"));
  CHECK_THAT(yard.on("2027-03-29", {"shelf"}),
             Contains("READY TO SELL   15 bars") && Contains("counted in"));
}

TEST_CASE("what was weighed outside its recipe stays on hold with its reason") {
  const YardFolder yard("release-weights");
  const auto ready = [&](const std::string& name, std::vector<std::string> more) {
    std::vector<std::string> words = {"make", "@yard-bar.yaml", "--bars", "20", "--as", name};
    words.insert(words.end(), more.begin(), more.end());
    yard.on("2027-02-13", words);
    return yard.json("2027-06-01", {"release", name, "--test", "bar=pass, no zap"});
  };
  CHECK(ready("plain", {})["status"] == "fit to sell");
  // A fifth of the lye: safe on skin, but no soap.
  const auto fat = ready("fat", {"--weighed", "sodium hydroxide=20 g"});
  CHECK(fat["status"] == "on hold");
  CHECK_THAT(fat["reasons"][0].get<std::string>(), Contains("the superfat of the bar is"));
  const auto dry = ready("dry", {"--weighed", "water=0 g"});
  CHECK(dry["status"] == "on hold");
  CHECK_THAT(dry["reasons"].dump(), Contains("the bar comes to") && Contains("has no water"));
}

TEST_CASE("a hold for weights is lifted by a reason in words, one for free lye never") {
  const YardFolder yard("release-let-go");
  const auto made = [&](const std::string& name, const std::string& weighed) {
    yard.on("2027-02-13",
            {"make", "@yard-bar.yaml", "--bars", "20", "--as", name, "--weighed", weighed});
    yard.on("2027-02-16", {"release", name, "--test", "bar=pass, no zap"});
  };
  const auto says = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"release"});
    return yard.on("2027-06-01", words);
  };
  made("fat", "sodium hydroxide=20 g");
  CHECK_THAT(says({"fat"}), Contains("ON HOLD") && Contains("--let-go"));
  CHECK_THAT(complaint([&] {
               says({"fat", "--let-go", "fine"});
             }),
             Contains("not say why fat may"));
  CHECK_THAT(complaint([&] {
               yard.on("2027-06-01", {"shelf", "bars", "fat", "--sold", "1"});
             }),
             Contains("is on hold"));
  const std::string let_go =
      says({"fat", "--let-go", "weighed again, 20 g was a slip of the keys"});
  CHECK_THAT(let_go,
             Contains("FIT TO SELL") && Contains("Was held: By the weights typed in") &&
                 Contains("Let go by you on 2027-06-01: weighed again, 20 g was a slip of the"));
  const auto told = yard.json("2027-06-02", {"release", "fat"});
  CHECK(told["status"] == "fit to sell");
  CHECK(told["let_go"]["date"] == "2027-06-01");
  CHECK_THAT(yard.on("2027-06-01", {"shelf", "bars", "fat", "--sold", "1"}), Contains("1 bar"));
  made("hot", "sodium hydroxide=400 g");
  CHECK_THAT(complaint([&] {
               says({"hot", "--let-go", "it did not zap at all"});
             }),
             Contains("no word clears that"));
  CHECK_THAT(says({"hot"}), Contains("ON HOLD"));
  made("plain", "water=500 g");
  CHECK_THAT(complaint([&] {
               says({"plain", "--let-go", "no reason at all"});
             }),
             Contains("nothing of plain"));
}
