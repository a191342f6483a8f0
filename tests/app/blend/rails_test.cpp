// What the workbench's page draws from: drafts, reach, wishes with their places, ways out as edits,
// errors.
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

json answer(const std::string& words, const std::string& folder = BARWRIGHT_SOURCE_DIR,
            int exit_code = 0) {
  const Ran ran = run("barwright " + words + " --json", folder);
  INFO(words << "\n" << ran.out << ran.err);
  REQUIRE(ran.exit_code == exit_code);
  return json::parse(ran.out);
}

std::string yard(const std::string& name) {
  const std::string folder = fresh_folder(name);
  fs::copy(BARWRIGHT_SOURCE_DIR "/examples", folder, fs::copy_options::recursive);
  return folder;
}

}  // namespace

TEST_CASE("draft: the blend and what it is like, nothing weighed out") {
  const json full = answer("blend examples/firmer-bar.yaml");
  const json draft = answer("blend examples/firmer-bar.yaml --draft");
  CHECK(draft["mode"] == "draft");
  CHECK(full["mode"] == "full");
  for (const char* key : {"properties", "cost", "wishes", "superfat", "make", "oil_rules",
                          "brief_hash", "compared_with", "manners", "cautions"})
    CHECK(draft[key] == full[key]);
  CHECK_FALSE(draft.contains("recipe"));
  CHECK_FALSE(draft.contains("limits"));
  REQUIRE(draft["blend"].size() == full["blend"].size());
  for (std::size_t i = 0; i < draft["blend"].size(); ++i) {
    CHECK(draft["blend"][i]["percent"] == full["blend"][i]["percent"]);
    CHECK_FALSE(draft["blend"][i].contains("grams"));
  }
  CHECK(full["superfat"]["worst"] == full["recipe"]["superfat_low_percent"]);
  CHECK(full["make"]["say"] == "36 bars of 105 g, weighed cured");
  CHECK(answer("blend examples/too-hard.yaml --draft", BARWRIGHT_SOURCE_DIR, 4)["properties"]
            .size() == 13);
  for (const char* wrong : {"--draft", "--draft --reach --json", "--reach --json --save x.yaml",
                            "--draft --json --answers 2"})
    CHECK(run(std::string("barwright blend examples/firmer-bar.yaml ") + wrong).exit_code == 2);
}

TEST_CASE("every figure has its unit, its step and today's value") {
  const json full = answer("blend examples/firmer-bar.yaml");
  const json bar = answer("weigh examples/yard-bar.yaml");
  for (const auto& [name, one] : full["properties"].items()) {
    INFO(name);
    CHECK(one["unit"] == (name == "titre" ? "C" : "points"));
    CHECK(one["step"].get<double>() > 0);
    CHECK(one["today"].get<double>() ==
          Approx(bar["properties"][name]["value"].get<double>()).margin(0.2));
    const bool noticed = std::abs(one["difference"].get<double>()) >= one["step"].get<double>();
    CHECK((one["words"] == "too little to notice") == !noticed);
  }
  CHECK(full["properties"]["hardness"]["words"] == "firmer");
  const json& cost = full["cost"];
  CHECK(cost["unit"] == "EUR per kg of oils");
  CHECK(cost["value"] == cost["per_kg"]);
  CHECK(cost["difference"].get<double>() ==
        Approx(cost["value"].get<double>() - cost["today"].get<double>()));
  CHECK(cost["words"] == "cheaper");
}

TEST_CASE("reach: what is inside can be had, what is beyond cannot") {
  const std::string folder = yard("reach");
  const json reach = answer("blend firmer-bar.yaml --reach", folder);
  for (const char* name : {"hardness", "lather", "conditioning"}) {
    const json& one = reach["properties"][name]["reach"];
    INFO(name << " " << one.dump());
    REQUIRE(one["high_proved"] == true);
    REQUIRE(one["low_proved"] == true);
    const double low = one["low"], high = one["high"];
    CHECK(low <= reach["properties"][name]["difference"].get<double>() + 0.1);
    CHECK(high >= reach["properties"][name]["difference"].get<double>() - 0.1);
    const auto wished = [&](double least) {
      const std::string brief = fresh_folder("reach-brief");
      fs::copy(folder, brief, fs::copy_options::recursive | fs::copy_options::overwrite_existing);
      char value[64];
      std::snprintf(value, sizeof value, "at least %.2f %s", std::abs(least),
                    least < 0 ? "below" : "above");
      const std::string phrase =
          least < 0 ? "no more than" + std::string(value).substr(8) : std::string(value);
      REQUIRE(run("barwright edit firmer-bar.yaml want." + std::string(name) + " '" + phrase + "'",
                  brief)
                  .exit_code == 0);
      return run("barwright blend firmer-bar.yaml --draft --json", brief).exit_code;
    };
    CHECK(wished(high - 0.3) == 0);
    CHECK(wished(high + 0.3) == 4);
  }
  CHECK(reach["properties"]["soluble-20"]["reach"]["low"].is_null());
  CHECK_FALSE(reach["properties"]["titre"].contains("reach"));
  CHECK(reach["cost"]["reach"]["low"].get<double>() < 0);
}

