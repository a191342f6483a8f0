// Files that are somebody's: none is replaced that was not written here, and what is said of a
// write is true.
#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace barwright::tests;
using Catch::Matchers::Contains;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

std::string yard(const std::string& name) {
  const std::string folder = fresh_folder(name);
  REQUIRE(run("barwright new yard", folder).exit_code == 0);
  return folder + "/yard";
}

unsigned mode_of(const std::string& path) {
  struct stat found {};
  REQUIRE(::stat(path.c_str(), &found) == 0);
  return found.st_mode & 0777U;
}

std::string all_of(const std::string& folder) {
  std::string out;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.is_regular_file()) out += entry.path().string() + slurp(entry.path().string());
  return out;
}

}  // namespace

TEST_CASE("no output replaces a file that was not written by it") {
  const std::string folder = yard("own-outputs");
  REQUIRE(run("barwright make yard-bar.yaml --as slipway --bars 10 --date 2027-01-05", folder)
              .exit_code == 0);
  const std::string shelf = slurp(folder + "/weighbridge-shelf.yaml");
  const std::string journal = slurp(folder + "/weighbridge-shelf-journal.csv");
  fs::create_symlink("nowhere", folder + "/dangling");
  for (const std::string command :
       {"sheet towpath-batch.yaml --page ", "release slipway --ics ",
        "release slipway --test 'bar=pass, no zap' --ics ",
        "release slipway --date 2027-03-01 --let-go 'weighed again' --ics ",
        "blend firmer-bar.yaml --save ", "blend firmer-bar.yaml --lp ",
        "blend --from olive:100 --want harder --save-brief ", "swap butter-out.yaml --save ",
        "swap butter-out.yaml --page ", "explore spring-line.yaml --page "}) {
    for (const std::string file : {"weighbridge-shelf.yaml", "weighbridge-shelf-journal.csv",
                                   "dangling", ".", "none/here.html"}) {
      CAPTURE(command, file);
      const Ran ran = run("barwright " + command + file, folder);
      CHECK(ran.exit_code == 2);
      CHECK(ran.out.empty());
    }
  }
  CHECK(slurp(folder + "/weighbridge-shelf.yaml") == shelf);
  CHECK(slurp(folder + "/weighbridge-shelf-journal.csv") == journal);
  CHECK(fs::is_symlink(folder + "/dangling"));
}

TEST_CASE("a page or a calendar of ours is written again, and nobody else's") {
  const std::string folder = yard("own-again");
  REQUIRE(run("barwright make yard-bar.yaml --as slipway --bars 10 --date 2027-01-05", folder)
              .exit_code == 0);
  for (int i = 0; i < 2; ++i) {
    CHECK(run("barwright sheet towpath-batch.yaml --page bar.html", folder).exit_code == 0);
    CHECK(run("barwright release slipway --ics bar.ics", folder).exit_code == 0);
  }
  CHECK(run("barwright release slipway --ics bar.html", folder).exit_code == 2);
  CHECK(run("barwright sheet towpath-batch.yaml --page bar.ics", folder).exit_code == 2);
}

TEST_CASE("two outputs of one command have two names") {
  const std::string folder = yard("own-two");
  const Ran ran = run("barwright swap butter-out.yaml --save a.yaml --page ./a.yaml", folder);
  CHECK(ran.exit_code == 2);
  CHECK_FALSE(fs::exists(folder + "/a.yaml"));
}

TEST_CASE("an answer that cannot be printed is no success") {
  for (const char* command :
       {"barwright oils olive > /dev/full", "barwright oils olive --json > /dev/full",
        "barwright oils olive >&-"}) {
    const Ran ran = run(command);
    CHECK(ran.exit_code == 3);
    CHECK_THAT(ran.err, Contains("could not be written"));
  }
}

TEST_CASE("with the standard streams closed nothing is printed into the books") {
  const std::string folder = yard("own-closed");
  const Ran ran = run("barwright shelf reserve olive '900 g' --for spring >&- 2>&- <&-", folder);
  CHECK(ran.exit_code == 3);
  CHECK_THAT(slurp(folder + "/weighbridge-shelf-journal.csv"), !Contains("Reserved"));
  CHECK(run("barwright shelf", folder).exit_code == 0);
}

