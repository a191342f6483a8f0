// `barwright serve` as a browser sees it, and as those who should not reach it do.
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <thread>

#include "core/units/error.hpp"
#include "oils/files/safe_file.hpp"
#include "served.hpp"
#include "solver/app/serve/gate.hpp"
#include "solver/app/serve/server.hpp"
#include "solver/app/serve/workshop_folder.hpp"

using namespace barwright;
using namespace barwright::tests;
using Catch::Matchers::Contains;
using json = nlohmann::json;
namespace fs = std::filesystem;

TEST_CASE("serve: a run over the folder, with what the page changed laid over it") {
  const Served yard("run");
  const auto files = yard.get("/files", yard.headers());
  REQUIRE(files->status == 200);
  const json listed = json::parse(files->body);
  CHECK(listed["files"].size() == 3);
  CHECK(listed["files"]["yard-bar.yaml"] == slurp(yard.folder + "/yard-bar.yaml"));

  const json reply = json::parse(yard.post("/run", {{"args", {"blend", "firmer-bar.yaml"}}})->body);
  CHECK(reply["exit"] == 0);
  CHECK(reply["text"] == run("barwright blend firmer-bar.yaml", yard.folder).out);
  CHECK(reply["files"].empty());

  const json laid = json::parse(
      yard.post("/run", {{"args", {"blend", "mine.yaml", "--save", "saved.yaml"}},
                         {"files", {{"mine.yaml", listed["files"]["firmer-bar.yaml"]}}}})
          ->body);
  CHECK(laid["exit"] == 0);
  CHECK(laid["files"].size() == 1);
  CHECK_THAT(laid["files"]["saved.yaml"].get<std::string>(), Contains("blend:"));
  CHECK_FALSE(fs::exists(yard.folder + "/mine.yaml"));
  CHECK_FALSE(fs::exists(yard.folder + "/saved.yaml"));

  CHECK(yard.post("/run", {{"args", {"serve", "."}}})->status == 400);
}

TEST_CASE("serve: nothing is answered without the token") {
  const Served yard("token");
  const std::string wrong(64, '0');
  for (const std::string& token : {std::string(), wrong, yard.server->token().substr(1)}) {
    const auto headers = with(yard.headers(), "X-Barwright-Token", token);
    INFO(token);
    CHECK(yard.get("/files", headers)->status == 403);
    CHECK(yard.get("/", headers)->status == 403);
    CHECK(yard.get("/?token=" + token, headers)->status == 403);
    CHECK(yard.post("/run", R"({"args": ["--version"]})", headers)->status == 403);
    CHECK(yard.post("/save", R"({"files": {"a.yaml": {"text": "x"}}})", headers)->status == 403);
    CHECK(yard.post("/stop", "{}", headers)->status == 403);
    CHECK(yard.get("/nowhere", headers)->status == 403);
  }
  CHECK_FALSE(fs::exists(yard.folder + "/a.yaml"));
  CHECK(yard.server->token().size() == 64);
  CHECK(app::fresh_token() != app::fresh_token());
}

TEST_CASE("serve: the page comes by the address that was printed, and by its cookie from then on") {
  const Served yard("page");
  const std::string host = "127.0.0.1:" + std::to_string(yard.server->port());
  CHECK(yard.server->address() == "http://" + host + "/?token=" + yard.server->token());
  const auto first = yard.get("/?token=" + yard.server->token(), {{"Host", host}});
  REQUIRE(first->status == 303);
  CHECK(first->get_header_value("Location") == "/");
  const std::string cookie = first->get_header_value("Set-Cookie");
  CHECK_THAT(cookie, Contains("; HttpOnly") && Contains("; SameSite=Strict"));
  const auto page =
      yard.get("/", {{"Host", host}, {"Cookie", "other=1; " + cookie.substr(0, cookie.find(';'))}});
  REQUIRE(page->status == 200);
  CHECK_THAT(page->body, Contains("content=\"" + yard.server->token() + "\""));
  CHECK(page->get_header_value("Content-Security-Policy") ==
        "default-src 'none'; connect-src 'self'; frame-ancestors 'none'");
  CHECK(page->get_header_value("Cache-Control") == "no-store");
  CHECK(page->get_header_value("X-Content-Type-Options") == "nosniff");
  // The cookie alone computes and writes nothing.
  CHECK(yard.get("/files", {{"Host", host}, {"Cookie", cookie.substr(0, cookie.find(';'))}})
            ->status == 403);
}

