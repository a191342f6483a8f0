#include <catch2/catch.hpp>

#include "targets/model/words.hpp"
#include "targets/model/yardstick.hpp"

using namespace barwright;
using namespace barwright::targets;

TEST_CASE("the plain bars every brief may name are there", "[yardstick]") {
  for (const char* name : {"all-olive", "all-coconut", "all-tallow", "all-palm", "plain bar"}) {
    INFO(name);
    const ShippedYardstick* yardstick = find_yardstick(name);
    REQUIRE(yardstick != nullptr);
    CHECK_FALSE(yardstick->description.empty());
  }
  CHECK(find_yardstick("all-gold") == nullptr);
  CHECK(find_yardstick("plain bar")->settings.superfat == 0.05);
}

TEST_CASE("a yardstick file must add up", "[yardstick]") {
  const auto wrong = [](const std::string& text) {
    CHECK_THROWS_AS(read_yardsticks(text, "mine.yaml"), core::InputError);
  };
  wrong("yardsticks: {a: {blend: {olive: 90 %}, superfat: 5 %, is: x}}");
  wrong("yardsticks: {a: {blend: {olive: 100 %, palm: 0 %}, superfat: 5 %, is: x}}");
  wrong("yardsticks: {a: {blend: {olive: 100 %}, superfat: 80 %, is: x}}");
  wrong("yardsticks: {a: {blend: {olive: 100 %}, is: x}}");
  wrong("yardsticks: {a: {blend: {olive: 100 %}, superfat: 5 %, is: x, hardness: 50}}");
  CHECK(
      read_yardsticks("yardsticks: {a: {blend: {olive: 100 %}, superfat: 5 %, is: x}}", "mine.yaml")
          .size() == 1);
}

TEST_CASE("size words have stated sizes", "[yardstick]") {
  REQUIRE(find_size("clearly") != nullptr);
  CHECK(find_size("clearly")->steps == 1);
  CHECK(find_size("slightly")->steps < 1);
  CHECK(find_size("much")->steps > 1);
  CHECK(find_size("hugely") == nullptr);
  for (Property p : all_properties()) {
    CHECK(noticeable(p) > 0);
    CHECK_FALSE(words(p).more.empty());
    CHECK_FALSE(words(p).less.empty());
    CHECK_FALSE(words(p).means.empty());
  }
}
