// What was written on a bench sheet, typed back with one command.
#include <filesystem>

#include "tests/app/sheet/sheet_testing.hpp"

using namespace barwright::tests;
using Catch::Contains;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

/// The invented batch of two parts with its shelf beside it.
std::string yard(const std::string& name) {
  const std::string folder = fresh_folder("written-" + name);
  fs::copy(BARWRIGHT_SOURCE_DIR "/examples/weighbridge-shelf.yaml", folder + "/yard-shelf.yaml");
  spill(folder + "/towpath-batch.yaml", "shelf: yard-shelf.yaml\n" + slurp(towpath()));
  return folder;
}

std::string make_in(const std::string& folder, const std::string& options) {
  const Ran ran = run("barwright make towpath-batch.yaml --date 2027-03-20 " + options, folder);
  INFO(ran.err);
  CHECK(ran.exit_code == 0);
  return flat(ran.out);
}

std::string refused_in(const std::string& folder, const std::string& options) {
  const Ran ran = run("barwright make towpath-batch.yaml --date 2027-03-20 " + options, folder);
  CHECK(ran.exit_code != 0);
  CHECK(ran.out.empty());
  CHECK_FALSE(fs::exists(folder + "/yard-shelf-journal.csv"));
  return flat(ran.err);
}

}  // namespace

TEST_CASE("every line of the sheet is typed in by the name it has there", "[sheet][written]") {
  const std::string folder = yard("lines");
  // 880 g of 884 g of the mix: olive 70 %, rice bran 30 % of 4 g less.
  const std::string out = make_in(
      folder,
      "--weighed 'yard mix=880 g' --weighed 'castor=118 g' --weighed 'castor (wets colours)=11 g' "
      "--weighed 'brown iron oxide (mud)=2.3 g' --weighed 'wet stone and mint in reed=12 g'");
  CHECK_THAT(out, Contains("olive lot MB-2291 616 g (sheet: 618.8 g)") &&
                      Contains("rice bran lot MB-2188 264 g (sheet: 265.2 g)"));
  CHECK_THAT(out, Contains("castor lot MB-2247 129 g body") ||
                      Contains("castor lot MB-2247 129 g topping"));  // 1 g more, 1 g less
  CHECK_THAT(out, Contains("brown iron oxide 2.3 g (sheet: 2.4 g)") &&
                      Contains("wet stone and mint 12 g (sheet: 12.3 g)"));
}

TEST_CASE("the one lye as weighed goes to the parts by its portions", "[sheet][written]") {
  const std::string folder = yard("pot");
  const json sheet = json::parse(run("barwright sheet towpath-batch.yaml --json", folder).out);
  const double pot = sheet["lye_pot"]["making_weight_grams"];
  const double topping = sheet["parts"][1]["lye_solution_grams"];
  // The pot as weighed is topped up to its making weight; the body had 660 g out of it.
  const std::string out =
      make_in(folder, "--weighed 'lye pot/sodium hydroxide=270 g' --weighed 'lye/body=660 g'");
  const json record =
      json::parse(run("barwright shelf trace towpath --shelf yard-shelf.yaml --json", folder).out);
  for (const auto& line : record["lots"]) {
    if (line["what"] != "sodium hydroxide") continue;
    CHECK(line["grams"].get<double>() == Approx(270 * (660 + topping) / pot).margin(0.02));
  }
  CHECK_THAT(out, Contains("By the weights typed in, the body has") ||
                      Contains("by the weights typed in its superfat is"));
}

TEST_CASE("lots by part, times, temperatures and boxes are kept", "[sheet][written]") {
  const std::string folder = yard("boxes");
  const std::string out = make_in(
      folder,
      "--lot 'body/coconut=MB-2304' --lot 'body/yard mix=mixed in March' --step '7=9:55, 60 C' "
      "--happened 'trace=10:35, 95 F' --happened 'topping/gel=all' --happened 'each=96 g' "
      "--happened 'cut=2027-03-21 14:00' --note 'cold room' --bars 21");
  for (const char* note :
       {"step 7, Make the lye: at 9:55, 60 C", "body: trace at 10:35, 35 C",
        "topping: gel all through", "body: a bar weighs 96 g", "body: cut 2027-03-21 at 14:00",
        "lot of the yard mix: mixed in March", "cold room", "21 bars cut"}) {
    INFO(note);
    CHECK_THAT(out, Contains(note));
  }
  CHECK_THAT(flat(run("barwright shelf trace towpath --shelf yard-shelf.yaml", folder).out),
             Contains("body: trace at 10:35, 35 C") && Contains("cold room"));
}

