// Every way out of a "no", written into the brief as it is told, opens it.
#include "solver/app/blend/ways_out.hpp"

#include <catch2/catch.hpp>
#include <random>
#include <sstream>

#include "oils/records/library.hpp"
#include "running.hpp"
#include "solver/jobs/blend_job_reader.hpp"

using namespace barwright;
using namespace barwright::tests;
using Catch::Matchers::Contains;

namespace {

const oils::Library& library() {
  static const oils::Library all = oils::Library::embedded();
  return all;
}

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : bits_(seed) {}
  int below(int n) { return static_cast<int>(bits_() % static_cast<std::uint64_t>(n)); }
  int between(int low, int high) { return low + below(high - low + 1); }
  bool one_in(int n) { return below(n) == 0; }

 private:
  std::mt19937_64 bits_;
};

// A brief that asks for a good deal, each line in one of the ways a maker may write it.
std::string brief_of(std::uint64_t seed) {
  Dice dice(seed);
  std::string out =
      "brief: too much\n"
      "oils-from: [olive, coconut, castor, shea butter, lard, beef tallow, sunflower, palm, neem]\n"
      "compared-with: {blend: {olive: 60 %, coconut: 25 %, sunflower: 10 %, castor: 5 %}}\n";
  if (dice.one_in(4)) out += "sureness: likely 80 %\n";
  const auto level = [&] { return dice.one_in(5) ? ", worst-case" : ""; };
  out += "want:\n";
  const int hard = dice.between(4, 30);
  switch (dice.below(4)) {
    case 0:
      out += "  hardness: at least " + std::to_string(hard) + " above" + level() + "\n";
      break;
    case 1:
      out += "  hardness: much more, no more than 40 above" + std::string(level()) + "\n";
      break;
    case 2:
      out += "  hardness: " + std::to_string(40 + hard) + " to 90" + level() + "\n";
      break;
    default:
      out += "  hardness: " + std::to_string(hard) + " to 45 above\n";
  }
  static const char* const wishes[] = {"  lather: no less\n",
                                       "  lather: at least 60\n",
                                       "  conditioning: not clearly less\n",
                                       "  conditioning: as now\n",
                                       "  conditioning: at least 3 above, typical\n",
                                       "  thrift: clearly more\n",
                                       "  iodine value: at most 45\n",
                                       "  iodine value: 50 to 60\n",
                                       "  lauric + myristic: at most 9 %\n",
                                       "  lauric: 20 % to 25 %\n",
                                       "  saponification value: at least 215 mg KOH/g\n",
                                       "  palmitic / oleic: at least 0.9\n",
                                       "  lather: no less than all-olive\n"};
  std::string used = "hardness";
  for (int n = dice.between(1, 3); n > 0; --n) {
    const std::string wish = wishes[dice.below(static_cast<int>(std::size(wishes)))];
    const std::string key = wish.substr(2, wish.find(':') - 2);
    if (used.find(key) != std::string::npos) continue;
    used += ", " + key;
    out += wish;
  }
  out += "limits:\n  steps: " + std::string(dice.one_in(3) ? "0.5 %" : "1 %") + "\n";
  if (dice.one_in(2)) out += "  oils: at most " + std::to_string(dice.between(2, 4)) + "\n";
  static const char* const castor[] = {"always",
                                       "at least 7 %",
                                       "{least: 5 %, most: 8 %}",
                                       "4 to 6 %",
                                       "{most: 3 %, always: yes}",
                                       "exactly 12 %"};
  if (dice.one_in(2)) out += "  castor: " + std::string(castor[dice.below(6)]) + "\n";
  static const char* const neem[] = {"always", "at least 20 %", "{always: yes, least: 15 %}"};
  if (dice.one_in(3)) out += "  neem: " + std::string(neem[dice.below(3)]) + "\n";
  if (dice.one_in(2)) out += "  coconut: at most " + std::to_string(dice.between(5, 30)) + " %\n";
  static const char* const barred[] = {"[lard]", "[animal, palm]", "[beef tallow, shea butter]",
                                       "[butter, lard, palm]"};
  if (dice.one_in(2)) out += "  not: " + std::string(barred[dice.below(4)]) + "\n";
  static const char* const tags[] = {"vegan: yes", "animal: at most 10 %", "palm: no",
                                     "butter: 5 to 10 %"};
  if (dice.one_in(3)) out += "  tag rules: {" + std::string(tags[dice.below(4)]) + "}\n";
  return out;
}

