// The program as one call: what it gives is what a fresh process gives, run after run.
#include "solver/app/run.hpp"

#include <malloc.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <random>

#include "running.hpp"
#include "solver/app/json.hpp"
#include "solver/app/run_json.hpp"

using namespace barwright::app;
using namespace barwright::tests;
namespace fs = std::filesystem;

namespace {

Files workshop() {
  Files out;
  for (const auto& entry : fs::directory_iterator(BARWRIGHT_SOURCE_DIR "/examples"))
    if (entry.path().extension() != ".sh" && !entry.path().filename().string().starts_with('.'))
      out[entry.path().filename().string()] = slurp(entry.path().string());
  out["briefs/over.yaml"] = "name: over\nblend: {olive: 70 %, coconut: 40 %}\noils: 1 kg\n";
  out["latin.yaml"] = "brief: caf\xE9\nmake: {oils: 1 kg}\n";
  return out;
}

using Words = std::vector<std::string>;

const std::vector<Words>& command_lines() {
  static const std::vector<Words> all = {
      {"blend", "firmer-bar.yaml"},
      {"blend", "firmer-bar.yaml", "--json"},
      {"blend", "too-hard.yaml", "--json"},
      {"blend", "sure-bar.yaml", "--try-lots", "100", "--save", "saved.yaml"},
      {"blend", "--from", "olive:40,coconut:30,palm:30", "--want", "harder", "--save-brief",
       "b.yaml"},
      {"swap", "butter-out.yaml", "--json"},
      {"swap", "yard-bar.yaml", "--out", "coconut", "--keep-at-most", "10 %", "--using",
       "palm kernel"},
      {"explore", "spring-line.yaml", "--csv"},
      {"weigh", "yard-bar.yaml", "--json"},
      {"weigh", "briefs/over.yaml"},
      {"weigh", "briefs/over.yaml", "--json"},
      {"weigh", "latin.yaml", "--json"},
      {"sheet", "towpath-batch.yaml", "--json"},
      {"rescue", "towpath-batch.yaml", "--forgot", "castor"},
      {"label", "yard-bar.yaml", "--json"},
      {"price", "yard-bar.yaml"},
      {"oils", "olive", "--json"},
      {"oils", "oliv"},
      {"oils", "--tag", "butter"},
      {"new", "."},
      {"new", "mine"},
      {"shelf", "weighbridge-shelf.yaml", "--date", "2027-02-13"},
      {"make", "yard-bar.yaml", "--bars", "20", "--date", "2027-02-13"},
      {"blend", "nowhere.yaml", "--json"},
      {"blend"},
      {"--version"},
      {"blend", "--help"},
      {"manual"},
      {"melt", "--json"}};
  return all;
}

// What a fresh process gives over the same files.
FilesReply fresh(const Words& words, const Files& files) {
  const std::string folder = fresh_folder("fresh");
  for (const auto& [path, text] : files) {
    fs::create_directories(fs::path(folder + "/" + path).parent_path());
    spill(folder + "/" + path, text);
  }
  std::string line = "barwright";
  for (const auto& word : words) line += " '" + word + "'";
  const Ran ran = run(line, folder);
  FilesReply out;
  static_cast<Reply&>(out) = {ran.exit_code, ran.out, ran.err};
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const std::string path = fs::relative(entry.path(), folder).string();
    if (!entry.is_regular_file() || path.find("-lock") != std::string::npos) continue;
    const std::string text = slurp(entry.path().string());
    if (!files.count(path) || files.at(path) != text) out.written[path] = text;
  }
  fs::remove_all(folder);
  return out;
}

}  // namespace

TEST_CASE("many mixed runs in one process give what fresh processes give, and keep no memory") {
  const Files files = workshop();
  const auto& lines = command_lines();
  std::vector<FilesReply> expected;
  for (const auto& words : lines) expected.push_back(fresh(words, files));
  std::mt19937_64 bits(11);
  std::size_t settled = 0;
  for (int round = 0; round < 8; ++round) {
    for (std::size_t n = 0; n < lines.size(); ++n) {
      const std::size_t which = round == 0 ? n : bits() % lines.size();
      const FilesReply now = run_over(lines[which], files);
      INFO(round << ": " << Json(lines[which]).dump(-1));
      REQUIRE(now.exit_code == expected[which].exit_code);
      REQUIRE(now.text == expected[which].text);
      REQUIRE(now.error == expected[which].error);
      REQUIRE(now.written == expected[which].written);
      REQUIRE(now.removed.empty());
    }
    // What the allocator has handed out: the first round loads what stays, the library.
    if (round == 0) settled = mallinfo2().uordblks;
  }
  CHECK(mallinfo2().uordblks < settled + 200'000);
}

TEST_CASE("a run neither leaves its folder nor the one it was called in") {
  const auto here = fs::current_path();
  for (const char* path :
       {"../up.yaml", "/tmp/abs.yaml", "a/../../b.yaml", "./a.yaml", "", "a//b", "a/"})
    CHECK_FALSE(stays_within(path));
  CHECK(stays_within("a/b c/d.yaml"));
  const FilesReply refused = run_over({"--version"}, {{"../up.yaml", "x"}});
  CHECK(refused.exit_code == 2);
  CHECK(refused.error == "'../up.yaml' is no path within the folder.\n");
  CHECK(run_over({"new", "mine"}, {}).written.count("mine/firmer-bar.yaml") == 1);
  CHECK(fs::current_path() == here);
}

TEST_CASE("a request and its reply as JSON") {
  const auto reply = [](const std::string& request) { return *Json::parse(run_json(request)); };
  const Json good = reply(
      R"({"args": ["weigh", "r.yaml"], "files": {"r.yaml": "name: r\nblend: {olive: 100 %}\nsuperfat: 5 %\nconcentration: 33 %\noils: 2000 g\n"}})");
  CHECK(good.find("text")->text()->find("olive") != std::string::npos);
  CHECK(good.dump(-1).rfind("{\"exit\":0,\"text\":\"", 0) == 0);
  CHECK(good.find("files")->items().empty());
  for (const char* bad : {"", "{", "[]", "{\"args\": [1]}", "{\"args\": [], \"files\": []}",
                          "{\"args\": [], \"files\": {\"a\": 1}}"}) {
    INFO(bad);
    CHECK(reply(bad).find("error")->text()->rfind("The request", 0) == 0);
  }
  CHECK_FALSE(Json::parse(std::string(5000, '[') + std::string(5000, ']')));
}

TEST_CASE("a search inside another program stops when that says so") {
  const std::atomic<bool> stop = true;
  Files files = workshop();
  files["long.yaml"] =
      "brief: a long search\nmake: {oils: 2000 g}\noils-from: library\n"
      "compared-with: yard-bar.yaml\nwant: {hardness: at least 12 above, lather: at most 8 below, "
      "keeping: at least 8 above}\nbest: nearest in feel\nlimits: {steps: 0.1 %, oils: at most 8}\n"
      "sureness: likely\nscale: {lye: 0.1 g}\n";
  const FilesReply out = run_over({"blend", "long.yaml", "--json"}, files, {false, &stop});
  CHECK(out.exit_code == 5);
  CHECK(Json::parse(out.text)->find("reason")->text()->rfind("stopped by hand", 0) == 0);
}
