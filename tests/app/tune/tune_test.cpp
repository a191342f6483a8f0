// 'tune' as a maker uses it: what it writes, what takes it, and what it must never touch.
#include <catch2/catch.hpp>
#include <filesystem>

#include "running.hpp"
#include "solver/app/json.hpp"

using namespace barwright;
using namespace barwright::tests;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

// Invented: three pours of two bars.
const char* const kNotes = R"(shelf: weighbridge-shelf.yaml
pours:
  yard: {recipe: yard-bar.yaml, made: 2027-01-04}
  pomace: {recipe: {name: pomace bar, blend: {olive pomace: 65 %, coconut: 25 %, castor: 10 %}}, made: 2027-01-05}
  spare: {recipe: yard-bar.yaml, made: 2027-01-06}
notes:
  - {compare: pomace, against: yard, judged: 2027-01-05, working-time: clearly quicker to thicken}
)";

// A workshop where notes were learned from, made once.
const std::string& learned() {
  static const std::string folder = [] {
    const std::string out = fresh_folder("tune-learned");
    REQUIRE(run("barwright new .", out).exit_code == 0);
    spill(out + "/notes.yaml", kNotes);
    const Ran ran = run("barwright tune notes.yaml", out);
    INFO(ran.err);
    REQUIRE(ran.exit_code == 0);
    spill(out + "/said.txt", ran.out);
    return out;
  }();
  return folder;
}

std::string copy_of_learned(const std::string& name) {
  const std::string out = fresh_folder(name);
  fs::copy(learned(), out, fs::copy_options::recursive);
  return out;
}

app::Json json_of(const std::string& command, const std::string& folder) {
  const Ran ran = run(command, folder);
  INFO(ran.err);
  const auto read = app::Json::parse(ran.out);
  REQUIRE(read);
  return *read;
}

}  // namespace

TEST_CASE("tune tells what notes change, what is left and which pour has no note") {
  const std::string said = slurp(learned() + "/said.txt");
  CHECK_THAT(said, Contains("working-time, pomace bar beside yard bar as sold"));
  CHECK_THAT(said, Contains("print says a little quicker to thicken"));
  CHECK_THAT(said, Contains("1 of 3 pours have no note: spare."));
  CHECK_THAT(said, Contains("figure rests on them."));
  CHECK_THAT(slurp(learned() + "/tuned.yaml"), Contains("notes: 1\npours: 2\n"));
}

TEST_CASE("the same notes give the same bytes") {
  const std::string folder = copy_of_learned("tune-again");
  fs::remove(folder + "/tuned.draws");
  REQUIRE(run("barwright tune notes.yaml", folder).exit_code == 0);
  CHECK(slurp(folder + "/tuned.draws") == slurp(learned() + "/tuned.draws"));
  CHECK(slurp(folder + "/tuned.yaml") == slurp(learned() + "/tuned.yaml"));
}

TEST_CASE(
    "answers take what was learned from beside the shelf, say so, and do without it when told") {
  const std::string& folder = learned();
  const Ran tuned = run("barwright weigh yard-bar.yaml --beside all-olive", folder);
  CHECK_THAT(tuned.out, Contains("Reckoned with your own notes:") && Contains("2 pours"));
  const Ran plain = run("barwright weigh yard-bar.yaml --beside all-olive --untuned", folder);
  CHECK(plain.out.find("your own notes") == std::string::npos);
  CHECK(plain.out != tuned.out);
  const std::string fresh = fresh_folder("tune-none");
  REQUIRE(run("barwright new .", fresh).exit_code == 0);
  for (const char* command :
       {"barwright weigh yard-bar.yaml --beside all-olive", "barwright blend firmer-bar.yaml",
        "barwright swap butter-out.yaml", "barwright explore spring-line.yaml"}) {
    CAPTURE(command);
    CHECK(run(std::string(command) + " --untuned", folder).out == run(command, fresh).out);
    CHECK_THAT(run(command, folder).out, Contains("Reckoned with your own notes"));
  }
  CHECK(run("barwright weigh yard-bar.yaml --tuned tuned.yaml --untuned", folder).exit_code == 2);
  CHECK_THAT(run("barwright weigh yard-bar.yaml --tuned none.yaml", folder).err,
             Contains("there is no file 'none.yaml'"));
}

