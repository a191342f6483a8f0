// What a brief comes to when its wishes are kept for more lots than typical ones.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "running.hpp"
#include "targets/model/words.hpp"

using namespace barwright::tests;
using Json = nlohmann::json;

namespace {

std::string with_examples(const std::string& name) {
  const std::string folder = fresh_folder(name);
  for (const char* file :
       {"spring-line-prices.csv", "spring-line.yaml", "butter-out.yaml", "butter-out-stock.yaml",
        "fireside-bar.yaml", "weighbridge-shelf.yaml", "yard-bar.yaml"}) {
    spill(folder + "/" + file, slurp(std::string(BARWRIGHT_SOURCE_DIR "/examples/") + file));
  }
  return folder;
}

// An example with one more line at its top level.
void add_line(const std::string& folder, const std::string& file, const std::string& line) {
  spill(folder + "/" + file, slurp(folder + "/" + file) + line + "\n");
}

const Json& level(const Json& bar, const std::string& name) {
  for (const auto& one : bar["sureness"]["levels"]) {
    if (one["level"] == name) return one;
  }
  FAIL("no level " + name);
  return bar;
}

// What a level comes to is what a brief that asks for it finds.
void check_level(const std::string& name, double cost) {
  const std::string folder = with_examples("sure-check");
  add_line(folder, "spring-line.yaml", "sureness: " + name);
  const Json out = Json::parse(run("barwright explore spring-line.yaml --json", folder).out);
  const Json& face = out["bars"][1];
  CHECK(level(face, name)["asked"] == true);
  CHECK(level(face, name)["cost_per_kg"].get<double>() == Approx(cost));
}

}  // namespace

TEST_CASE("explore tells what sureness costs, level by level", "[explore][sureness]") {
  const Ran ran = run("barwright explore examples/spring-line.yaml --json");
  REQUIRE(ran.exit_code == 0);
  const Json out = Json::parse(ran.out);
  for (const auto& bar : out["bars"]) {
    const Json& levels = bar["sureness"]["levels"];
    REQUIRE(levels.size() == 6);
    CHECK(level(bar, "typical")["asked"] == true);
    // More lots never make the best cheaper: what is proved of one level bounds the next.
    for (std::size_t k = 1; k < levels.size(); ++k) {
      const Json &less = levels[k - 1], &more = levels[k];
      if (more["cost_per_kg"].is_null()) {
        CHECK((more["status"] == "infeasible" || more["status"] == "undecided"));
        continue;
      }
      if (less["cost_per_kg"].is_null()) {
        CHECK(less["status"] == "undecided");
        continue;
      }
      if (less["open"].is_null()) continue;  // nothing of it is proved
      // Nor where manners have to give way for it: that is another question.
      if (more["manners_gave_way"] != less["manners_gave_way"]) continue;
      CHECK(more["cost_per_kg"].get<double>() >=
            less["cost_per_kg"].get<double>() - less["open"].get<double>() - 1e-9);
    }
  }
  CHECK(level(out["bars"][0], "worst-case")["status"] == "infeasible");
  check_level("worst-case", level(out["bars"][1], "worst-case")["cost_per_kg"]);
  check_level("likely 90 %", level(out["bars"][1], "likely 90 %")["cost_per_kg"]);
}

