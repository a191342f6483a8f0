#include <catch2/catch.hpp>
#include <cstdlib>

#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Json = nlohmann::json;

TEST_CASE("the example's sheet adds up", "[sheet]") {
  const Ran ran = run_barwright("sheet " + towpath() + " --json");
  REQUIRE(ran.exit_code == 0);
  const Json sheet = Json::parse(ran.out);
  CHECK(sheet["command"] == "sheet");
  CHECK(sheet["status"] == "weighed");
  CHECK(sheet["bars"] == 22);
  // Two moulds of 300 x 80 x 48 mm at 0.985 g/mL, two samples of 25 g, 1 % left in the pot.
  const double body = (2 * 300 * 80 * 48 / 1000.0 * 0.985 + 50) / 0.99;
  CHECK(sheet["parts"][0]["recipe"]["total_grams"].get<double>() == Approx(body).margin(3));
  // 15 g a bar of 25 mm along 2 x 300 mm, 12 % left in the bag.
  const double topping = 2 * 300 / 25.0 * 15 / 0.88;
  CHECK(sheet["parts"][1]["recipe"]["total_grams"].get<double>() == Approx(topping).margin(3));
  const auto& pot = sheet["lye_pot"];
  const double making = pot["making_weight_grams"];
  CHECK(making ==
        Approx(pot["alkali"][0]["grams"].get<double>() + pot["water_grams"].get<double>()));
  double shared = pot["left_grams"];
  for (const auto& part : sheet["parts"]) {
    shared += part["lye_solution_grams"].get<double>();
    CHECK(part["check"]["worst_percent"].get<double>() >= 0);
    CHECK(part["check"]["superfat_percent"].get<double>() >= 5 - 1e-9);
  }
  CHECK(shared == Approx(making));
  // The list holds what the parts hold: coconut stands in both.
  for (const auto& line : sheet["list"]) {
    double sum = 0;
    for (const auto& part : line["parts"]) sum += part["grams"].get<double>();
    CHECK(line["grams"].get<double>() == Approx(sum));
    if (line["name"] == "coconut") CHECK(line["parts"].size() == 2);
  }
  // Scent: only in reed, 22 g per kg of the oils there, below its certificate.
  const auto& scent = sheet["parts"][0]["scents"][0];
  CHECK(scent["portions"].size() == 1);
  CHECK(scent["portions"][0]["in_bar_percent"].get<double>() <= 1.9);
  CHECK_FALSE(scent["capped"].get<bool>());
  const auto& clock = sheet["clock"];
  double before = 0;
  for (const auto& step : clock) {
    CHECK(step["minutes"].get<double>() >= before);
    before = step["minutes"];
  }
  CHECK(clock[0]["what"].get<std::string>().find("Goggles") == 0);
}

TEST_CASE("the sheet says what can hurt before anything is weighed", "[sheet]") {
  const Ran ran = run_barwright("sheet " + towpath());
  REQUIRE(ran.exit_code == 0);
  const auto weigh = ran.out.find("Weigh: body, oils");
  REQUIRE(weigh != std::string::npos);
  for (const char* text : {"Alkali INTO water, never water onto alkali", "No glass, no aluminium",
                           "fan, open window", "Headroom", "plenty of running water",
                           "poison centre or the", "goggles", "Making weight"}) {
    INFO(text);
    CHECK(ran.out.find(text) != std::string::npos);
    if (std::string(text) != "Making weight") CHECK(ran.out.find(text) < weigh);
  }
  CHECK(ran.out.find("LYE LEFT OVER") != std::string::npos);
  CHECK(ran.out.find("Practice: oils 80 to 90 F") != std::string::npos);
}

TEST_CASE("a scent over its certificate is capped, one without has a blank", "[sheet]") {
  const Ran capped = run_barwright("sheet --json " + changed("cap", "most-in-finished-bar: 1.9 %",
                                                             "most-in-finished-bar: 0.8 %"));
  REQUIRE(capped.exit_code == 0);
  const Json sheet = Json::parse(capped.out);
  const auto& scent = sheet["parts"][0]["scents"][0];
  CHECK(scent["capped"] == true);
  CHECK(scent["portions"][0]["in_bar_percent"].get<double>() <= 0.8);
  CHECK(scent["portions"][0]["in_bar_percent"].get<double>() > 0.75);
  const Ran asked = run_barwright("sheet " + changed("ask", ", most-in-finished-bar: 1.9 %", ""));
  CHECK(asked.exit_code == 0);
  CHECK(flat(asked.out).find("No certificate limit for wet stone and mint") != std::string::npos);
  CHECK(flat(asked.out).find("certificate allows ______ %") != std::string::npos);
}

TEST_CASE("what a batch file cannot say is pointed at", "[sheet]") {
  struct Case {
    std::string name, from, to, says;
  };
  const Case cases[] = {
      {"zero", "[300 mm, 80 mm, 70 mm]", "[300 mm, 0 cm, 70 mm]",
       ":10:52: '0 cm': a mould's side must be above zero"},
      {"shares", "share: 35 %", "share: 45 %",
       ":27:7: the colours' shares add to 110 %, 10 % too much"},
      {"method", "    method: creamed fats\n", "", ":37:3: the topping 'topping' has no method"},
      {"basis", "10 g per kg oils, when: at light", "10 g, when: at light",
       ":25:29: '10 g': for the whole"},
      {"lone", "    superfat: 6 %", "    superfat: 6 %\n    concentration: 30 %",
       "asks for a lye of its own"},
      {"ounces", "inside: [300 mm, 80 mm, 70 mm], fill-to: 48 mm", "volume: 40 oz", ":10:"}};
  for (const auto& one : cases) {
    const Ran ran = run_barwright("sheet " + changed(one.name, one.from, one.to));
    INFO(one.name << "\n" << ran.err);
    CHECK(ran.exit_code == 3);
    CHECK(ran.err.find(one.says) != std::string::npos);
    CHECK(ran.out.empty());
  }
}

TEST_CASE("the page stands alone and a browser shows it", "[sheet][browser]") {
  const std::string folder = fresh_folder("sheet-page");
  const std::string page = folder + "/towpath.html";
  REQUIRE(run_barwright("sheet " + towpath() + " --page " + page).exit_code == 0);
  const std::string html = slurp(page);
  CHECK(html.find("http") == std::string::npos);
  CHECK(html.find("src=") == std::string::npos);
  CHECK(html.find("fetch(") == std::string::npos);
  CHECK(html.find("break-inside: avoid") != std::string::npos);
  if (std::system("command -v chromium >/dev/null 2>&1") != 0) {
    FAIL("chromium is missing: install it with apt, as tests/run.sh does");
  }
  const std::string dom = folder + "/towpath.dom";
  const std::string command =
      "profile=$(mktemp -d) && timeout 120 chromium --headless --no-sandbox --disable-gpu "
      "--disable-quic --no-first-run --disable-background-networking --disable-component-update "
      "--disable-sync --user-data-dir=$profile --dump-dom file://" +
      page + " >" + dom + " 2>/dev/null; rm -rf $profile";
  REQUIRE(std::system(command.c_str()) == 0);
  const std::string shown = slurp(dom);
  for (const char* text :
       {"Alkali INTO water", "If lye touches you", "By the clock", "Weigh: lye pot, for all parts",
        "running total", "Colours: body", "Share out the lye", "Beside common practice"}) {
    INFO(text);
    CHECK(shown.find(text) != std::string::npos);
  }
}
