#include <catch2/catch.hpp>

#include "core/lye/lye_cautions.hpp"

using namespace barwright::core;

TEST_CASE("how hot lye makes itself is said with what it can do", "[lye cautions]") {
  CHECK(heat_words(84.5) == "heats itself to about 84 C");
  CHECK(heat_words(89.9) == "heats itself to about 90 C");
  CHECK(heat_words(90) == "heats itself to about 90 C, near boiling: it can boil up");
  CHECK(heat_words(90.6) == "heats itself to about 91 C, near boiling: it can boil up");
  CHECK(heat_words(99.4) == "heats itself to about 99 C, near boiling: it can boil up");
  CHECK(heat_words(100) == "heats itself to boiling: it can boil up and spit");
  CHECK(heat_words(100.5) == "heats itself to boiling: it can boil up and spit");
}
