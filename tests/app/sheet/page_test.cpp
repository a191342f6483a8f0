// The page of a sheet on paper and under a finger, looked at in chromium.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <regex>

#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Catch::Contains;

namespace {

std::string fixture(const std::string& name) {
  return std::string(BARWRIGHT_SOURCE_DIR) + "/tests/app/fixtures/" + name + "-batch.yaml";
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

void chromium(const std::string& profile, const std::string& rest) {
  if (std::system("command -v chromium >/dev/null 2>&1") != 0) {
    FAIL("chromium is missing: install it with apt, as tests/run.sh does");
  }
  const std::string command =
      "timeout 120 chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run "
      "--disable-background-networking --disable-component-update --disable-sync --user-data-dir=" +
      profile + " " + rest + " 2>/dev/null";
  REQUIRE(std::system(command.c_str()) == 0);
}

/// How many sheets of this paper a page prints on.
int printed(const std::string& folder, const std::string& html, const std::string& paper) {
  spill(folder + "/print.html",
        replaced(html, "@page { margin", "@page { size: " + paper + "; margin"));
  chromium(folder + "/profile", "--no-pdf-header-footer --print-to-pdf=" + folder +
                                    "/print.pdf file://" + folder + "/print.html >/dev/null");
  const std::string pdf = slurp(folder + "/print.pdf");
  const std::regex page("/Type */Page[^s]");
  return static_cast<int>(
      std::distance(std::sregex_iterator(pdf.begin(), pdf.end(), page), std::sregex_iterator()));
}

/// The page's DOM after a script ran in it, in a browser that keeps what it is told.
std::string touched(const std::string& folder, const std::string& html, const std::string& script) {
  spill(folder + "/touch.html",
        replaced(html, "</body>", "<script>" + script + "</script></body>"));
  chromium(folder + "/profile",
           "--dump-dom file://" + folder + "/touch.html >" + folder + "/touch.dom");
  return slurp(folder + "/touch.dom");
}

}  // namespace

TEST_CASE("a common batch prints on two sides of A4 and of Letter", "[sheet][page][browser]") {
  const std::string folder = fresh_folder("sheet-print");
  for (const char* name : {"milk", "salt"}) {
    INFO(name);
    REQUIRE(run_barwright("sheet " + fixture(name) + " --page " + folder + "/" + name + ".html")
                .exit_code == 0);
    const std::string html = slurp(folder + "/" + name + ".html");
    for (const char* paper : {"A4", "Letter"}) {
      INFO(paper);
      CHECK(printed(folder, html, paper) == 2);
    }
  }
}

TEST_CASE("nothing of the page is printed below 11 pt, and it has room to write", "[sheet][page]") {
  const std::string folder = fresh_folder("sheet-size");
  REQUIRE(run_barwright("sheet " + fixture("milk") + " --page " + folder + "/p.html").exit_code ==
          0);
  const std::string html = slurp(folder + "/p.html");
  const std::regex size("font(?:-size)?: *([0-9.]+)(pt|px|em|%|rem)");
  for (auto at = std::sregex_iterator(html.begin(), html.end(), size); at != std::sregex_iterator();
       ++at) {
    CHECK((*at)[2] == "pt");
    CHECK(std::stod((*at)[1]) >= 11);
  }
  for (const char* text : {">weighed<", ">lot<", ">time<", ">C<", "trace<br>", "poured<br>",
                           "gel<br>", "unmould<br>", "cut<br>", "notes"}) {
    INFO(text);
    CHECK_THAT(html, Contains(text));
  }
  CHECK(html.find("Alkali INTO water") < html.find("<th>Weigh"));
  CHECK(html.find("No certificate limit") < html.find("<th>Weigh"));
}

TEST_CASE("a recipe that changed is another sheet, and said to be", "[sheet][page]") {
  const std::string folder = fresh_folder("sheet-again");
  const std::string page = " --page " + folder + "/p.html";
  const std::string batch = folder + "/b.yaml";
  spill(batch, small_batch("    superfat: 5 %\n"));
  CHECK_THAT(run_barwright("sheet " + batch + page).err, !Contains("changed"));
  CHECK_THAT(run_barwright("sheet " + batch + page).err, !Contains("changed"));
  spill(batch, small_batch("    superfat: 6 %\n"));
  CHECK_THAT(run_barwright("sheet " + batch + page).err,
             Contains("The recipe changed since sheet "));
}

TEST_CASE("the page ticks, undoes each tick, and keeps them", "[sheet][page][browser]") {
  const std::string folder = fresh_folder("sheet-tick");
  REQUIRE(run_barwright("sheet " + fixture("milk") + " --page " + folder + "/p.html").exit_code ==
          0);
  const std::string html = slurp(folder + "/p.html");
  const std::string tell =
      "document.title = ['c0','c1','c3','w0-0','w0-1'].map((id) => document.querySelector('#' + id "
      "+ "
      "' button').getAttribute('aria-pressed')).join(' ') + '|' + "
      "document.querySelector('.sum').textContent + '|' + document.querySelector('#next "
      "button').textContent + '|' + (document.querySelector('#c0 button').offsetHeight >= 48);";
  const std::string tap =
      "const tap = (id) => document.querySelector('#' + id + ' button').click();";
  // The fourth step makes the lye: its box does not tick it.
  CHECK_THAT(
      touched(folder, html, tap + "tap('c3');tap('c0');tap('w0-0');tap('w0-1');" + tell),
      Contains("<title>true false false true true| In the pot by your ticks: 653 g.|Done|true"));
  // The lid was closed; then one tick is undone, and no other.
  CHECK_THAT(touched(folder, html, tap + "tap('w0-0');" + tell),
             Contains("<title>true false false false true| In the pot by your ticks: 218 g.|Done"));
  CHECK_THAT(touched(folder, html,
                     tap +
                         "tap('c1');tap('c2');const press = document.querySelector('#next "
                         "button');const said = press.textContent;press.click();" +
                         tell + "document.title += '|' + said;"),
             Contains("<title>true true true false true") &&
                 Contains("|Goggles on, water is in: alkali INTO water"));
  // A changed recipe has ticks of its own and says what was begun.
  const auto at = html.find("data-sheet=\"") + 12;
  const std::string other =
      replaced(html, html.substr(at, 8) + "\" data-batch", "other\" data-batch");
  CHECK_THAT(touched(folder, other, tell), Contains("<title>false false false false false"));
  CHECK_THAT(touched(folder, other, tell), Contains("The recipe changed since sheet"));
}

TEST_CASE("a missed step says how late it is", "[sheet][page][browser]") {
  const std::string folder = fresh_folder("sheet-late");
  REQUIRE(run_barwright("sheet " + fixture("milk") + " --page " + folder + "/p.html").exit_code ==
          0);
  const std::string html = slurp(folder + "/p.html");
  // Ticked two hours ago: the second step was due ten minutes after.
  const std::string early =
      replaced(html, "<script>",
               "<script>localStorage.setItem('barwright-sheet-' + document.body.dataset.sheet, "
               "JSON.stringify([{id: 'c0', at: Date.now() - 7200000}]));</script><script>");
  const std::string dom = touched(folder, early, "");
  CHECK_THAT(dom, Contains("was due ") && Contains(", late by 1 h 50 min"));
  CHECK_THAT(dom, Contains("<span class=\"at\"> late by 1 h 50 min</span>"));
  CHECK_THAT(dom, Contains("<span class=\"at\"> due "));  // the cut, days from here
}

TEST_CASE("the running total of ticks counts pounds and ounces", "[sheet][page][browser]") {
  const std::string folder = fresh_folder("sheet-tick-ounces");
  REQUIRE(run_barwright("sheet examples/towpath-batch.yaml --units oz --page " + folder + "/p.html")
              .exit_code == 0);
  // 1 lb 15.18 oz, 14.18 oz, 6.81 oz and 4.13 oz come to 56.30 oz.
  CHECK_THAT(touched(folder, slurp(folder + "/p.html"),
                     "for (const row of [...document.querySelectorAll('tr.line')].slice(0, 4)) "
                     "row.querySelector('button').click(); document.title = "
                     "document.querySelector('.sum').textContent;"),
             Contains("<title> In the pot by your ticks: 3 lb 8.30 oz.</title>"));
}

TEST_CASE("what is typed and ticked on the page comes out as the file 'make' takes",
          "[sheet][page][browser][written]") {
  const std::string folder = fresh_folder("sheet-typed");
  std::filesystem::copy(BARWRIGHT_SOURCE_DIR "/examples/weighbridge-shelf.yaml",
                        folder + "/yard-shelf.yaml");
  spill(folder + "/towpath-batch.yaml", "shelf: yard-shelf.yaml\n" + slurp(towpath()));
  REQUIRE(run("barwright sheet towpath-batch.yaml --page p.html", folder).exit_code == 0);
  const std::string html = slurp(folder + "/p.html");
  const std::string set =
      "const set = (name, value) => { const input = document.querySelector('[data-name=\"' + name "
      "+ '\"]'); input.value = value; input.dispatchEvent(new Event('input')); };";
  touched(folder, html,
          set +
              "set('weighed body/yard mix', '880'); set('weighed lye pot/water', '532.5 g');"
              "set('lots topping/coconut', 'MB-2304'); set('warm 7', '60'); set('time 7', '09:55');"
              "set('happened body/trace', '10:35'); set('happened body/trace warm', '35');"
              "set('happened topping/gel', 'mid'); set('happened body/cut', '2027-03-21T14:00');"
              "set('bars', '21'); set('happened body/each', '96');"
              "set('notes', 'cold \"room\": yes\\n# second');"
              "document.querySelector('#w0-0 button').click();");
  // The lid was closed between; the fields hold what was typed.
  const std::string dom = touched(folder, html,
                                  "document.querySelectorAll('#save button')[1].click();"
                                  "document.title = [...document.querySelectorAll('input')]"
                                  ".filter((input) => input.offsetHeight < 24).length;");
  CHECK_THAT(dom, Contains("<title>0</title>"));
  const auto from = dom.find("written: \"towpath");
  REQUIRE(from != std::string::npos);
  const std::string text = dom.substr(from, dom.find("</pre>", from) - from);
  INFO(text);
  CHECK_THAT(text, Contains("written: \"towpath\"\n") && Contains("bars: 21\n") &&
                       Contains("  \"body/yard mix\": \"880 g\"\n") &&
                       Contains("  \"lye pot/water\": \"532.5 g\"\n") &&
                       Contains("  \"7\": \"09:55, 60 C\"\n") &&
                       Contains("  \"body/trace\": \"10:35, 35 C\"\n") &&
                       Contains("  \"body/each\": \"96 g\"\n") && Contains("not-ticked:\n"));
  spill(folder + "/w.yaml", text);
  const Ran made =
      run("barwright make towpath-batch.yaml --written w.yaml --date 2027-03-20", folder);
  INFO(made.err);
  CHECK(made.exit_code == 0);
  const std::string out = flat(made.out);
  CHECK_THAT(out, Contains("olive lot MB-2291 616 g (sheet: 618.8 g)") && Contains("by sheet 1,") &&
                      Contains("step 7, Make the lye: at 9:55, 60 C") &&
                      Contains("topping: gel in the middle") &&
                      Contains("body: cut 2027-03-21 at 14:00") && Contains("cold \"room\": yes") &&
                      Contains("# second") && Contains("21 bars cut") &&
                      Contains("not ticked on the sheet: body/coconut"));
}

TEST_CASE("the screen is kept awake where the browser allows, and asked again after the lid",
          "[sheet][page][browser]") {
  const std::string folder = fresh_folder("sheet-awake");
  REQUIRE(run_barwright("sheet " + fixture("milk") + " --page " + folder + "/p.html").exit_code ==
          0);
  const std::string html = slurp(folder + "/p.html");
  const std::string asked =
      replaced(html, "<script>",
               "<script>let asked = 0; Object.defineProperty(navigator, 'wakeLock', {value: "
               "{request: (what) => { asked += what === 'screen' ? 1 : 100; return "
               "Promise.reject(new Error('no')); }}});</script><script>");
  CHECK_THAT(touched(folder, asked,
                     "document.dispatchEvent(new Event('visibilitychange'));"
                     "document.title = asked;"),
             Contains("<title>2</title>"));
  // A browser without it ticks all the same.
  const std::string none = replaced(
      html, "<script>",
      "<script>Object.defineProperty(navigator, 'wakeLock', {value: undefined});</script><script>");
  CHECK_THAT(touched(folder, none,
                     "document.querySelector('#w0-0 button').click(); document.title = "
                     "document.querySelector('.sum').textContent;"),
             Contains("<title> In the pot by your ticks: 435 g."));
}