TEST_CASE("wishes say where they stand, and the marks follow the files") {
  const std::string folder = yard("places");
  const json full = answer("blend firmer-bar.yaml", folder);
  REQUIRE(full["wishes"].size() == 4);
  CHECK(full["wishes"][0]["path"] == "want.hardness");
  CHECK(full["wishes"][0]["property"] == "hardness");
  CHECK(full["wishes"][0]["low"] == 5);
  CHECK(full["oil_rules"][0] == json({{"oil", "castor"},
                                      {"least", 3.0},
                                      {"most", 8.0},
                                      {"file", "firmer-bar.yaml"},
                                      {"path", "limits.castor"}}));
  CHECK(full["limits"][0]["path"].get<std::string>().rfind("want.", 0) == 0);
  const auto mark = [&] {
    return answer("blend firmer-bar.yaml --draft", folder)["brief_hash"].get<std::string>();
  };
  std::string last = mark();
  CHECK(last == full["brief_hash"]);
  for (const char* file : {"firmer-bar.yaml", "weighbridge-shelf.yaml", "yard-bar.yaml"}) {
    spill(folder + "/" + file, slurp(folder + "/" + file) + "# more\n");
    INFO(file);
    CHECK(mark() != last);
    last = mark();
  }
  spill(folder + "/towpath-batch.yaml", "no part of it\n");
  CHECK(mark() == last);
}

TEST_CASE("ways out and purchases are edits, and open what they promise") {
  const std::string folder = yard("edits");
  const json no = answer("blend too-hard.yaml", folder, 4);
  CHECK(no["conflict"]["wishes"][0]["property"] == "hardness");
  REQUIRE(no["ways_out"].size() >= 2);
  REQUIRE(no["purchases"].size() >= 1);
  const std::string before = slurp(folder + "/too-hard.yaml");
  for (const char* list : {"ways_out", "purchases"})
    for (const auto& way : no[list]) {
      INFO(way.dump());
      CHECK_FALSE(way["say"].get<std::string>().empty());
      REQUIRE(way["edits"].size() >= 1);
      for (const auto& edit : way["edits"])
        REQUIRE(run("barwright edit '" + edit["file"].get<std::string>() + "' '" +
                        edit["path"].get<std::string>() + "' '" + edit["value"].get<std::string>() +
                        "'",
                    folder)
                    .exit_code == 0);
      // What is bought has no price yet, so a brief for the cheapest would refuse it.
      CHECK(run("barwright blend too-hard.yaml", folder).exit_code == 0);
      spill(folder + "/too-hard.yaml", before);
    }
}

TEST_CASE("errors are objects with place, path and names that may have been meant") {
  const std::string folder = yard("errors");
  const auto of = [&](const std::string& words, int code = 3) {
    return answer(words, folder, code)["errors"][0];
  };
  spill(folder + "/slip.yaml", "brief: slip\nmake: {oils: 1 kg}\noils-from: [olvie]\n");
  const json slip = of("blend slip.yaml");
  CHECK(slip["file"] == "slip.yaml");
  CHECK(slip["line"] == 3);
  CHECK(slip["path"] == "oils-from");
  CHECK(slip["suggestions"] == json::array({"olive"}));
  spill(folder + "/slips.yaml",
        "brief: slips\nmake: {oils: 1}\noils-from: [olvie]\nbest: mots lather\n"
        "limits: {tallow: {most: 5 %}}\n");
  const json slips = answer("blend slips.yaml", folder, 3)["errors"];
  REQUIRE(slips.size() == 4);
  CHECK(slips[0]["line"] == 2);
  CHECK(slips[1]["suggestions"] == json::array({"olive"}));
  CHECK(slips[2]["suggestions"] == json::array({"most"}));
  CHECK(slips[3]["suggestions"] == json::array({"beef tallow", "mutton tallow"}));
  const json lost = of("blend nowhere.yaml");
  CHECK(lost["file"] == "nowhere.yaml");
  CHECK(lost["line"].is_null());
  CHECK(lost["message"] == "there is no such file");
  CHECK(of("blend", 2)["file"].is_null());
  const json oils = answer("oils");
  CHECK(oils["synonyms"].size() == oils["oils"].size());
}

TEST_CASE("cautions have a severity, dangers first") {
  const json full = answer("blend examples/firmer-bar.yaml");
  CHECK(full["schema"] == 2);
  REQUIRE(full["cautions"].size() >= 2);
  CHECK(full["cautions"][0]["severity"] == "danger");
  for (const auto& one : full["cautions"]) {
    const std::string severity = one["severity"];
    CHECK((severity == "danger" || severity == "warning" || severity == "note"));
    CHECK_FALSE(one["say"].get<std::string>().empty());
  }
}
