// The line that a terminal shows while a search lasts.
#include "solver/app/progress.hpp"

#include <catch2/catch.hpp>

#include "running.hpp"

using namespace barwright;
using Catch::Matchers::Contains;
using namespace std::chrono_literals;

namespace {

formulate::Claim claim() {
  formulate::Claim out;
  out.goal = "most lather";
  out.unit = "points";
  out.value = 54.2;
  out.bound = 55.1;
  return out;
}

}  // namespace

TEST_CASE("a search that lasts a second says how far it has come, and wipes that out") {
  std::string text;
  auto now = std::chrono::steady_clock::duration(999ms);
  {
    app::ProgressLine line([&] { return now; }, [&](const std::string& put) { text += put; });
    CHECK_FALSE(line.due());
    now = 1s;
    REQUIRE(line.due());
    line.so_far({}, false, false);
    CHECK_THAT(text, Contains("1 s: no blend so far") && Contains("Ctrl-C"));
    CHECK_FALSE(line.due());  // not again at once
    now = 3s;
    REQUIRE(line.due());
    text.clear();
    line.so_far(claim(), true, true);
    CHECK_THAT(text, Contains("3 s: best so far 54.2 points in 'most lather', beyond 55.1 nothing "
                              "is possible"));
    CHECK(text.find('\n') == std::string::npos);
    text.clear();
    line.so_far(claim(), true, false);  // of parts not looked at nothing is known
    CHECK_THAT(text, Contains("best so far 54.2 points") && !Contains("beyond"));
    text.clear();
  }
  CHECK(text == "\r\x1b[K");
}

TEST_CASE("a search that takes less says nothing on the way") {
  std::string text;
  {
    app::ProgressLine line([] { return 900ms; }, [&](const std::string& put) { text += put; });
    CHECK_FALSE(line.due());
  }
  CHECK(text.empty());
}

TEST_CASE("where stderr is no terminal there is no such line") {
  CHECK(app::progress_line() == nullptr);
  const tests::Ran ran = tests::run("barwright blend examples/firmer-bar.yaml");
  CHECK(ran.err.empty());
}
