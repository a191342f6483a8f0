// A lot comes in and the shelf's library is read anew: the oil in hand, and what was found about
// its certificate, must outlive the one it came from (run it under AddressSanitizer, too).
#include <catch2/catch.hpp>
#include <filesystem>

#include "shelf_yard.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;

TEST_CASE("the doubt about a certificate is told though the library was replaced meanwhile") {
  const YardFolder yard("replaced-library");
  std::filesystem::create_directory(yard.path("own"));
  // An invented record in the place of the library's olive.
  yard.write("own/olive.yaml", R"(oil: olive
inci: Olea Europaea Fruit Oil
once-saponified: Sodium Olivate
name-status: established
kind: triglyceride
tags: [vegan]
solid-at-25C: no
units: {unsaponifiable: "% of fat", acids: "% of fatty acids", saponification-value: mg KOH/g, iodine-value: g I2/100 g}
sources: {mill: "an invented mill"}
unsaponifiable: {typical: 0.8, source: mill, mark: certificate}
acids:
  from: {source: mill, mark: certificate}
  C16:0: {typical: 12}
  C18:0: {typical: 3}
  C18:1: {typical: 74}
  C18:2: {typical: 11}
saponification-value: {typical: 189.5, source: mill, mark: certificate}
iodine-value: {typical: 83, source: mill, mark: certificate}
)");
  for (const char* lot : {"Q-1", "Q-2"}) {
    CHECK_THAT(yard.on("2027-02-01",
                       {"shelf", "receive", "olive", "5 kg", "--lot", lot, "--library", "@own",
                        "--certificate", "ref: CA-1, saponification-value: 194 mg KOH/g"}),
               Contains("Received: 5 kg of olive") &&
                   Contains("Certificate: Saponification value 194 mg KOH/g is outside the 189.5"));
  }
}
