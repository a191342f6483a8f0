// What the screen, JSON and saved recipes say of the house's manners, and the way in without a
// file.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

const std::string kFrom = "barwright blend --from olive:40,coconut:30,palm:25,castor:5 --want ";

}  // namespace

TEST_CASE("a wish on the command line is answered without any file") {
  const Ran ran = run(kFrom + "'harder, lather no less'");
  CHECK(ran.exit_code == 0);
  CHECK_THAT(ran.out, Contains("harder (hardness: clearly more)"));
  CHECK_THAT(ran.out, Contains("lather no less (lather: no less)"));
  CHECK_THAT(ran.out, Contains("--save-brief"));
}

TEST_CASE("what was asked is kept as a brief that gives the same answer") {
  const std::string folder = fresh_folder("quick");
  const Ran asked = run(kFrom +
                        "'milder; cheapest' --using " BARWRIGHT_SOURCE_DIR
                        "/tests/manners/shelves/well-stocked.yaml --json --save-brief " +
                        folder + "/wish.yaml");
  REQUIRE(asked.exit_code == 0);
  const Ran again = run("barwright blend wish.yaml --json", folder);
  REQUIRE(again.exit_code == 0);
  CHECK(json::parse(asked.out)["blend"] == json::parse(again.out)["blend"]);
  CHECK_THAT(slurp(folder + "/wish.yaml"), Contains("want: \"milder; cheapest\""));
}

TEST_CASE("a wish about cost where nothing has a price says where prices stand") {
  const Ran ran = run(kFrom + "'cheaper'");
  CHECK(ran.exit_code == 3);
  CHECK_THAT(ran.err, Contains("no oil here has a price"));
  CHECK_THAT(ran.err, Contains("--using my-shelf.yaml"));
}

TEST_CASE("a wish that cannot be taken says what is wrong") {
  const auto said = [](const std::string& command) {
    const Ran ran = run("barwright blend " + command);
    CHECK((ran.exit_code == 2 || ran.exit_code == 3));
    return ran.err;
  };
  CHECK_THAT(said("--from olive:40,coconut:30,palm:25 --want harder"),
             Contains("total 95 %, 5 % short"));
  CHECK_THAT(said("--from olive:90,coconut:30 --want harder"), Contains("120 %, 20 % too much"));
  CHECK_THAT(said("--from olive:60,olive:40 --want harder"), Contains("twice"));
  CHECK_THAT(said("--from oliv:60,coconut:40 --want harder"), Contains("olive"));
  CHECK_THAT(said("--from olive,coconut:40 --want harder"), Contains("'olive'"));
  CHECK_THAT(said("--from olive:60,coconut:40"), Contains("--want"));
  CHECK_THAT(said("--from olive:60,coconut:40 --want harderer"), Contains("lather no less"));
  CHECK_THAT(said("--want harder"), Contains("--from"));
  CHECK_THAT(said("examples/firmer-bar.yaml --from olive:100 --want harder"), Contains("--from"));
}

TEST_CASE("a proof speaks of the oils it holds for, and says how the one let in was come by") {
  const Ran one = run(kFrom + "'harder, lather no less'");
  CHECK_THAT(one.out, Contains("Proved: no blend of the oils of your bar and "));
  CHECK_THAT(one.out, Contains("each tried beside") && Contains("served best"));
  const Ran none = run(kFrom + "'cheapest'");
  CHECK_THAT(none.out, !Contains("each tried beside them"));
  const Ran json_of = run(kFrom + "'harder, lather no less' --json");
  bool told = false;
  const json answer = json::parse(json_of.out);
  for (const auto& manner : answer["manners"]) {
    if (manner["name"] != "own oils") continue;
    told = true;
    CHECK(manner["had_to"] == true);
    CHECK(manner["tried"] > 5);
    CHECK(manner["let_in"] != "");
  }
  CHECK(told);
}

TEST_CASE("each manner stands in JSON with its rule, reason, mark, state and price") {
  const Ran ran = run(kFrom + "'harder, lather no less' --json");
  REQUIRE(ran.exit_code == 0);
  const json answer = json::parse(ran.out);
  REQUIRE(answer["manners"].size() > 10);
  bool priced = false;
  for (const auto& one : answer["manners"]) {
    for (const char* key : {"name", "rule", "reason", "mark", "state"}) CHECK(one[key] != "");
    if (one["price"].is_null()) continue;
    priced = true;
    CHECK(one["state"] != "kept");
    CHECK(one["price"]["unit"] == "steps of feel");
  }
  CHECK(priced);
  CHECK(answer["hours_to_cut"] > 8);
}

