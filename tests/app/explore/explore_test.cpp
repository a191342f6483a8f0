#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Json = nlohmann::json;

TEST_CASE("a new line priced before buying, as JSON, CSV and a page", "[explore]") {
  const std::string folder = fresh_folder("explore");
  const Ran ran =
      run("barwright explore examples/spring-line.yaml --json --page " + folder + "/look.html");
  REQUIRE(ran.exit_code == 0);
  const Json out = Json::parse(ran.out);
  CHECK(out["schema"] == 1);
  CHECK(out["command"] == "explore");
  CHECK(out["status"] == "optimal");
  const Json& plan = out["plan"];
  CHECK(plan["cash"].get<double>() <= 150);
  CHECK(plan["order_by"].is_string());
  double goods = 0;
  for (const auto& buy : plan["buys"]) {
    goods += buy["count"].get<double>() * buy["pack_price"].get<double>();
  }
  CHECK(goods == Approx(plan["goods"].get<double>()));
  REQUIRE(out["bars"].size() == 2);
  for (const auto& bar : out["bars"]) {
    const Json& points = bar["curve"]["points"];
    CHECK(bar["curve"]["proved"] == true);
    REQUIRE(points.size() == 9);
    for (std::size_t i = 1; i < points.size(); ++i) {
      CHECK(points[i]["cost_per_kg"].get<double>() <=
            points[i - 1]["cost_per_kg"].get<double>() + 1e-9);
      CHECK(points[i]["feel_steps"].get<double>() >=
            points[i - 1]["feel_steps"].get<double>() - 1e-6);
    }
    for (const auto& room : bar["price_may_rise_to"]) {
      if (room["turns_per_kg"].is_null()) continue;
      CHECK(room["turns_per_kg"].get<double>() >= room["now_per_kg"].get<double>() - 1e-6);
    }
    for (const auto& worth : bar["worth"]) {
      if (worth["turns_per_kg"].is_null()) continue;
      CHECK(worth["turns_per_kg"].get<double>() <= worth["now_per_kg"].get<double>() + 1e-6);
    }
  }
  const std::string page = slurp(folder + "/look.html");
  CHECK(page.find("<svg") != std::string::npos);
  CHECK(page.find("http") == std::string::npos);
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("@page") != std::string::npos);
  const Ran csv = run("barwright explore examples/spring-line.yaml --csv");
  CHECK(csv.exit_code == 0);
  CHECK(csv.out.rfind("what,bar,oil,figure,unit\n", 0) == 0);
}

namespace {

// What a maker would look at in any blend of a look around: few oils, round shares, no dabs.
std::string odd_in(const Json& blend, double step) {
  std::string out;
  if (blend.size() > 6) out += "more than 6 oils; ";
  for (const auto& part : blend) {
    const double percent = part["percent"];
    const std::string oil = part["oil"];
    const double whole = percent / step;
    if (std::abs(whole - std::round(whole)) > 1e-6) out += oil + " stands in no round share; ";
    if (percent < 5 - 1e-9 && oil != "castor") out += oil + " is a dab; ";
    if (oil.find("tallow") != std::string::npos || oil == "lard") out += oil + " came in; ";
  }
  return out;
}

double step_of(const Json& bar) {
  for (const auto& manner : bar["manners"])
    if (manner["name"] == "round shares")
      return std::stod(manner["rule"].get<std::string>().substr(10));
  return 0;
}

}  // namespace

TEST_CASE("a look around keeps the manners in its blends, curves and plan", "[explore][manners]") {
  const std::string folder = fresh_folder("explore-manners");
  for (const char* file : {"spring-line-prices.csv", "weighbridge-shelf.yaml", "yard-bar.yaml"})
    spill(folder + "/" + file, slurp(std::string(BARWRIGHT_SOURCE_DIR "/examples/") + file));
  std::string brief = slurp(BARWRIGHT_SOURCE_DIR "/examples/spring-line.yaml");
  // Without the range's own count of oils and its "not", so that the manners alone hold.
  const auto drop = [&](const std::string& start) {
    const std::size_t at = brief.find("\n" + start);
    REQUIRE(at != std::string::npos);
    brief.erase(at, brief.find('\n', at + 1) - at);
  };
  drop("whole-range:");
  drop("not:");
  spill(folder + "/kept.yaml", brief);
  const Json out = Json::parse(run("barwright explore kept.yaml --json", folder).out);
  REQUIRE(out["plan"]["found"] == true);
  double finest = 100;
  for (const auto& bar : out["bars"]) {
    REQUIRE(bar["manners"].size() > 8);
    for (const auto& one : bar["manners"])
      for (const char* key : {"rule", "reason", "mark", "state"}) CHECK(one[key] != "");
    const double step = step_of(bar);
    REQUIRE(step > 0);
    finest = std::min(finest, step);
    CHECK(odd_in(bar["blend"], step) == "");
    for (const auto& other : bar["alternatives"]) CHECK(odd_in(other["blend"], step) == "");
    REQUIRE(bar["curve"]["points"].size() > 2);
    for (const auto& point : bar["curve"]["points"]) CHECK(odd_in(point["blend"], step) == "");
  }
  for (const auto& one : out["plan"]["blends"]) CHECK(odd_in(one["blend"], finest) == "");
  const Ran text = run("barwright explore kept.yaml", folder);
  CHECK(text.out.find("Manners kept unasked, here and in the plan") != std::string::npos);
  CHECK(text.out.find("round shares") != std::string::npos);
  // The first of the different blends is the answer itself.
  for (const auto& bar : out["bars"]) {
    std::string words;
    for (const auto& part : bar["blend"])
      if (part["percent"].get<double>() >= 25) words += part["oil"].get<std::string>() + ";";
    CHECK_FALSE(words.empty());
  }
}

