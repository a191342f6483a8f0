#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "oils/books/shelf_reader.hpp"
#include "oils/records/library.hpp"
#include "solver/batch/batch_plan.hpp"
#include "solver/books/make_plan.hpp"
#include "targets/files/batch_file.hpp"

using namespace barwright;

namespace {

std::string written(const std::string& name, const std::string& text) {
  const std::string path =
      "/tmp/barwright-judge-" + std::to_string(getpid()) + "-" + name + ".yaml";
  std::ofstream(path, std::ios::binary) << text;
  return path;
}

std::string batch(const std::string& lye_pot, const std::string& lye, const std::string& body) {
  return "batch: judged\nscale: {oils: 1 g, lye: 0.1 g}\nmake: {oils: 1400 g}\nlye-pot: " +
         lye_pot + "\nlye: {" + lye +
         "}\npremixed:\n  yard mix: {olive: 70 %, rice bran: 30 %}\nparts:\n  body:\n" + body;
}

struct Case {
  const char* name;
  std::string text;
};

/// Invented batches: milk by ice, by powder, acids, mixed alkali, one pot and several.
std::vector<Case> cases() {
  const std::string plain = "    blend: {olive: 55 %, coconut: 30 %, castor: 15 %}\n";
  return {
      {"milk",
       batch("each part", "liquids: [{whole milk: 300 g per kg oils, frozen: yes}]", plain)},
      {"powder", batch("each part", "alkali: sodium hydroxide",
                       plain + "    additives: [{goat milk: 60 g in all}]\n")},
      {"acid", batch("each part", "acids: [{citric acid anhydrous: 10 g per kg oils}]", plain)},
      {"shared",
       batch("one", "concentration: 33 %", plain + "    additives: [{goat milk: 60 g in all}]\n")},
      {"premix", batch("one", "concentration: 33 %",
                       "    blend: {yard mix: 60 %, coconut: 32 %, castor: 8 %}\n"
                       "    wet-colour-with: {oil: castor, each: 6 g, taken-from: blend}\n"
                       "    colours: [{name: mud, share: 100 %, with: [{brown iron oxide: 2.4 "
                       "g}]}]\n")},
      {"mixed", batch("one",
                      "alkali: {sodium hydroxide: 90 %, potassium hydroxide: 10 %, by: moles}, "
                      "strength: {potassium hydroxide: 90 %}",
                      plain)},
  };
}

}  // namespace

TEST_CASE("sheet and make judge one batch by one pot", "[pot]") {
  const auto library = oils::Library::embedded();
  for (const auto& one : cases()) {
    INFO(one.name);
    const std::string path = written(one.name, one.text);
    const auto planned = batch::plan_batch(targets::read_batch(path, library), library, {});
    const auto made = books::make_plan(path, library, nullptr);
    REQUIRE(planned.parts.size() == made.parts.size());
    for (std::size_t i = 0; i < made.parts.size(); ++i) {
      const auto& part = planned.parts[i];
      const auto weighed = books::check_weights(made.parts[i]);
      CHECK(part.check.band.low == Approx(part.recipe.band.low).margin(1e-12));
      CHECK(part.check.superfat == Approx(part.recipe.superfat).margin(1e-12));
      CHECK(weighed.superfat == Approx(part.check.superfat).margin(1e-9));
      CHECK(weighed.band.low == Approx(part.check.band.low).margin(1e-9));
      CHECK(weighed.band.high == Approx(part.check.band.high).margin(1e-9));
    }
  }
}

TEST_CASE("sheet and make judge a certified oil inside a premix by its certificate", "[pot]") {
  const auto shelf = oils::read_shelf(BARWRIGHT_SOURCE_DIR "/examples/weighbridge-shelf.yaml",
                                      oils::Library::embedded());
  for (const char* pot : {"one", "each part"}) {
    const std::string path =
        written("certified",
                "batch: judged\nscale: {oils: 1 g, lye: 0.1 g}\nmake: {oils: 1400 g}\nlye-pot: " +
                    std::string(pot) +
                    "\nlye: {concentration: 33 %}\npremixed:\n  soft mix: {olive: 70 %, shea "
                    "butter: 30 %}\n"
                    "parts:\n  body:\n    blend: {soft mix: 70 %, coconut: 30 %}\n");
    const auto file = targets::read_batch(path, shelf.library);
    const auto planned = batch::plan_batch(file, shelf.library, shelf);
    const auto weighed =
        books::check_weights(books::make_plan(path, shelf.library, &shelf).parts[0]);
    const auto& check = planned.parts[0].check;
    CHECK(weighed.superfat == Approx(check.superfat).margin(1e-9));
    CHECK(weighed.band.low == Approx(check.band.low).margin(1e-9));
    CHECK(weighed.band.high == Approx(check.band.high).margin(1e-9));
    // 181 mg KOH/g, by the certificate; the library says 180 at its typical and 9 either way.
    const auto published = batch::plan_batch(file, oils::Library::embedded(), {});
    CHECK(check.band.low > published.parts[0].check.band.low);
  }
}