TEST_CASE("no lye figure of a recipe rests on what was learned") {
  const std::string& folder = learned();
  for (const char* recipe : {"yard-bar.yaml"}) {
    const auto tuned = json_of(std::string("barwright weigh --json ") + recipe, folder);
    const auto plain = json_of(std::string("barwright weigh --json --untuned ") + recipe, folder);
    CHECK(tuned.find("tuned") != nullptr);
    CHECK(plain.find("tuned") == nullptr);
    CHECK(tuned.find("recipe")->dump(2) == plain.find("recipe")->dump(2));
    CHECK(tuned.find("properties")->dump(2) != plain.find("properties")->dump(2));
  }
  // The bench asks no model for its lye: a sheet is the same byte for byte.
  const Ran with = run("barwright sheet towpath-batch.yaml", folder);
  fs::path fresh = fresh_folder("tune-sheet");
  REQUIRE(run("barwright new .", fresh.string()).exit_code == 0);
  CHECK(with.out == run("barwright sheet towpath-batch.yaml", fresh.string()).out);
}

TEST_CASE("what print is not sure of is not made sure of by two pours") {
  const auto weighed = json_of("barwright tune notes.yaml --json", copy_of_learned("tune-two"));
  const auto* changes = weighed.find("changes");
  REQUIRE(changes != nullptr);
  const auto& change = changes->items().front();
  CHECK(change.find("too_few_pours") != nullptr);
  // Print calls this less than a noticeable step, so it is not sure; two pours cannot make it so.
  CHECK_FALSE(change.find("sure")->is_true());
}

TEST_CASE("readings of other notes, or cut short, are refused, and say what to do") {
  const std::string folder = copy_of_learned("tune-stale");
  spill(folder + "/notes.yaml", std::string(kNotes) + "# one more thought\n");
  const Ran stale = run("barwright weigh yard-bar.yaml", folder);
  CHECK(stale.exit_code == 3);
  CHECK_THAT(stale.err,
             Contains("were changed after they were learned from") && Contains("barwright tune"));
  spill(folder + "/notes.yaml", kNotes);
  CHECK(run("barwright weigh yard-bar.yaml", folder).exit_code == 0);
  const std::string draws = slurp(folder + "/tuned.draws");
  spill(folder + "/tuned.draws", draws.substr(0, draws.size() / 2));
  CHECK_THAT(run("barwright weigh yard-bar.yaml", folder).err, Contains("tune again"));
  std::string other = draws;
  other.replace(other.find("model\t") + 6, 4, "0000");
  spill(folder + "/tuned.draws", other);
  CHECK_THAT(run("barwright weigh yard-bar.yaml", folder).err, Contains("of another model"));
}

TEST_CASE("a notebook without a note teaches nothing and writes nothing") {
  const std::string folder = fresh_folder("tune-empty");
  REQUIRE(run("barwright new .", folder).exit_code == 0);
  const std::string text = kNotes;
  spill(folder + "/notes.yaml", text.substr(0, text.find("notes:\n")));
  const Ran ran = run("barwright tune notes.yaml", folder);
  CHECK(ran.exit_code == 0);
  CHECK_THAT(ran.out, Contains("no note yet"));
  CHECK_FALSE(fs::exists(folder + "/tuned.yaml"));
  CHECK_FALSE(fs::exists(folder + "/tuned.draws"));
}

TEST_CASE("tune replaces nothing that it has not written, and bad notes change nothing") {
  const std::string folder = copy_of_learned("tune-own");
  spill(folder + "/tuned.yaml", "mine: yes\n");
  CHECK(run("barwright tune notes.yaml", folder).exit_code == 2);
  CHECK(slurp(folder + "/tuned.yaml") == "mine: yes\n");
  const std::string again = copy_of_learned("tune-bad");
  spill(again + "/notes.yaml", std::string(kNotes) +
                                   "  - {compare: pomade, against: yard, judged: "
                                   "2027-01-05, hardness: no difference}\n");
  const Ran bad = run("barwright tune notes.yaml", again);
  CHECK(bad.exit_code == 3);
  CHECK_THAT(bad.err, Contains("no pour is called 'pomade'"));
  CHECK(slurp(again + "/tuned.draws") == slurp(learned() + "/tuned.draws"));
}