TEST_CASE("what cannot be on the sheet is pointed at, and nothing is recorded",
          "[sheet][written]") {
  const std::string folder = yard("wrong");
  CHECK_THAT(refused_in(folder, "--weighed 'oilve=1 g'"),
             Contains("is no line of this batch") && Contains("lye pot/water"));
  CHECK_THAT(refused_in(folder, "--weighed 'body/castor=1 g' --weighed 'castor=2 g'"),
             Contains("is typed in twice"));
  CHECK_THAT(refused_in(folder, "--step '70=9:00'"), Contains("numbered 1 to"));
  CHECK_THAT(refused_in(folder, "--step '7=25:00'"), Contains("'25:00' is no time of day"));
  CHECK_THAT(refused_in(folder, "--happened 'gel=perhaps'"), Contains("none, mid or all"));
  CHECK_THAT(refused_in(folder, "--happened 'trase=9:00'"), Contains("Did you mean 'trace'?"));
  CHECK_THAT(refused_in(folder, "--happened 'tail/trace=9:00'"), Contains("no part 'tail'"));
  spill(folder + "/w.yaml", "written: towpath\nweighed:\n  body/castor: 12,5 g\n");
  CHECK_THAT(refused_in(folder, "--written w.yaml"), Contains("w.yaml:3:"));
  spill(folder + "/w.yaml", "written: towpath\nwieghed:\n  body/castor: 12.5 g\n");
  CHECK_THAT(refused_in(folder, "--written w.yaml"), Contains("Did you mean 'weighed'?"));
  spill(folder + "/w.yaml", "written: slipway\n");
  CHECK_THAT(refused_in(folder, "--written w.yaml"),
             Contains("of 'slipway', this file is of 'towpath'"));
}

TEST_CASE("a file of what was written says the same as the options", "[sheet][written]") {
  const std::string one = yard("file"), two = yard("options");
  spill(one + "/w.yaml",
        "written: towpath\ndate: 2027-03-20\nbars: 21\nweighed: {body/yard mix: 880 g}\n"
        "lots: {body/coconut: MB-2304}\nsteps: {7: \"9:55, 60 C\"}\n"
        "happened: {body/gel: none}\nnotes: [cold room]\ndefects: [\"cracked: 3 bars\"]\n");
  CHECK(make_in(one, "--written w.yaml") ==
        make_in(two,
                "--bars 21 --weighed 'yard mix=880 g' --lot 'body/coconut=MB-2304' --step "
                "'7=9:55, 60 C' --happened 'body/gel=none' --note 'cold room' --defect "
                "'cracked: 3 bars'"));
  CHECK(slurp(one + "/yard-shelf-journal.csv") == slurp(two + "/yard-shelf-journal.csv"));
}

TEST_CASE("a sheet has a running number, and a changed recipe is said across the top",
          "[sheet][written]") {
  const std::string folder = yard("number");
  const auto sheet = [&](const std::string& how) {
    const Ran ran = run("barwright sheet towpath-batch.yaml " + how, folder);
    INFO(ran.err);
    CHECK(ran.exit_code == 0);
    return flat(ran.out);
  };
  CHECK_THAT(sheet(""), Contains("no running number yet"));
  CHECK_FALSE(fs::exists(folder + "/yard-shelf-journal.csv"));
  CHECK_THAT(sheet("--page p.html"), Contains("; sheet 1 "));
  CHECK_THAT(sheet("--units oz --page p.html"), Contains("; sheet 1 "));  // the same recipe
  CHECK_THAT(sheet(""), Contains("; sheet 1 ") && !Contains("changed"));
  const std::string batch = slurp(folder + "/towpath-batch.yaml");
  std::string other = batch;
  other.replace(other.find("    superfat: 5 %"), 17, "    superfat: 8 %");
  spill(folder + "/towpath-batch.yaml", other);
  CHECK_THAT(sheet(""), Contains("BENCH SHEET: towpath 2027-03-20 DANGER The recipe changed since "
                                 "sheet 1"));
  CHECK_THAT(make_in(folder, ""),
             Contains("The recipe changed since sheet 1") && Contains("by sheet 1,"));
  // Made: the next one printed is another sheet.
  CHECK_THAT(sheet("--page p.html"), Contains("; sheet 2 ") && !Contains("changed since sheet 1"));
  CHECK_THAT(slurp(folder + "/p.html"), Contains("<span>sheet 2, recipe "));
  spill(folder + "/towpath-batch.yaml", batch);
  CHECK_THAT(sheet("--page p.html"), Contains("changed since sheet 2") && Contains("; sheet 3 "));
  CHECK_THAT(slurp(folder + "/p.html"), Contains("<div id=\"changed\" class=\"yes\">The recipe"));
}