// The text with one edit made: what stands behind the key on its line, or a new line.
std::string edited(const std::string& text, const app::BriefEdit& edit) {
  std::istringstream lines(text);
  std::string out, line;
  for (int number = 1; std::getline(lines, line); ++number) {
    const auto at = line.find(edit.key + ":");
    if (number == edit.line) {
      REQUIRE(at != std::string::npos);
      const bool inside = line.find('{') < at;  // "tag rules: {palm: no}"
      const std::string end = inside ? "}" : "";
      if (edit.value)
        line = line.substr(0, at) + edit.key + ": " + *edit.value + end;
      else
        continue;
    }
    out += line + "\n";
    if (edit.line == 0 && line == edit.section + ":")
      out += "  " + edit.key + ": " + edit.value.value() + "\n";
  }
  return out;
}

jobs::BlendJob job_of(const std::string& text) {
  static const std::string folder = fresh_folder("ways-out");
  spill(folder + "/brief.yaml", text);
  return jobs::read_blend_job(folder + "/brief.yaml", library());
}

}  // namespace

TEST_CASE("every way out of a no, written into the brief, opens it", "[ways-out]") {
  int no = 0, ways = 0, rules = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const std::string text = brief_of(seed);
    const jobs::BlendJob job = job_of(text);
    jobs::BlendReport report;
    report.job = &job;
    optimise::SearchOptions options;
    options.most_nodes = 20000;
    report.result = jobs::find_blend(job, options);
    if (report.result.answer.status != optimise::Status::infeasible) continue;
    ++no;
    const auto& formulation = report.result.formulation;
    std::vector<int> which = explain::wish_ids(formulation.problem, formulation.wishes);
    std::erase_if(which, [&](int wish) { return !jobs::can_be_changed(formulation, wish); });
    const explain::Fixes fixes =
        explain::find_fixes(formulation.problem, formulation.wishes, which, options);
    const auto opened = jobs::written_ways(job, report.result, fixes.fixes, options);
    for (const auto& way : opened) {
      const auto edits = app::edits_of(report, way);
      CHECK(way.opens);
      REQUIRE(edits.size() == 1);
      if (edits[0].file.empty()) continue;
      ++ways;
      rules += formulation.asked[static_cast<std::size_t>(edits[0].wish)].wish < 0;
      const std::string changed = edited(text, edits[0]);
      INFO(seed << "\n" << text << "\n" << edits[0].words << "\n" << changed);
      const jobs::BlendJob then = job_of(changed);
      const auto found = jobs::find_blend(then, options);
      CHECK(found.has_blend());
    }
  }
  CHECK(no > 60);
  CHECK(ways > 60);
  CHECK(rules > 10);
}

TEST_CASE("an oil that is said to open the way does, added to the oils of the brief",
          "[ways-out]") {
  int bought = 0;
  for (std::uint64_t seed = 1; seed <= 36; ++seed) {
    const std::string text = brief_of(seed);
    const jobs::BlendJob job = job_of(text);
    jobs::ReportOptions options;
    options.search.most_nodes = 2000;
    options.teach = false;
    const jobs::BlendReport report = jobs::report_blend(job, library(), options);
    if (!report.no) continue;
    for (const auto& purchase : report.no->purchases.found) {
      std::string wider = text;
      for (const int oil : purchase.oils)
        wider.replace(wider.find("neem]"), 5,
                      report.no->purchase_names[static_cast<std::size_t>(oil)] + ", neem]");
      INFO(wider);
      const jobs::BlendJob with = job_of(wider);
      CHECK(jobs::find_blend(with, options.search).has_blend());
      ++bought;
    }
  }
  CHECK(bought > 8);
}

