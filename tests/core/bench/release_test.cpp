#include "core/bench/release.hpp"

#include <catch2/catch.hpp>

#include "core/units/error.hpp"

using namespace barwright::core;
using Catch::Matchers::Contains;

namespace {

Day day(const char* text) { return *find_day(text); }

ReleaseRequest two_parts() {
  ReleaseRequest out;
  out.parts = {"body", "topping"};
  out.made = day("2027-02-13");
  out.ready = day("2027-03-27");
  return out;
}

}  // namespace

TEST_CASE("a batch is on hold until every part has passed, and then until it is cured") {
  auto request = two_parts();
  CHECK(release(request, day("2027-06-01")).hold == Hold::on_hold);
  CHECK(release(request, day("2027-06-01")).untested ==
        std::vector<std::string>{"body", "topping"});
  request.tests.push_back({"body", day("2027-02-16"), true, "no zap"});
  CHECK(release(request, day("2027-06-01")).untested == std::vector<std::string>{"topping"});
  request.tests.push_back({"topping", day("2027-02-16"), false, "zap at the tip"});
  const auto failed = release(request, day("2027-06-01"));
  CHECK(failed.hold == Hold::on_hold);
  CHECK_THAT(failed.reasons.at(0), Contains("failed its test on 2027-02-16: zap at the tip."));
  request.tests.push_back({"topping", day("2027-03-01"), true, "no zap"});
  CHECK(release(request, day("2027-02-20")).hold == Hold::on_hold);  // not passed yet on that day
  CHECK(release(request, day("2027-03-26")).hold == Hold::curing);
  CHECK(release(request, day("2027-03-27")).hold == Hold::fit_to_sell);
  // A later failure takes it back.
  request.tests.push_back({"body", day("2027-04-01"), false, ""});
  CHECK(release(request, day("2027-04-02")).hold == Hold::on_hold);
}

TEST_CASE("no test clears a batch whose weights leave free lye") {
  auto request = two_parts();
  request.tests = {{"body", day("2027-02-16"), true, ""}, {"topping", day("2027-02-16"), true, ""}};
  request.lye_heavy = true;
  const auto state = release(request, day("2027-06-01"));
  CHECK(state.hold == Hold::on_hold);
  CHECK_THAT(state.reasons.at(0), Contains("free lye"));
  request.lye_heavy = false;
  request.parts.clear();
  CHECK(release(request, day("2027-06-01")).hold == Hold::on_hold);  // nothing that could be tested
}

TEST_CASE("the cure ends on a day, begun days count") {
  CHECK(ready_day(day("2027-02-13"), 6 * 7 * 24) == day("2027-03-27"));
  CHECK(ready_day(day("2027-02-13"), 24.5) == day("2027-02-15"));
  CHECK(ready_day(day("2027-02-13"), 0) == day("2027-02-13"));
  CHECK_THROWS_AS(ready_day(day("2027-02-13"), -1), Refusal);
}

TEST_CASE("the label's weight is never above the estimate") {
  const std::vector<PartWeight> parts = {{"body", 4100, 3600}, {"topping", 300, 262}};
  CHECK(cured_bar_grams(parts, 36) == Approx(3862.0 / 36));
  CHECK(label_grams(3862.0 / 36) == 107);
  CHECK(label_grams(100) == 100);
  CHECK(label_grams(9.87) == Approx(9.8));
  CHECK_THROWS_AS(cured_bar_grams(parts, 0), Refusal);
}

TEST_CASE("weights outside the recipe hold a batch, tested and cured or not") {
  auto request = two_parts();
  request.tests = {{"body", day("2027-02-16"), true, ""}, {"topping", day("2027-02-16"), true, ""}};
  request.held = {"By the weights typed in the body has no olive."};
  const auto state = release(request, day("2027-06-01"));
  CHECK(state.hold == Hold::on_hold);
  CHECK(state.reasons == request.held);
}

TEST_CASE("what is held for its weights is let go in words, from their day on; free lye never") {
  auto request = two_parts();
  request.tests = {{"body", day("2027-02-16"), true, ""}, {"topping", day("2027-02-16"), true, ""}};
  request.held = {"By the weights typed in the body has no olive."};
  request.let_go = LetGo{day("2027-05-01"), "weighed again: it was there"};
  CHECK(release(request, day("2027-04-30")).hold == Hold::on_hold);
  CHECK(release(request, day("2027-05-01")).hold == Hold::fit_to_sell);
  request.lye_heavy = true;
  CHECK(release(request, day("2027-06-01")).hold == Hold::on_hold);
}