TEST_CASE("a sheet without a shelf says that nothing counts it", "[sheet][written]") {
  CHECK_THAT(shown("    superfat: 5 %\n"), Contains("no running number: the file names no shelf"));
}

TEST_CASE("what is kept for a batch itself is not missing on its own sheet", "[sheet][written]") {
  const std::string folder = yard("planned");
  const std::string before = flat(run("barwright sheet towpath-batch.yaml", folder).out);
  run("barwright make towpath-batch.yaml --plan --date 2027-03-01", folder);
  CHECK(flat(run("barwright sheet towpath-batch.yaml", folder).out) == before);
}

TEST_CASE("what comes onto the shelf does not make it another recipe", "[sheet][written]") {
  const std::string folder = yard("received");
  run("barwright sheet towpath-batch.yaml --page p.html", folder);
  run("barwright shelf receive castor '2 kg' --lot C-9 --shelf yard-shelf.yaml --date 2027-02-01",
      folder);
  CHECK_THAT(flat(run("barwright sheet towpath-batch.yaml", folder).out),
             Contains("; sheet 1 ") && !Contains("changed"));
}

TEST_CASE("each part may be made from a lot of its own", "[sheet][written]") {
  const std::string folder = yard("lots");
  run("barwright shelf receive coconut '2 kg' --lot K-9 --shelf yard-shelf.yaml --date 2027-02-01",
      folder);
  const std::string out =
      make_in(folder, "--lot 'body/coconut=MB-2304' --lot 'topping/coconut=K-9'");
  CHECK_THAT(
      out, Contains("body coconut lot MB-2304 402 g") && Contains("topping coconut lot K-9 72 g"));
}

TEST_CASE("whatever line a page has room for is taken back by its name", "[sheet][written]") {
  const std::string folder = fresh_folder("written-keys");
  std::string shelf = "shelf: yard\nstock:\n";
  for (const char* oil : {"olive", "coconut", "castor", "shea butter", "rice bran", "beef tallow",
                          "high-oleic sunflower", "palm kernel", "cocoa butter"})
    shelf += std::string("  - {oil: ") + oil + ", have: 20 kg, lot: L-1}\n";
  spill(folder + "/s.yaml", shelf);
  const std::string fixtures = BARWRIGHT_SOURCE_DIR "/tests/app/fixtures/";
  for (const std::string& file : {towpath(), fixtures + "milk-batch.yaml",
                                  fixtures + "salt-batch.yaml", fixtures + "looks-batch.yaml"}) {
    INFO(file);
    spill(folder + "/b.yaml", "shelf: s.yaml\n" + slurp(file));
    fs::remove(folder + "/p.html");
    REQUIRE(run("barwright sheet b.yaml --page p.html", folder).exit_code == 0);
    const std::string html = slurp(folder + "/p.html");
    std::string written = "written: \"" +
                          std::string(html, html.find("data-batch=\"") + 12,
                                      html.find("\" data-file") - html.find("data-batch=\"") - 12) +
                          "\"\nweighed:\n";
    const std::string row = "data-weight=\"", cell = "data-field=\"weighed\" data-key=\"";
    int lines = 0;
    for (auto at = html.find(row); at != std::string::npos; at = html.find(row, at + 1)) {
      const auto from = at + row.size();
      const std::string weight = html.substr(from, html.find('"', from) - from);
      const auto key = html.find(cell, at);
      if (key > html.find("</tr>", at)) continue;
      const auto name = key + cell.size();
      written += "  \"" + html.substr(name, html.find('"', name) - name) + "\": \"" +
                 weight.substr(0, weight.find(" (")) + "\"\n";
      ++lines;
    }
    CHECK(lines >= 8);
    spill(folder + "/w.yaml", written);
    fs::remove(folder + "/s-journal.csv");
    spill(folder + "/s.yaml", shelf);
    const Ran ran =
        run("barwright make b.yaml --bars 10 --date 2027-03-20 --written w.yaml", folder);
    INFO(written);
    INFO(ran.err);
    CHECK(ran.exit_code == 0);
    // As on the sheet: nothing is held, and nothing weighed otherwise but by a hair of rounding.
    CHECK_THAT(ran.out, !Contains("DANGER") && !Contains("On hold:"));
  }
}