TEST_CASE("a look around without manners is the free one", "[explore][manners]") {
  const std::string folder = fresh_folder("explore-free");
  for (const char* file : {"spring-line-prices.csv", "weighbridge-shelf.yaml", "yard-bar.yaml"})
    spill(folder + "/" + file, slurp(std::string(BARWRIGHT_SOURCE_DIR "/examples/") + file));
  spill(folder + "/free.yaml",
        slurp(BARWRIGHT_SOURCE_DIR "/examples/spring-line.yaml") + "manners: none\n");
  const Json out = Json::parse(run("barwright explore free.yaml --json", folder).out);
  for (const auto& bar : out["bars"]) {
    CHECK(bar["manners"].empty());
    bool fine = false;  // not in round shares
    for (const auto& part : bar["blend"])
      fine = fine || std::fmod(part["percent"].get<double>(), 5) > 1e-6;
    CHECK(fine);
  }
}

TEST_CASE("a purse too small for the range is a proof, exit 4", "[explore]") {
  const std::string folder = fresh_folder("explore-poor");
  for (const char* file : {"spring-line-prices.csv", "weighbridge-shelf.yaml", "yard-bar.yaml"}) {
    spill(folder + "/" + file, slurp(std::string(BARWRIGHT_SOURCE_DIR "/examples/") + file));
  }
  std::string brief = slurp(BARWRIGHT_SOURCE_DIR "/examples/spring-line.yaml");
  const auto at = brief.find("at most 150 EUR");
  REQUIRE(at != std::string::npos);
  brief.replace(at, 15, "at most 20 EUR");
  spill(folder + "/poor.yaml", brief);
  const Ran ran = run("barwright explore poor.yaml", folder);
  CHECK(ran.exit_code == 4);
  CHECK(ran.out.find("Proved: no purchase") != std::string::npos);
}

TEST_CASE("a curve of any two, every point proved, in text, JSON, CSV and the page", "[explore]") {
  const std::string folder = fresh_folder("explore-curve");
  const std::string command =
      "barwright explore examples/spring-line.yaml --points 5 --curve 'cost against hardness'";
  const Ran ran =
      run(command + " --curve 'lather against feel' --json --page " + folder + "/p.html");
  REQUIRE(ran.exit_code == 0);
  const Json all = Json::parse(ran.out);
  for (const auto& bar : all["bars"]) {
    REQUIRE(bar["curves"].size() == 2);
    for (const auto& curve : bar["curves"]) {
      CHECK(curve["proved"] == true);
      REQUIRE(curve["points"].size() == 5);
    }
    const Json& points = bar["curves"][0]["points"];
    for (std::size_t i = 1; i < points.size(); ++i) {  // harder costs more
      CHECK(points[i]["up"].get<double>() >= points[i - 1]["up"].get<double>() - 1e-9);
      CHECK(points[i]["across"].get<double>() >= points[i - 1]["across"].get<double>() - 1e-9);
    }
    CHECK(points[4]["across"].get<double>() > points[0]["across"].get<double>() + 1);
  }
  const std::string page = slurp(folder + "/p.html");
  CHECK(page.find("aria-label=\"cost against hardness\"") != std::string::npos);
  CHECK(page.find("differs by") != std::string::npos);
  CHECK(run(command).out.find("cost against hardness:") != std::string::npos);
  const std::string csv = run(command + " --csv").out;
  CHECK(csv.find("cost against hardness 5,") != std::string::npos);
  CHECK(csv.find("another 1,") != std::string::npos);
  CHECK(run("barwright explore examples/spring-line.yaml --curve 'cost against titre'").exit_code ==
        2);
}