TEST_CASE("a disc that is full costs no answer and no other file, and says so") {
  const std::string folder = yard("own-full");
  // 8 blocks of 512 bytes: less than a page. What is printed goes through a pipe, which has no end.
  const auto on_a_full_disc = [&](const std::string& command) {
    return run("(ulimit -f 8; trap '' XFSZ; barwright " + command +
                   "; echo $? > rc) | cat; exit $(cat rc)",
               folder);
  };
  const Ran page = on_a_full_disc("swap butter-out.yaml --page p.html --json");
  CHECK(page.exit_code == 3);
  CHECK(json::parse(page.out)["errors"][0]["message"].get<std::string>().find("File too large") !=
        std::string::npos);
  CHECK_THAT(page.err, Contains("File too large"));
  const Ran sheet = on_a_full_disc("sheet towpath-batch.yaml --page p.html");
  CHECK(sheet.exit_code == 3);
  CHECK_THAT(sheet.err, Contains("File too large") && Contains("was not written"));
  for (const auto& entry : fs::directory_iterator(folder)) {
    CAPTURE(entry.path().string());
    CHECK(entry.path().extension() != ".part");
    CHECK(entry.path().extension() != ".html");
  }
}

TEST_CASE("a test is recorded once, and the calendar that failed says so") {
  const std::string folder = yard("own-calendar");
  REQUIRE(run("barwright make yard-bar.yaml --as slipway --bars 10 --date 2027-01-05", folder)
              .exit_code == 0);
  const std::string long_name(300, 'c');  // no file system takes it
  const Ran ran = run(
      "barwright release slipway --date 2027-01-06 --test 'bar=pass, no zap' --ics " + long_name,
      folder);
  CHECK(ran.exit_code == 3);
  CHECK_THAT(ran.err, Contains("is on record") && Contains("--ics alone"));
  CHECK_THAT(ran.err, !Contains("Nothing"));
  CHECK_THAT(slurp(folder + "/weighbridge-shelf-journal.csv"), Contains("tested,slipway"));
}

TEST_CASE("the shelf that a link names is the shelf, with one lock and one journal") {
  const std::string folder = yard("own-links");
  fs::create_directory(folder + "/desk");
  fs::create_symlink("../weighbridge-shelf.yaml", folder + "/desk/my-shelf.yaml");
  fs::create_symlink("desk/my-shelf.yaml", folder + "/again-shelf.yaml");
  REQUIRE(run("barwright shelf receive olive '1 kg' --lot L-1 --shelf desk/my-shelf.yaml", folder)
              .exit_code == 0);
  REQUIRE(run("barwright shelf receive olive '1 kg' --lot L-2 --shelf again-shelf.yaml", folder)
              .exit_code == 0);
  REQUIRE(run("barwright edit again-shelf.yaml shelf 'The Yard'", folder).exit_code == 0);
  CHECK(fs::is_symlink(folder + "/desk/my-shelf.yaml"));
  CHECK(fs::is_symlink(folder + "/again-shelf.yaml"));
  CHECK_FALSE(fs::exists(folder + "/desk/my-shelf-journal.csv"));
  CHECK_FALSE(fs::exists(folder + "/again-shelf-journal.csv"));
  CHECK_THAT(slurp(folder + "/weighbridge-shelf.yaml"),
             Contains("L-1") && Contains("L-2") && Contains("The Yard"));
  CHECK_THAT(slurp(folder + "/weighbridge-shelf-journal.csv"), Contains("L-1") && Contains("L-2"));
  // What is planned is kept back by whatever name the shelf is called.
  REQUIRE(run("barwright shelf reserve olive '900 g' --for spring --shelf again-shelf.yaml", folder)
              .exit_code == 0);
  CHECK(json::parse(run("barwright shelf list --json --shelf desk/my-shelf.yaml", folder).out) ==
        json::parse(run("barwright shelf list --json --shelf weighbridge-shelf.yaml", folder).out));
}

TEST_CASE("a journal that is a link stays one") {
  const std::string folder = yard("own-journal-link");
  fs::create_directory(folder + "/office");
  fs::create_symlink("office/journal.csv", folder + "/weighbridge-shelf-journal.csv");
  spill(folder + "/office/journal.csv", "");
  REQUIRE(
      run("barwright shelf receive olive '1 kg' --lot L-1 --shelf weighbridge-shelf.yaml", folder)
          .exit_code == 0);
  CHECK(fs::is_symlink(folder + "/weighbridge-shelf-journal.csv"));
  CHECK_THAT(slurp(folder + "/office/journal.csv"), Contains("L-1"));
}

