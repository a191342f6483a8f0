// Finding oils by the names makers use, and adding to the library.
#include "oils/records/library.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "oils/records/record_reader.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A folder that goes away with the test.
class Folder {
 public:
  explicit Folder(const std::string& name)
      : path_(fs::temp_directory_path() / ("barwright-" + name)) {
    fs::remove_all(path_);
    fs::create_directories(path_);
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name) << text;
  }
  std::string text() const { return path_.string(); }

 private:
  fs::path path_;
};

std::string record(const std::string& name, const std::string& also) {
  return "oil: " + name + "\nalso: [" + also + R"(]
inci: Invented Oil
once-saponified: Sodium Inventate
name-status: formed by analogy
kind: triglyceride
tags: [vegan]
solid-at-25C: no
units: {acids: "% of fatty acids", saponification-value: mg KOH/g, iodine-value: g I2/100 g, unsaponifiable: "% of fat"}
sources: {mill: "Invented mill, invented certificate"}
acids:
  from: {source: mill, mark: certificate}
  C18:1: {typical: 100}
saponification-value: {typical: 188.5, source: mill, mark: certificate}
iodine-value: {typical: 85, source: mill, mark: certificate}
unsaponifiable: {typical: 1, source: mill, mark: certificate}
)";
}

std::string found(const oils::Library& library, std::string_view name) {
  const oils::Oil* oil = library.find(name);
  return oil == nullptr ? "" : oil->name;
}

}  // namespace

TEST_CASE("names fold case, spaces, hyphens, accents and a trailing oil") {
  const auto library = oils::Library::embedded();
  CHECK(found(library, "Olive Oil") == "olive");
  CHECK(found(library, "  OLIVE  ") == "olive");
  CHECK(found(library, "high oleic sunflower") == "high-oleic sunflower");
  CHECK(found(library, "sunflower, high-oleic") == "high-oleic sunflower");
  CHECK(found(library, "Sunflower High Oleic Oil") == "high-oleic sunflower");
  CHECK(found(library, "palm-kernel") == "palm kernel");
  CHECK(found(library, "karit\xC3\xA9") == "shea butter");
  CHECK(found(library, "tucum\xC3\xA3") == "tucuma butter");
  CHECK(found(library, "shea") == "shea butter");
  CHECK(found(library, "canola oil") == "rapeseed");
  CHECK(found(library, "corn oil") == "maize");
  CHECK(found(library, "soy wax flakes") == "hydrogenated soybean");
  CHECK(found(library, "coconut 92") == "hydrogenated coconut");
  CHECK(found(library, "no such thing").empty());
  CHECK(found(library, "").empty());
}

TEST_CASE("a word of several meanings finds nothing by itself") {
  const auto library = oils::Library::embedded();
  for (const char* word : {"tallow", "Tallow", "butter", "shortening", "stearin", "wax",
                           "vegetable oil", "animal fat"}) {
    INFO(word);
    CHECK(library.find(word) == nullptr);
    CHECK(library.meant_by(word).size() >= 2);
  }
  CHECK(library.meant_by("tallow") == std::vector<std::string>{"beef tallow", "mutton tallow"});
  CHECK(library.remedy_for("tallow").text ==
        "Say which is meant: 'beef tallow' or 'mutton tallow'.");
  CHECK(library.meant_by("olive").empty());
}

TEST_CASE("what may also be an oil that is not kept is asked about") {
  const auto library = oils::Library::embedded();
  for (const char* word :
       {"tucuma oil", "tucum oil", "Astrocaryum vulgare", "colza", "colza oil", "rape", "Rape oil",
        "soy wax", "soya wax", "coconut wax", "palm wax", "shea oil", "sea buckthorn oil"}) {
    INFO(word);
    CHECK(library.find(word) == nullptr);
    CHECK_FALSE(library.meant_by(word).empty());
    CHECK_THAT(library.remedy_for(word).text, Contains("; or ") && Contains("does not hold"));
  }
  CHECK_THAT(library.remedy_for("colza").text, Contains("'rapeseed'") && Contains("erucic"));
  CHECK_THAT(library.remedy_for("tucuma oil").text,
             Contains("'tucuma butter'") && Contains("pulp"));
  for (const char* word : {"suet", "dripping", "poultry fat", "stearine"}) {
    INFO(word);
    CHECK(library.meant_by(word).size() >= 2);
  }
  // A record of one's own takes the word.
  CHECK(found(library, "tucuma") == "tucuma butter");
  CHECK(found(library, "low-erucic colza") == "rapeseed");
}

