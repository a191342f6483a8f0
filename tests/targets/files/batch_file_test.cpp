#include "targets/files/batch_file.hpp"

#include <catch2/catch.hpp>

#include "tests/targets/brief/brief_testing.hpp"

using namespace barwright;
using namespace barwright::targets;

TEST_CASE("a batch of two parts arrives field by field", "[batch]") {
  const BatchFile batch = read_batch(testing::fixture("quay-batch.yaml"), testing::brief_library());
  CHECK(batch.name == "quay");
  CHECK(batch.bench_date->text() == "2027-03-06");
  CHECK(*batch.room_celsius == 19);
  REQUIRE(batch.moulds.size() == 1);
  CHECK(batch.moulds[0].name == "long box");
  CHECK(batch.moulds[0].count == 2);
  CHECK(*batch.moulds[0].fill_to_mm == 50);
  CHECK(batch.cut->slice == 25);
  CHECK(batch.cut->kerf == 1);
  CHECK(batch.cut->end_trim == 4);
  CHECK(batch.lye_pot == BatchFile::LyePot::one);

  REQUIRE(batch.parts.size() == 2);
  const Part& body = batch.parts[0];
  CHECK(body.name == "body");
  CHECK(body.method == Part::Method::poured);
  CHECK(body.blend.oils.size() == 5);
  CHECK(*body.lye.superfat == Approx(0.05));
  CHECK(*body.lye.oils_celsius == 38);
  CHECK(*body.lye.lye_celsius == 30);
  REQUIRE(body.colours.size() == 3);
  CHECK(body.colours[0].share == Approx(0.5));
  REQUIRE(body.colours[0].with.size() == 2);
  CHECK(body.colours[0].with[1].name == "charcoal");
  CHECK(body.colours[0].with[1].dose.value == Approx(1.2));
  CHECK(body.colours[0].with[1].dose.basis == Basis::total);
  CHECK(body.wet_colour_with->oil.name == "high-oleic sunflower");
  CHECK(body.wet_colour_with->each_grams == 7);
  CHECK(body.wet_colour_with->from_blend);
  CHECK_FALSE(body.wet_colour_with->in_blend);
  REQUIRE(body.scents.size() == 1);
  CHECK(body.scents[0].dose.basis == Basis::per_kg_oils);
  CHECK(body.scents[0].goes_in == std::vector<std::string>{"slate", "rust"});
  CHECK(body.scents[0].certificate->category == "9");
  CHECK(*body.scents[0].certificate->most_in_bar == Approx(0.024));
  CHECK(body.scents[0].behaves.at("thickens") == "a little");
  CHECK(body.scents[0].behaves.at("colours") == "cream");
  REQUIRE(body.lye.into_lye.size() == 1);
  CHECK(body.lye.into_lye[0].name == "sodium lactate syrup");
  CHECK(*body.lye.into_lye[0].strength == Approx(0.6));
  CHECK(body.lye.into_lye[0].when == "lye below 45 C");
  CHECK(body.pour.at(0) == "two jugs in turn, then one pass with a bent wire");

  const Part& topping = batch.parts[1];
  CHECK(topping.method == Part::Method::creamed_fats);
  CHECK(topping.size->per_bar_grams == 16);
  CHECK(topping.size->left_in_bag == Approx(0.12));
  CHECK(*topping.lye.oils_celsius == 21);
  CHECK(topping.when == "body holds a fingertip mark and its side is below 35 C");
  REQUIRE(topping.top_with.size() == 1);
  CHECK(topping.top_with[0].dose.basis == Basis::total);
  CHECK(topping.top_with[0].dose.value == 5);

  CHECK(*batch.after.cover == false);
  CHECK(*batch.after.look_from_hours == 28);
  CHECK(*batch.after.cure_hours == 6 * 168);
  CHECK(batch.after.release_test == "every part");
  CHECK(batch.after.release_before == "selling");
}
