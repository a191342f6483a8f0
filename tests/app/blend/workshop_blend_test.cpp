#include <catch2/catch.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;

namespace {

// Invented.
const char* const kShort = R"(brief: short
oils-from: [olive, coconut, castor]
make: {moulds: [plank]}
want: {hardness: at least 30}
best: most hardness
)";
const char* const kShop = R"(workshop: Weighbridge Yard
scale: {oils: 1 g, lye: 0.1 g}
lye: {superfat: 6 %}
moulds: {plank: {inside: [300 mm, 80 mm, 70 mm], fill-to: 48 mm}}
)";

std::string hash_in(const std::string& folder) {
  const Ran ran = run("barwright blend short.yaml --draft --json", folder);
  INFO(ran.out + ran.err);
  const std::size_t at = ran.out.find("\"brief_hash\": \"");
  REQUIRE(at != std::string::npos);
  return ran.out.substr(at + 15, 16);
}

}  // namespace

TEST_CASE("what a brief has from its workshop's file is said, and another file is another brief") {
  const std::string folder = fresh_folder("workshop-blend");
  spill(folder + "/short.yaml", kShort);
  spill(folder + "/workshop.yaml", kShop);
  const Ran ran = run("barwright blend short.yaml", folder);
  INFO(ran.err);
  CHECK(ran.exit_code == 0);
  CHECK_THAT(ran.out, Contains("From workshop.yaml: scale, superfat.") && Contains("Superfat 6"));
  CHECK_THAT(run("barwright blend --from olive:70,coconut:30 --want harder", folder).out,
             Contains("From workshop.yaml: scale, superfat."));
  // Grams that were found with another workshop's file are not this brief's.
  const std::string before = hash_in(folder);
  CHECK(hash_in(folder) == before);
  std::string other = kShop;
  other.replace(other.find("6 %"), 3, "5 %");
  spill(folder + "/workshop.yaml", other);
  CHECK(hash_in(folder) != before);
}