TEST_CASE("a bar that cuts soft says so before anything else") {
  const std::string folder = fresh_folder("soft");
  spill(folder + "/face.yaml",
        "brief: face bar\noils-from: [high-oleic sunflower, coconut, castor]\n"
        "compared-with: all-sunflower\nbest: most mildness\n"
        "limits: {high-oleic sunflower: exactly 80 %}\n");
  const Ran ran = run("barwright blend face.yaml", folder);
  REQUIRE(ran.exit_code == 0);
  const std::size_t soft = ran.out.find("CUTS SOFT: about");
  REQUIRE(soft != std::string::npos);
  CHECK(soft < ran.out.find("Proved"));
}

TEST_CASE("without a bar in the hand the plain one in its place is spelled out") {
  const std::string folder = fresh_folder("plain");
  spill(folder + "/plain.yaml", "brief: plain\noils-from: library\nbest: most lather\n");
  const Ran ran = run("barwright blend plain.yaml", folder);
  REQUIRE(ran.exit_code == 0);
  CHECK_THAT(ran.out, Contains("'plain bar' takes its place: olive 40 %, palm 30 %"));
}

TEST_CASE("a saved recipe records the manners in force, and is read again") {
  const std::string folder = fresh_folder("record");
  REQUIRE(run(kFrom + "'harder' --save " + folder + "/bar.yaml").exit_code == 0);
  CHECK_THAT(slurp(folder + "/bar.yaml"), Contains("manners: [") && Contains("at most 6 oils"));
  CHECK(run("barwright weigh bar.yaml", folder).exit_code == 0);
}

TEST_CASE("a swap takes the family out and lets no animal fat in") {
  const std::string folder = fresh_folder("out");
  spill(folder + "/bar.yaml",
        "name: market\nblend: {olive: 40 %, palm: 30 %, coconut: 25 %, castor: 5 %}\n"
        "oils: 1000 g\n");
  const Ran ran = run("barwright swap bar.yaml --out palm --using library --json", folder);
  REQUIRE(ran.exit_code == 0);
  const json answer = json::parse(ran.out);
  for (const auto& one : answer["blend"]) {
    const std::string oil = one["oil"];
    INFO(oil);
    CHECK(oil.find("palm") == std::string::npos);
    const Ran record = run("barwright oils '" + oil + "' --json");
    const json all = json::parse(record.out);
    for (const auto& tag : all["tags"]) CHECK(tag != "animal");
  }
  CHECK(answer["manners"].size() > 3);
}

TEST_CASE("a swap without a brief lets manners go by a word on the command line") {
  const std::string folder = fresh_folder("free-swap");
  spill(folder + "/bar.yaml",
        "name: market\nblend: {olive: 40 %, palm: 30 %, coconut: 25 %, castor: 5 %}\n"
        "oils: 1000 g\n");
  const std::string swap = "barwright swap bar.yaml --out palm --using lard --json --manners ";
  const Ran free = run(swap + "none", folder);
  REQUIRE(free.exit_code == 0);
  CHECK(json::parse(free.out)["manners"].empty());
  const Ran some = run(swap + "'without few oils, no dabs'", folder);
  REQUIRE(some.exit_code == 0);
  const json kept = json::parse(some.out);
  for (const auto& one : kept["manners"]) CHECK(one["name"] != "no dabs");
  const Ran wrong = run(swap + "'without manners'", folder);
  CHECK(wrong.exit_code == 3);
  CHECK_THAT(wrong.err, Contains("no manner of ours"));
}

TEST_CASE("a wish about oils alone keeps the bar as near as it can") {
  const Ran without = run(kFrom + "'no coconut'");
  CHECK(without.exit_code == 0);
  // What coconut gave is not lost: another oil of its kind comes in.
  CHECK_THAT(without.out, Contains("babassu") && !Contains("less lather"));
  CHECK_THAT(without.out, Contains("'not: coconut': letting in 5 % would better"));
  const Ran less = run(kFrom + "'harder, less coconut'");
  CHECK_THAT(less.out, Contains("coconut        25 %") || Contains("coconut        20 %"));
}

TEST_CASE("an oil that is hard to come by is no answer where an everyday one serves") {
  const Ran ran = run(kFrom + "'more lather'");
  CHECK(ran.exit_code == 0);
  CHECK_THAT(ran.out, !Contains("everyday oils (not kept"));
  CHECK_THAT(ran.out, !Contains("tucuma") && !Contains("sea buckthorn"));
}

TEST_CASE("wishes that collide at a hair of superfat have their ways out") {
  const Ran ran = run(kFrom + "'bubblier, milder'");
  CHECK(ran.exit_code == 4);
  CHECK_THAT(ran.out, Contains("WAYS OUT"));
  CHECK_THAT(ran.out, Contains("bubblier (lather: clearly more)  ->  no more than"));
  CHECK_THAT(ran.out, Contains("milder (mildness: clearly more)  ->  no more than"));
}
