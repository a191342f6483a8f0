#include "tests/targets/model/model_orderings.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace barwright::targets;
using namespace barwright::targets::testing;

TEST_CASE("the orderings that print and practice state hold", "[model]") {
  REQUIRE(orderings().size() == 46);
  for (double free_fat : {0.0, 0.05, 0.10})
    for (const Ordering& o : orderings()) {
      INFO(name(o.property) << ": " << o.better << " above " << o.worse << " at superfat "
                            << free_fat << " (" << o.source << ")");
      CHECK(score(o.property, bar(o.better), superfat(free_fat)) >
            score(o.property, bar(o.worse), superfat(free_fat)));
    }
}

TEST_CASE("the orderings survive the constants' doubt, but for three known weak ones", "[model]") {
  const auto draws = PropertyModel::embedded().draws(1000, 7);
  std::set<std::string> weak;
  for (const Ordering& o : orderings()) {
    const Composition better = bar(o.better), worse = bar(o.worse);
    int holds = 0;
    for (const PropertyModel& draw : draws)
      holds +=
          draw.value(o.property, better, superfat(0)) > draw.value(o.property, worse, superfat(0));
    const std::string label = std::string(name(o.property)) + " " + o.better + " > " + o.worse;
    INFO(label << " holds in " << holds << " of 1000 draws (" << o.source << ")");
    CHECK(holds > 800);
    if (holds < 980) weak.insert(label);
  }
  CHECK(weak == std::set<std::string>{"hardness palm kernel > palm", "hardness P50K50 > P80K20",
                                      "lather cottonseed > beef tallow"});
}
