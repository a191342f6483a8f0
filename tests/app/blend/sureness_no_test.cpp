// A wish that no level of sureness can grant.
#include <catch2/catch.hpp>

#include "running.hpp"

using namespace barwright::tests;

TEST_CASE("a no that being less sure would not change says so") {
  const std::string folder = fresh_folder("sure-no");
  REQUIRE(run("barwright new yard", folder).exit_code == 0);
  spill(folder + "/yard/sky.yaml",
        "brief: hard as the sky\noils-from: shelf\nshelf: weighbridge-shelf.yaml\n"
        "compared-with: yard-bar.yaml\nwant: {hardness: at least 60 above}\nbest: cheapest\n"
        "sureness: likely\n");
  const Ran ran = run("barwright blend yard/sky.yaml", folder);
  CHECK(ran.exit_code == 4);
  CHECK(ran.out.find("Being less sure would not help") != std::string::npos);
  CHECK(ran.out.find("comes to nothing") == std::string::npos);
}