TEST_CASE("links that lie in wait are not followed") {
  const std::string folder = yard("own-traps");
  spill(folder + "/mine.txt", "mine");
  for (const char* trap : {".weighbridge-shelf.yaml.part", ".weighbridge-shelf-journal.csv.part",
                           "..weighbridge-shelf-unfinished.part", ".bar.html.part"})
    fs::create_symlink("mine.txt", folder + "/" + trap);
  REQUIRE(
      run("barwright shelf receive olive '1 kg' --lot L-1 --shelf weighbridge-shelf.yaml", folder)
          .exit_code == 0);
  REQUIRE(run("barwright sheet towpath-batch.yaml --page bar.html", folder).exit_code == 0);
  CHECK(slurp(folder + "/mine.txt") == "mine");
  CHECK_FALSE(fs::is_symlink(folder + "/weighbridge-shelf.yaml"));
  fs::remove(folder + "/.weighbridge-shelf-lock");
  fs::create_symlink("mine.txt", folder + "/.weighbridge-shelf-lock");
  const Ran ran =
      run("barwright shelf receive olive '1 kg' --lot L-2 --shelf weighbridge-shelf.yaml", folder);
  CHECK(ran.exit_code == 3);
  CHECK_THAT(ran.err, Contains("take the link out"));
  CHECK(slurp(folder + "/mine.txt") == "mine");
}

TEST_CASE("what a private shelf writes is private, and a group's stays the group's") {
  const std::string folder = yard("own-modes");
  for (const unsigned mode : {0600U, 0660U, 0640U, 0644U}) {
    CAPTURE(mode);
    fs::remove(folder + "/weighbridge-shelf-journal.csv");
    fs::remove(folder + "/.weighbridge-shelf-lock");
    REQUIRE(::chmod((folder + "/weighbridge-shelf.yaml").c_str(), mode) == 0);
    const Ran ran = run("barwright shelf receive olive '1 kg' --lot L-" + std::to_string(mode) +
                            " --shelf weighbridge-shelf.yaml",
                        folder);
    REQUIRE(ran.exit_code == 0);
    CHECK(mode_of(folder + "/weighbridge-shelf.yaml") == mode);
    CHECK(mode_of(folder + "/weighbridge-shelf-journal.csv") == mode);
    CHECK(mode_of(folder + "/.weighbridge-shelf-lock") == mode);
  }
}

TEST_CASE("owner and group are kept", "[root]") {
  if (::geteuid() != 0) return;  // only root can give a file away
  const std::string folder = yard("own-owner");
  const std::string shelf = folder + "/weighbridge-shelf.yaml";
  REQUIRE(::chown(shelf.c_str(), 1234, 4321) == 0);
  REQUIRE(
      run("barwright shelf receive olive '1 kg' --lot L-1 --shelf weighbridge-shelf.yaml", folder)
          .exit_code == 0);
  for (const std::string& path : {shelf, folder + "/weighbridge-shelf-journal.csv"}) {
    struct stat found {};
    REQUIRE(::stat(path.c_str(), &found) == 0);
    CHECK(found.st_uid == 1234);
    CHECK(found.st_gid == 4321);
  }
}

TEST_CASE("a folder of a group works, and one that is none says how", "[root]") {
  if (::geteuid() != 0) return;  // only root can be two people
  const std::string folder = yard("own-group");
  const auto as = [&](int person, const std::string& command) {
    return run("umask 022; setpriv --reuid " + std::to_string(person) +
                   " --regid 4321 --clear-groups '" BARWRIGHT_BINARY "' shelf " + command +
                   " --shelf weighbridge-shelf.yaml",
               folder);
  };
  REQUIRE(run("chown 1111:4321 . *; chmod g+rw *; chmod 2770 .; chmod a+rx ..", folder).exit_code ==
          0);
  CHECK(as(1111, "receive olive '1 kg' --lot L-1").exit_code == 0);
  CHECK(as(2222, "receive olive '1 kg' --lot L-2").exit_code == 0);
  CHECK(as(1111, "receive olive '1 kg' --lot L-3").exit_code == 0);
  CHECK_THAT(slurp(folder + "/weighbridge-shelf-journal.csv"),
             Contains("L-1") && Contains("L-2") && Contains("L-3"));
  CHECK(mode_of(folder + "/weighbridge-shelf-journal.csv") == 0664U);
  std::filesystem::remove(folder + "/.weighbridge-shelf-lock");
  REQUIRE(run("chmod 0755 .", folder).exit_code == 0);
  const Ran none = as(2222, "receive olive '1 kg' --lot L-4");
  CHECK(none.exit_code == 3);
  CHECK_THAT(none.err, Contains("chgrp GROUP FOLDER"));
}