TEST_CASE("an unknown name is answered with the nearest, never taken") {
  const auto library = oils::Library::embedded();
  CHECK(library.find("olvie") == nullptr);
  CHECK(library.nearest("olvie") == "olive");
  CHECK(library.nearest("coconutt oil") == "coconut");
  CHECK(library.nearest("zzzzzzzzzzzz").empty());
  const auto root =
      oils::yaml::Document::from_text("use: castro\nfat: tallow\n", "brief.yaml").root();
  try {
    library.need(root.need("use"));
    FAIL("taken");
  } catch (const core::InputError& error) {
    CHECK(error.place().line == 1);
    CHECK(error.place().column == 6);
    CHECK_THAT(error.message(), Contains("no oil called 'castro'"));
    CHECK_THAT(error.remedy(), Contains("'castor'"));
  }
  CHECK_THROWS_WITH(library.need(root.need("fat")), Contains("more than one oil"));
  CHECK(library.nearest_tag("vegn") == "vegan");
}

TEST_CASE("the library is sorted by name and tags find their oils") {
  const auto library = oils::Library::embedded();
  for (std::size_t i = 1; i < library.oils().size(); ++i)
    CHECK(library.oils()[i - 1].name < library.oils()[i].name);
  const auto animal = library.with_tag("animal");
  CHECK(animal.size() >= 10);
  for (const oils::Oil* oil : animal) CHECK_FALSE(oil->has_tag("vegan"));
  CHECK(library.with_tag("no such tag").empty());
}

TEST_CASE("a folder of records replaces and joins") {
  Folder folder("library");
  folder.write("a.yaml", record("yard blend oil", "pure olive"));
  folder.write("z.yaml", record("olive", "yard olive"));
  folder.write("tags.yaml", "tags:\n  local: {means: from our valley}\n");
  folder.write("notes.txt", "not read");
  auto library = oils::Library::embedded();
  const std::size_t before = library.oils().size();
  library.add_folder(folder.text());
  CHECK(library.oils().size() == before + 1);
  CHECK(library.find("olive")->saponification_value.span.typical == 188.5);
  CHECK(found(library, "yard olive") == "olive");
  // The replaced record's other names went with it, whichever file came first.
  CHECK(found(library, "pure olive") == "yard blend oil");
  CHECK(found(library, "extra virgin olive").empty());
  CHECK(library.sources().at("mill").work == "Invented mill, invented certificate");
  CHECK(library.knows_tag("local"));
  CHECK(library.knows_tag("vegan"));
}

TEST_CASE("a folder that cannot be taken changes nothing") {
  auto library = oils::Library::embedded();
  const std::size_t before = library.oils().size();
  CHECK_THROWS_WITH(library.add_folder("/no/such/folder"), Contains("no folder"));
  Folder empty("library-empty");
  CHECK_THROWS_WITH(library.add_folder(empty.text()), Contains("no .yaml file"));
  Folder folder("library-bad");
  folder.write("a.yaml", record("first new", "new one"));
  folder.write("b.yaml", record("second new", "flax"));
  try {
    library.add_folder(folder.text());
    FAIL("taken");
  } catch (const core::InputError& error) {
    CHECK_THAT(error.place().file, Contains("b.yaml"));
    CHECK_THAT(error.message(), Contains("the name 'flax' belongs to 'linseed' already"));
    CHECK_THAT(error.remedy(), Contains("'linseed'"));
  }
  folder.write("b.yaml", record("First New", "other"));
  CHECK_THROWS_WITH(library.add_folder(folder.text()), Contains("second record"));
  CHECK(library.oils().size() == before);
  CHECK(found(library, "first new").empty());
}

TEST_CASE("the order records are added in does not matter") {
  const auto library = oils::Library::embedded();
  oils::Library backward, forward;
  const auto& all = library.oils();
  for (auto oil = all.begin(); oil != all.end(); ++oil) forward.add(*oil);
  for (std::size_t i = all.size(); i-- > 0;) backward.add(all[i]);
  REQUIRE(forward.oils().size() == backward.oils().size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    CHECK(forward.oils()[i].name == backward.oils()[i].name);
    CHECK(forward.oils()[i].saponification_value.span.typical ==
          backward.oils()[i].saponification_value.span.typical);
    for (const std::string& name : all[i].synonyms)
      CHECK(found(forward, name) == found(backward, name));
  }
}

TEST_CASE("a name given on purpose is ambiguous no more") {
  auto library = oils::Library::embedded();
  oils::Oil oil = *library.find("beef tallow");
  oil.name = "yard tallow";
  oil.synonyms = {"tallow"};
  library.add(oil);
  CHECK(found(library, "tallow") == "yard tallow");
  CHECK(library.meant_by("tallow").empty());
}