TEST_CASE("serve: another page that makes the browser ask here is refused") {
  const Served yard("foreign");
  const std::string port = std::to_string(yard.server->port());
  const std::string body = R"({"args": ["--version"]})";
  for (const std::string& host :
       {std::string("evil.example"), "evil.example:" + port, std::string("127.0.0.1"),
        std::string("127.0.0.1:1"), "127.0.0.1.evil.example:" + port}) {
    INFO(host);
    CHECK(yard.post("/run", body, with(yard.headers(), "Host", host))->status == 403);
  }
  for (const std::string& origin :
       {std::string("null"), std::string("http://evil.example"), "https://127.0.0.1:" + port,
        std::string("http://127.0.0.1:1"), "http://localhost:" + port}) {
    INFO(origin);
    CHECK(yard.post("/run", body, with(yard.headers(), "Origin", origin))->status == 403);
  }
  CHECK(yard.post("/run", body, with(yard.headers(), "Sec-Fetch-Site", "cross-site"))->status ==
        403);
  CHECK(
      yard.post("/run", body, with(yard.headers(), "Origin", "http://127.0.0.1:" + port))->status ==
      200);
  auto local = with(yard.headers(), "Host", "localhost:" + port);
  local.emplace("Origin", "http://localhost:" + port);
  CHECK(yard.post("/run", body, local)->status == 200);
}

TEST_CASE("serve: requests that are none are refused in a sentence") {
  const Served yard("malformed");
  for (const char* body : {"", "[]", "{", "{}", R"({"args": 1})", R"({"args": [], "files": 1})",
                           R"({"args": [], "files": {"a.yaml": 1}})"}) {
    INFO(body);
    const auto reply = yard.post("/run", body, yard.headers());
    CHECK(reply->status == 400);
    CHECK_THAT(json::parse(reply->body)["error"].get<std::string>(), Contains("The request"));
  }
  CHECK(yard.get("/nowhere", yard.headers())->status == 404);
  CHECK(yard.get("/run", yard.headers())->status == 404);
  httplib::Client client("127.0.0.1", yard.server->port());
  CHECK(client.Post("/run", yard.headers(), R"({"args": ["--version"]})", "text/plain")->status ==
        415);
  CHECK(client.Delete("/files", yard.headers())->status == 405);
  auto packed = yard.headers();
  packed.emplace("Content-Encoding", "gzip");
  CHECK(client.Post("/run", packed, "{}", "application/json")->status == 415);
  // More than a workshop is not even read.
  auto large = yard.headers();
  const auto reply = client.Post("/run", large, std::string(33U << 20U, ' '), "application/json");
  CHECK((!reply || reply->status == 413));
  CHECK(yard.get("/files", yard.headers())->status == 200);
}

TEST_CASE("serve: saving writes what was read and changed, and nothing else") {
  const Served yard("save");
  const json hashes = json::parse(yard.get("/files", yard.headers())->body)["hashes"];
  const json bar = hashes["yard-bar.yaml"];
  const std::string before = slurp(yard.folder + "/yard-bar.yaml");

  const auto saved =
      yard.post("/save", {{"files",
                           {{"yard-bar.yaml", {{"text", before + "# mine\n"}, {"was", bar}}},
                            {"new/brief.yaml", {{"text", "brief: new\n"}, {"was", nullptr}}}}}});
  REQUIRE(saved->status == 200);
  CHECK(slurp(yard.folder + "/yard-bar.yaml") == before + "# mine\n");
  CHECK(slurp(yard.folder + "/new/brief.yaml") == "brief: new\n");
  CHECK(json::parse(saved->body)["hashes"]["yard-bar.yaml"] == oils::mark_of(before + "# mine\n"));

  SECTION("changed on the disk meanwhile: kept, and the other files too") {
    spill(yard.folder + "/yard-bar.yaml", "name: by hand\n");
    const auto refused =
        yard.post("/save", {{"files",
                             {{"yard-bar.yaml", {{"text", "x"}, {"was", bar}}},
                              {"other.yaml", {{"text", "x"}, {"was", nullptr}}}}}});
    CHECK(refused->status == 409);
    CHECK(json::parse(refused->body)["changed"] == json::array({"yard-bar.yaml"}));
    CHECK(slurp(yard.folder + "/yard-bar.yaml") == "name: by hand\n");
    CHECK_FALSE(fs::exists(yard.folder + "/other.yaml"));
  }
  SECTION("a new file never takes the place of one that is there") {
    CHECK(yard.post("/save", {{"files", {{"firmer-bar.yaml", {{"text", "x"}}}}}})->status == 409);
    CHECK(slurp(yard.folder + "/firmer-bar.yaml") != "x");
  }
  SECTION("outside the folder, hidden, or of another kind: refused") {
    const std::string outside = fresh_folder("serve-outside");
    fs::create_directory_symlink(outside, yard.folder + "/link");
    spill(outside + "/there.yaml", "secret");
    fs::create_symlink(outside + "/there.yaml", yard.folder + "/there.yaml");
    for (const std::string& path :
         {std::string("../a.yaml"), std::string("/tmp/a.yaml"), std::string("new/../../a.yaml"),
          std::string(".hidden.yaml"), std::string(".git/a.yaml"), std::string("a.sh"),
          std::string("link/a.yaml"), std::string("there.yaml"), std::string("a\\b.yaml"),
          std::string("")}) {
      INFO(path);
      const auto refused = yard.post("/save", {{"files", {{path, {{"text", "x"}}}}}});
      CHECK(refused->status == 409);
    }
    CHECK(slurp(outside + "/there.yaml") == "secret");
    CHECK(fs::is_symlink(yard.folder + "/there.yaml"));
    CHECK(std::distance(fs::directory_iterator(outside), fs::directory_iterator()) == 1);
    // Nor are they read.
    const json listed = json::parse(yard.get("/files", yard.headers())->body)["files"];
    CHECK_FALSE(listed.contains("there.yaml"));
    CHECK_FALSE(listed.contains("link/there.yaml"));
    CHECK(yard.post("/run", {{"args", {"--version"}}, {"files", {{"../a.yaml", "x"}}}})->status ==
          200);
    CHECK_FALSE(fs::exists(yard.folder + "/../a.yaml"));
    fs::remove_all(outside);
  }
}