TEST_CASE("what is no file is refused and not waited for") {
  const std::string folder = yard("own-pipes");
  REQUIRE(::mkfifo((folder + "/pipe.yaml").c_str(), 0600) == 0);
  REQUIRE(::mkfifo((folder + "/pipe.csv").c_str(), 0600) == 0);
  for (const char* command :
       {"weigh pipe.yaml", "blend pipe.yaml", "swap pipe.yaml", "explore pipe.yaml",
        "sheet pipe.yaml", "edit pipe.yaml name x", "label yard-bar.yaml --with pipe.yaml",
        "make pipe.yaml", "weigh /dev/zero",
        "shelf receive --from pipe.csv --shelf weighbridge-shelf.yaml", "shelf --shelf pipe.yaml",
        "swap butter-out.yaml --prices pipe.csv",
        "blend firmer-bar.yaml --lots pipe.csv --oil olive",
        "shelf receive --from /dev/zero --shelf weighbridge-shelf.yaml"}) {
    CAPTURE(command);
    CHECK(run(std::string("timeout 10 '" BARWRIGHT_BINARY "' ") + command, folder).exit_code == 3);
  }
  REQUIRE(::mkfifo((folder + "/weighbridge-shelf-journal.csv").c_str(), 0600) == 0);
  CHECK(run("timeout 10 '" BARWRIGHT_BINARY "' shelf --shelf weighbridge-shelf.yaml", folder)
            .exit_code == 3);
  CHECK_FALSE(all_of(folder).empty());
}

TEST_CASE("a shelf that was renamed while an entry waits loses nothing") {
  const std::string folder = yard("own-renamed");
  REQUIRE(
      run("barwright shelf receive olive '1 kg' --lot L-1 --shelf weighbridge-shelf.yaml", folder)
          .exit_code == 0);
  spill(folder + "/.weighbridge-shelf-unfinished", "barwright unfinished entry 1\n");
  fs::rename(folder + "/weighbridge-shelf.yaml", folder + "/new-shelf.yaml");
  const std::string before = slurp(folder + "/new-shelf.yaml");
  for (const char* command :
       {"barwright shelf receive olive '1 kg' --lot L-2", "barwright shelf"}) {
    const Ran ran = run(command, folder);
    CHECK(ran.exit_code == 3);
    CHECK_THAT(ran.err, Contains("that shelf is no longer here"));
  }
  CHECK(slurp(folder + "/new-shelf.yaml") == before);
  CHECK_FALSE(fs::exists(folder + "/new-shelf-journal.csv"));
}

TEST_CASE("what an ended program left lying is swept at the next start") {
  const std::string folder = yard("own-swept");
  for (const char* left : {".weighbridge-shelf.yaml.part", ".weighbridge-shelf-journal.csv.part",
                           "..weighbridge-shelf-unfinished.part"})
    spill(folder + "/" + left, "half");
  REQUIRE(run("barwright shelf reserve olive '900 g' --for spring --shelf weighbridge-shelf.yaml",
              folder)
              .exit_code == 0);
  for (const auto& entry : fs::directory_iterator(folder))
    CHECK(entry.path().extension() != ".part");
}

TEST_CASE("a working folder that is gone is told, and is no fault of ours") {
  const std::string folder = yard("own-gone");
  for (const char* command : {"barwright shelf", "barwright new there", "barwright weigh bar.yaml",
                              "barwright blend --from olive:100 --want harder --save s.yaml",
                              "barwright explore x.yaml --page p.html"}) {
    CAPTURE(command);
    const Ran ran = run(std::string("mkdir d && cd d && rmdir ../d && ") + command, folder);
    CHECK(ran.exit_code != 0);
    CHECK(ran.exit_code != 70);
    CHECK_FALSE(ran.err.empty());
  }
}

TEST_CASE("a clock that went back writes nothing that cannot be read") {
  const std::string folder = yard("own-clock");
  REQUIRE(run("barwright make yard-bar.yaml --as slipway --bars 10 --date 2027-01-05", folder)
              .exit_code == 0);
  const std::string before = slurp(folder + "/weighbridge-shelf-journal.csv");
  const Ran ran =
      run("barwright release slipway --test 'bar=pass, no zap' --date 2026-12-31", folder);
  CHECK(ran.exit_code == 3);
  CHECK_THAT(ran.err, Contains("before slipway was made on 2027-01-05"));
  CHECK(slurp(folder + "/weighbridge-shelf-journal.csv") == before);
  CHECK(run("barwright shelf --date 2026-12-31", folder).exit_code == 0);
}

TEST_CASE("a reader that goes away costs the books nothing") {
  const std::string folder = yard("own-pipe");
  REQUIRE(run("barwright shelf reserve olive '900 g' --for spring | true", folder).exit_code == 0);
  CHECK_THAT(slurp(folder + "/weighbridge-shelf-journal.csv"), Contains("reserved,spring"));
  CHECK(run("barwright shelf", folder).exit_code == 0);
}