TEST_CASE("a plan of sure wishes is dearer, or none, and never a blend that breaks them",
          "[explore][sureness]") {
  const std::string folder = with_examples("sure-plan");
  const Json typical = Json::parse(run("barwright explore spring-line.yaml --json", folder).out);
  add_line(folder, "spring-line.yaml", "sureness: likely 90 %");
  const Ran ran = run("barwright explore spring-line.yaml --json", folder);
  CHECK(ran.exit_code == 0);
  const Json out = Json::parse(ran.out);
  REQUIRE(out["plan"]["found"] == true);
  CHECK(out["plan"]["cash"].get<double>() >= typical["plan"]["cash"].get<double>() - 1e-9);
  // Each bar of the plan, pinned to its blend and weighed by itself, keeps what it is wished.
  const std::string wishes[] = {
      "compared-with: yard-bar.yaml\nwant: {hardness: no more than 30 below, lather: no more than "
      "30 below, conditioning: no more than 30 below}\n",
      "compared-with: all-olive\nwant: {mildness: no more than 30 below, lather: no more than 30 "
      "below}\n"};
  for (std::size_t b = 0; b < 2; ++b) {
    std::string limits;
    for (const auto& part : out["plan"]["blends"][b]["blend"]) {
      limits += (limits.empty() ? "limits: {" : ", ") + part["oil"].get<std::string>() +
                ": exactly " + std::to_string(part["percent"].get<int>()) + " %";
    }
    spill(folder + "/one.yaml",
          "brief: one\noils-from: [shelf, babassu]\nshelf: weighbridge-shelf.yaml\nsureness: "
          "likely 90 %\nmake: {bars: 36, each: 100 g, weighed: cut}\n" +
              wishes[b] + limits + "}\n");
    INFO(limits);
    const Json alone = Json::parse(run("barwright blend one.yaml --json", folder).out);
    int seen = 0;
    for (const auto& wish : alone["wishes"]) {
      const std::string words = wish["wish"];
      const auto property = barwright::targets::find_property(words.substr(0, words.find(':')));
      if (!property) continue;
      INFO(words);
      const double step = barwright::targets::noticeable(*property);
      CHECK(wish["value"].get<double>() >= (words.starts_with("lather") ? step : -step) - 1e-6);
      ++seen;
    }
    CHECK(seen == (b == 0 ? 3 : 2));
  }
  add_line(folder, "spring-line.yaml", "#");
  std::string worst = slurp(folder + "/spring-line.yaml");
  worst.replace(worst.find("likely 90 %"), 11, "worst-case");
  spill(folder + "/spring-line.yaml", worst);
  const Ran none = run("barwright explore spring-line.yaml", folder);
  CHECK(none.exit_code == 4);
  CHECK(none.out.find("No blend: proved that every one breaks a wish or a limit.") !=
        std::string::npos);
  CHECK(none.out.find("nothing fits, as asked") != std::string::npos);
}

TEST_CASE("another goal than the cost is told at typical lots, wishes for typical lots stay so",
          "[explore][sureness]") {
  const std::string folder = with_examples("sure-goal");
  spill(folder + "/goal.yaml",
        "brief: a harder bar\noils-from: spring-line-prices.csv\nalready-have: shelf\n"
        "shelf: weighbridge-shelf.yaml\nwant:\n  - for: harder bar\n"
        "    compared-with: yard-bar.yaml\n    lather: no less, likely 90 %\n"
        "    soluble-38: at least 5, typical\n    best: most hardness\n"
        "not: [tag animal, tag palm]\n");
  const Json out = Json::parse(run("barwright explore goal.yaml --json", folder).out);
  const Json& price = out["bars"][0]["sureness"];
  CHECK(price["goal"] == "most hardness");
  CHECK(price["unit"] == "points");
  CHECK(price["levels"].size() == 7);  // the brief as it stands is a level of its own
  CHECK(level(out["bars"][0], "likely 99 %")["goal"].get<double>() <
        level(out["bars"][0], "typical")["goal"].get<double>() - 1);
  const Ran text = run("barwright explore goal.yaml", folder);
  CHECK(text.out.find("each as it says") != std::string::npos);
  CHECK(text.out.find("(most hardness)") != std::string::npos);
}

TEST_CASE("a swap says for which lots it keeps what", "[swap][sureness]") {
  const std::string folder = with_examples("sure-swap");
  CHECK(run("barwright swap butter-out.yaml", folder).out.find("lots in 100") == std::string::npos);
  add_line(folder, "butter-out.yaml", "sureness: likely 90 %");
  const Ran ran = run("barwright swap butter-out.yaml", folder);
  CHECK(ran.exit_code == 0);
  CHECK(ran.out.find("Wishes count for 90 lots in 100; how the bar feels") != std::string::npos);
  const Json out = Json::parse(run("barwright swap butter-out.yaml --json", folder).out);
  int sure = 0;
  for (const auto& wish : out["wishes"]) {
    const std::string words = wish["wish"];
    const bool lots = words.starts_with("thickens") || words.starts_with("cut-by") ||
                      words.starts_with("unsaponified");
    INFO(words);
    CHECK(wish["level"] == (lots ? "likely 90 %" : "typical"));
    sure += lots;
  }
  CHECK(sure == 3);
  std::string free = slurp(folder + "/butter-out.yaml");
  const auto bench = free.find("  bench:");
  free.erase(bench, free.find("save:") - bench);
  spill(folder + "/butter-out.yaml", free);
  CHECK(run("barwright swap butter-out.yaml", folder).out.find("'sureness' changes nothing here") !=
        std::string::npos);
}
