#include "targets/files/workshop.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "targets/files/batch_file.hpp"
#include "targets/files/recipe_file.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

const oils::Library& library() {
  static const oils::Library kept = oils::Library::embedded();
  return kept;
}

/// A folder of its own with files in it.
struct Folder {
  fs::path path;
  explicit Folder(const std::string& name)
      : path(fs::temp_directory_path() / ("barwright-shop-" + name)) {
    fs::remove_all(path);
    fs::create_directories(path);
  }
  ~Folder() { fs::remove_all(path); }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(path / name, std::ios::binary) << text;
    return (path / name).string();
  }
};

// Invented.
const char* const kShop = R"(workshop: Weighbridge Yard
scale: {oils: 2 g, lye: 0.2 g}
lye: {alkali: sodium hydroxide, purity: 99 %, superfat: 6 %, concentration: 31 %, lye-at: 34 C}
room: 19 C
cure: 8 weeks
shelf: yard-shelf.yaml
moulds: {plank: {inside: [300 mm, 80 mm, 70 mm], fill-to: 48 mm}}
packed-in: {kraft box: 1}
)";
const char* const kBatch = R"(batch: slip
moulds: [{name: plank, count: 2}]
parts:
  body: {blend: {olive: 70 %, coconut: 30 %}}
)";

std::string complaint(const std::string& text) {
  const Folder folder("wrong");
  folder.write("workshop.yaml", text);
  try {
    targets::workshop_in(folder.path.string());
  } catch (const core::InputError& error) {
    return error.what();
  }
  return "no complaint";
}

}  // namespace

TEST_CASE("a workshop's one file fills what a recipe leaves open", "[workshop]") {
  const Folder folder("fill");
  folder.write("workshop.yaml", kShop);
  const auto bare = targets::read_recipe(
      folder.write("bar.yaml", "blend: {olive: 100 %}\nmake: {moulds: [plank]}\n"), library());
  CHECK(*bare.lye.superfat == Approx(0.06));
  CHECK(*bare.lye.concentration == Approx(0.31));
  CHECK(bare.lye.naoh_strength->stated == Approx(0.99));
  CHECK(*bare.scale.lye_grams == Approx(0.2));
  REQUIRE(bare.make->moulds.size() == 1);
  CHECK(*bare.make->moulds[0].fill_to_mm == Approx(48));
  CHECK(bare.shelf->path == (folder.path / "yard-shelf.yaml").string());

  const auto own = targets::read_recipe(
      folder.write("own.yaml",
                   "blend: {olive: 100 %}\noils: 1 kg\nshelf: mine.yaml\nscale: {lye: 0.1 g}\n"
                   "lye: {alkali: NaOH, superfat: 3 %, water-ratio: 2}\n"),
      library());
  CHECK(*own.lye.superfat == Approx(0.03));
  CHECK_FALSE(own.lye.concentration);
  CHECK_FALSE(own.lye.naoh_strength);  // an alkali of one's own is its own jar
  CHECK(*own.scale.lye_grams == Approx(0.1));
  CHECK(*own.scale.oils_grams == Approx(2));
  CHECK(own.shelf->path == (folder.path / "mine.yaml").string());

  const auto potash =
      targets::read_recipe(folder.write("soft.yaml",
                                        "blend: {olive: 100 %}\noils: 1 kg\n"
                                        "lye: {alkali: KOH, strength: 90 %, superfat: 3 %}\n"),
                           library());
  CHECK_FALSE(potash.lye.naoh_strength);
  CHECK(potash.lye.koh_strength->stated == Approx(0.9));
}

TEST_CASE("a workshop's one file fills what a batch leaves open, and it is said", "[workshop]") {
  const Folder folder("batch");
  folder.write("workshop.yaml", kShop);
  const std::string file = folder.write("slip.yaml", kBatch);
  const auto batch = targets::read_batch(file, library());
  CHECK(*batch.room_celsius == Approx(19));
  CHECK(*batch.after.cure_hours == Approx(8 * 168));
  CHECK(batch.moulds[0].count == 2);
  CHECK((*batch.moulds[0].inside_mm)[0] == Approx(300));
  CHECK(*batch.lye.superfat == Approx(0.06));
  const auto shop = targets::workshop_beside(file);
  REQUIRE(shop);
  CHECK(shop->packed_in == std::vector<std::pair<std::string, double>>{{"kraft box", 1.0}});
  const auto taken = [&](const std::string& text) {
    return targets::taken_from(*shop, oils::yaml::Document::from_text(text, "x.yaml").root());
  };
  CHECK(taken(kBatch) ==
        "scale, alkali and its strength, superfat, water of the lye, temperatures, room, cure, "
        "shelf");
  CHECK(taken("batch: x\nroom: 20 C\nafter: {cure: 5 weeks}\nscale: {oils: 1 g, lye: 1 g}\n"
              "shelf: s.yaml\nlye: {alkali: NaOH, concentration: 33 %, lye-at: 30 C}\n"
              "parts: {body: {superfat: 5 %}}\n") == "");
  CHECK(taken("brief: x\nshelf: s.yaml\nscale: {oils: 1 g}\nlye: {superfat: 5 %}\n") ==
        "scale, alkali and its strength, water of the lye, temperatures");
}

TEST_CASE("without a workshop's file nothing is filled in", "[workshop]") {
  const Folder folder("none");
  const auto bare = targets::read_recipe(
      folder.write("bar.yaml", "blend: {olive: 100 %}\noils: 1 kg\n"), library());
  CHECK_FALSE(bare.lye.superfat);
  CHECK_FALSE(bare.scale.lye_grams);
  CHECK_FALSE(targets::workshop_in(folder.path.string()));
  CHECK_THROWS_WITH(
      targets::read_recipe(
          folder.write("plank.yaml", "blend: {olive: 100 %}\nmake: {moulds: [plank]}\n"),
          library()),
      Contains("no size of the mould 'plank' is known") && Contains("workshop.yaml"));
}

TEST_CASE("what a workshop's file cannot mean is pointed at", "[workshop]") {
  CHECK_THAT(complaint("shop: Yard\n"), Contains("workshop.yaml") && Contains("workshop"));
  CHECK_THAT(complaint("workshop: Yard\nunit: oz\n"),
             Contains("workshop.yaml:2:1") && Contains("units"));
  CHECK_THAT(complaint("workshop: Yard\nunits: stone\n"), Contains("workshop.yaml:2:8"));
  CHECK_THAT(complaint("workshop: Yard\nlye: {salt: 5 % of oils}\n"),
             Contains("belongs to a recipe"));
  CHECK_THAT(complaint("workshop: Yard\nmoulds: {plank: {count: 2}}\n"),
             Contains("the mould has no size"));
  CHECK_THAT(complaint("workshop: Yard\npacked-in: {box: none}\n"), Contains("workshop.yaml:2:18"));
  const std::string both = complaint("workshop: Yard\nunits: stone\ncure: soon\n");
  CHECK_THAT(both, Contains("stone") && Contains("soon"));  // all at once
  const Folder folder("unknown");
  folder.write("workshop.yaml", kShop);
  CHECK_THROWS_WITH(
      targets::read_recipe(
          folder.write("plank.yaml", "blend: {olive: 100 %}\nmake: {moulds: [blank]}\n"),
          library()),
      Contains("plank.yaml:2:17") && Contains("Did you mean 'plank'"));
}