TEST_CASE("serve: an entry in the books goes to the disk whole, shelf and journal together") {
  const Served yard("books");
  spill(yard.folder + "/yard-shelf.yaml",
        "shelf: yard\ncurrency: EUR\nstock:\n  - {oil: olive, have: 5 kg, paid: 31.00 for 5 kg, "
        "lot: A}\n");
  const json files = json::parse(yard.get("/files", yard.headers())->body);
  const json reply = json::parse(
      yard.post("/run", {{"args",
                          {"shelf", "receive", "castor", "1 kg", "--paid", "9.50 for 1 kg", "--lot",
                           "C-1", "--shelf", "yard-shelf.yaml", "--date", "2027-02-13"}}})
          ->body);
  INFO(reply.dump());
  REQUIRE(reply["exit"] == 0);
  REQUIRE(reply["files"].size() == 2);
  CHECK(slurp(yard.folder + "/yard-shelf.yaml").find("castor") == std::string::npos);
  json saving = json::object();
  for (const auto& [path, text] : reply["files"].items())
    saving[path] = {{"text", text}, {"was", files["hashes"].value(path, json())}};
  REQUIRE(yard.post("/save", {{"files", saving}})->status == 200);
  CHECK_THAT(slurp(yard.folder + "/yard-shelf.yaml"), Contains("castor"));
  CHECK_THAT(slurp(yard.folder + "/yard-shelf-journal.csv"),
             Contains("received,,,castor,C-1,1000"));
  CHECK(run("barwright shelf --shelf yard-shelf.yaml --date 2027-02-14", yard.folder).exit_code ==
        0);
}

TEST_CASE("serve: a newer search takes the place of one that waits, and ends one that runs") {
  app::Gate gate;
  REQUIRE(gate.enter(true));
  CHECK_FALSE(gate.stopped());
  bool second = true, third = false;
  std::thread waits([&] { second = gate.enter(true); });
  while (!gate.stopped()) std::this_thread::yield();
  std::thread newest([&] {
    third = gate.enter(true);
    if (third) gate.leave();
  });
  waits.join();  // superseded while the first still runs
  CHECK_FALSE(second);
  gate.leave();
  newest.join();
  CHECK(third);
  // What is no search is not ended by one that comes.
  REQUIRE(gate.enter(false));
  std::thread later([&] {
    if (gate.enter(true)) gate.leave();
  });
  gate.leave();
  later.join();
  gate.close();
  CHECK_FALSE(gate.enter(true));
}

TEST_CASE("serve: a folder that is none, and a port that is taken") {
  CHECK_THROWS_AS(app::WorkshopFolder("/nowhere/at/all"), core::InputError);
  const Served yard("port");
  CHECK_THROWS_AS(app::Server(yard.folder, kPage, yard.server->port()), core::InputError);
  const Ran inside = run("barwright serve nowhere", yard.folder);
  CHECK(inside.exit_code == 3);
  CHECK_THAT(inside.err, Contains("there is no such folder"));
}

TEST_CASE("serve: a file that is no text is left to its editor, and is not saved over") {
  const Served served("bytes");
  const std::string latin = "name: caf\xE9\n";
  spill(served.folder + "/latin.yaml", latin);
  const auto answer = served.get("/files", served.headers());
  REQUIRE(answer);
  const json files = json::parse(answer->body);
  CHECK_FALSE(files["files"].contains("latin.yaml"));
  CHECK(files["files"].contains("yard-bar.yaml"));
  const auto run =
      served.post("/run", {{"args", {"weigh", "latin.yaml", "--json"}}, {"files", json::object()}});
  REQUIRE(run);
  CHECK_THAT(json::parse(run->body)["error"].get<std::string>(), Contains("latin.yaml:1:10:"));
  const auto saved = served.post(
      "/save", {{"files", {{"latin.yaml", {{"text", "name: cafe\n"}, {"was", nullptr}}}}}});
  REQUIRE(saved);
  CHECK(saved->status == 409);
  CHECK(slurp(served.folder + "/latin.yaml") == latin);
  for (const char* name : {"a\x1b.yaml", "a\nb.yaml", "a\xC2\x9B.yaml"}) {
    const auto refused = served.post("/save", {{"files", {{name, {{"text", "x"}}}}}});
    REQUIRE(refused);
    CHECK(refused->status == 409);
  }
}
