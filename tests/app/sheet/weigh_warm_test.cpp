// What a plain recipe says of its temperatures bears on what is printed.
#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Catch::Contains;

TEST_CASE("temperatures of a recipe are told where it is weighed out", "[weigh]") {
  const std::string folder = fresh_folder("weigh-warm");
  const auto weigh = [&](const std::string& blend, const std::string& lye) {
    spill(folder + "/r.yaml",
          "name: r\nblend: " + blend + "\nlye: {superfat: 5 %" + lye + "}\noils: 1000 g\n");
    return flat(run("barwright weigh r.yaml", folder).out);
  };
  const std::string soft = "{olive: 100 %}", hard = "{cocoa butter: 100 %}";
  CHECK_THAT(weigh(soft, ""), !Contains("Pour with"));
  CHECK_THAT(weigh(soft, ", oils-at: 38 C, lye-at: 32 C"),
             Contains("Pour with the oils at 38 C and the lye at 32 C. "));
  CHECK_THAT(weigh(hard, ", oils-at: 20 C"),
             Contains("Pour with the oils at 20 C: these oils are all clear only from about"));
}
