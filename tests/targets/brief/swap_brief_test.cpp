#include "targets/brief/swap_brief.hpp"

#include <catch2/catch.hpp>

#include "tests/targets/brief/brief_testing.hpp"

using namespace barwright;
using namespace barwright::targets;

TEST_CASE("a swap brief arrives field by field", "[swap]") {
  const SwapBrief brief =
      read_swap_brief(testing::fixture("mango-out.yaml"), testing::brief_library());
  CHECK(brief.name == "evening bar with less mango butter");
  CHECK(brief.recipe.blend.oils.size() == 5);
  CHECK(*brief.recipe.lye.superfat == Approx(0.06));
  CHECK(*brief.lye.concentration == Approx(0.32));
  CHECK(*brief.make->oils_grams == 2200);
  REQUIRE(brief.replace.size() == 1);
  CHECK(brief.replace[0].oil.name == "mango butter");
  CHECK(*brief.replace[0].most == Approx(0.03));
  CHECK(brief.using_oils.shelf);
  CHECK(brief.using_oils.named.size() == 2);
  REQUIRE(brief.rules.barred.size() == 1);
  CHECK(brief.rules.barred[0].tag == "animal");
  CHECK(*brief.keep.feel == Keep::Feel::not_told_apart);
  REQUIRE(brief.keep.matters_most.size() == 3);
  CHECK_FALSE(brief.keep.matters_most[0].property);
  CHECK(*brief.keep.matters_most[1].property == Property::lather);
  CHECK(*brief.keep.matters_most[2].property == Property::conditioning);
  CHECK(*brief.keep.melts_below_celsius == 44);
  CHECK(*brief.keep.cut_by_hours == 30);
  REQUIRE(brief.wishes.size() == 2);
  CHECK(brief.wishes[0].subject.property == Property::working_time);
  CHECK(brief.wishes[0].written.text == "thickens: no sooner than now");
  CHECK(brief.wishes[0].compared);
  CHECK(brief.wishes[0].low->value == 0);
  CHECK(brief.wishes[1].subject.kind == Subject::Kind::unsaponifiable);
  CHECK(brief.wishes[1].low->value == 0);
  CHECK(brief.save->amount == 0.08);
  CHECK(brief.save->per == Per::bar);
  REQUIRE(brief.claims.size() == 1);
  CHECK_FALSE(brief.claims[0].all);
  // Peanuts are no tree nuts, but a bar of them is no "no-nut" bar.
  CHECK(brief.claims[0].tags == std::vector<std::string>{"tree nut", "peanut"});
  CHECK(*brief.price_of_feel_steps == 5);
  CHECK(brief.test_first->oils_grams == 400);
  CHECK(brief.test_first->beside == "the old recipe");
}

TEST_CASE("claims", "[swap]") {
  const auto claim = [](const std::string& words) {
    return read_swap_brief_text(
               "brief: b\nrecipe: {blend: {olive: 100 %}}\nreplace: {olive: none}\n"
               "using: library\nmay-not-change: [" +
                   words + "]\n",
               "b.yaml", "", testing::brief_library())
        .claims.at(0);
  };
  CHECK(claim("vegan claim").all);
  CHECK(claim("vegan").tags == std::vector<std::string>{"vegan"});
  CHECK_FALSE(claim("palm-free claim").all);
  CHECK(claim("no palm").tags == std::vector<std::string>{"palm"});
}