// What a bar in the hand can claim stays in force when the brief is run again.
TEST_CASE("a way out opens with the claims of the bar in the hand kept, as the program runs it",
          "[ways-out]") {
  const std::string examples = BARWRIGHT_SOURCE_DIR "/examples/";
  int single = 0, joint = 0;
  for (const char* hardness : {"8", "14", "20", "30"}) {
    for (const char* rest :
         {"  lather: no less\n", "  lather: at least 20 above\n",
          "  lather: no less\n  conditioning: not clearly less\n",
          "  lather: at least 20 above\n  oil cost: at most 3.00 EUR per kg\n"}) {
      const std::string text = "brief: too much\noils-from: shelf\nshelf: " + examples +
                               "weighbridge-shelf.yaml\ncompared-with: " + examples +
                               "yard-bar.yaml\nwant:\n  hardness: at least " + hardness +
                               " above\n" + rest + "limits:\n  oils: at most 5\n";
      const auto answer = [](const std::string& brief) {
        jobs::ReportOptions options;
        options.search.most_nodes = 20000;
        options.teach = false;
        return jobs::report_blend(job_of(brief), library(), options);
      };
      const jobs::BlendReport no = answer(text);
      if (!no.no) continue;
      std::vector<jobs::TriedWay> ways = no.no->ways;
      if (ways.empty() && no.no->together) ways = {*no.no->together};
      CAPTURE(text);
      CHECK_FALSE(ways.empty());
      for (const auto& way : ways) {
        std::string changed = text;
        for (const auto& edit : app::edits_of(no, way)) changed = edited(changed, edit);
        CAPTURE(changed);
        CHECK(answer(changed).result.has_blend());
        ++(way.fix.wishes.size() > 1 ? joint : single);
      }
    }
  }
  CHECK(single > 10);
  CHECK(joint > 2);
}

TEST_CASE("a way out is said as the maker writes it", "[ways-out]") {
  const std::string folder = fresh_folder("ways-out-words");
  const auto told = [&](const std::string& lines) {
    spill(folder + "/brief.yaml",
          "brief: b\noils-from: [olive, coconut, lard, sunflower]\n" + lines);
    const Ran ran = run("barwright blend brief.yaml", folder);
    INFO(ran.err);
    REQUIRE(ran.exit_code == 4);
    return ran.out;
  };
  // Coconut is two thirds lauric and myristic: a hundredth of it is more than half a per cent.
  CHECK_THAT(told("want: {lauric: at most 0.1 %}\nlimits: {coconut: always}\n"),
             Contains("leave out 'coconut: always'"));
  CHECK_THAT(told("want: {lauric: at most 0.1 %}\nlimits: {coconut: at least 3 %}\n"),
             Contains("'none or at least 3 %', which lets it stay out"));
  const std::string barred = told("want: {lauric: at least 10 %}\nnot: [coconut, lard]\n");
  CHECK_THAT(barred, Contains("take 'coconut' off the 'not:' list"));
  CHECK_THAT(barred, !Contains("instead of 0"));
  CHECK_THAT(told("want: {lauric: at least 10 %}\nlimits: {coconut: at most 5 %}\n"),
             Contains("->  at most 2"));
}

TEST_CASE("a limit of the house is no way out", "[ways-out]") {
  // Past a tenth of waxes no lye is weighed, whatever a brief says.
  const std::string folder = fresh_folder("ways-out-wax");
  spill(folder + "/brief.yaml",
        "brief: b\noils-from: [olive, beeswax, jojoba]\nwant: {unsaponifiable: at least 20 %}\n"
        "limits: {beeswax: at most 60 %, jojoba: at most 60 %}\n");
  const Ran ran = run("barwright blend brief.yaml", folder);
  INFO(ran.out << ran.err);
  REQUIRE(ran.exit_code == 4);
  const auto ways = ran.out.find("WAYS OUT");
  CHECK_THAT(ways == std::string::npos ? "" : ran.out.substr(ways), !Contains("waxes together"));
}

TEST_CASE("where the lye alone forbids what is wished, its reason stands beside the no") {
  const std::string folder = fresh_folder("waxes");
  spill(folder + "/brief.yaml",
        "brief: waxy\noils-from: [olive, jojoba, coconut]\n"
        "want:\n  hardness: at least 20\nlimits:\n  jojoba: {least: 30 %}\n");
  const Ran ran = run("barwright blend brief.yaml", folder);
  CHECK(ran.exit_code == 4);
  CHECK_THAT(ran.out, Contains("THE LYE IS IN THE WAY"));
  CHECK_THAT(ran.out, Contains("wax"));
}
