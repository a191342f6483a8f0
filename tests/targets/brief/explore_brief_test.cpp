#include "targets/brief/explore_brief.hpp"

#include <catch2/catch.hpp>

#include "tests/targets/brief/brief_testing.hpp"

using namespace barwright;
using namespace barwright::targets;

TEST_CASE("an explore brief arrives field by field", "[explore]") {
  const ExploreBrief brief =
      read_explore_brief(testing::fixture("fair-line.yaml"), testing::brief_library());
  CHECK(brief.name == "a vegan pair for the autumn fair");
  CHECK(brief.oils_from.price_list->path == testing::fixture("prices/lock-street-list.csv"));
  CHECK(brief.already_have->shelf);
  CHECK(brief.plan->ready_for->text() == "2027-09-18");
  CHECK(brief.plan->bars == 180);
  CHECK(*brief.plan->bars_per_batch == 36);
  REQUIRE(brief.range.size() == 2);
  CHECK(brief.range[0].what_for == "kitchen bar");
  CHECK(brief.range[0].share_of_bars == Approx(0.55));
  CHECK(brief.range[0].compared_with->name == "market bar as sold");
  CHECK(brief.range[0].wishes.size() == 3);
  CHECK(brief.range[1].compared_with->shipped == "all-olive");
  CHECK(brief.range[1].wishes[0].subject.property == Property::mildness);
  CHECK(*brief.most_oils == 6);
  CHECK(*brief.most_new_oils == 2);
  CHECK(brief.rules.barred.size() == 2);
  CHECK(brief.money.spend_now->amount == 240);
  CHECK(brief.money.delivered);
  REQUIRE(brief.cost.size() == 1);
  CHECK(brief.cost[0].high->value == 0.5);
  CHECK(brief.cost[0].subject.per == Per::bar);
  CHECK(brief.money.delivery_flat->amount == 12);
  CHECK(brief.money.delivery_free_over->amount == 200);
  CHECK(brief.money.whole_packs);
}
