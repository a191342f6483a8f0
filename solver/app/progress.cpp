#include "solver/app/progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <utility>

#include "solver/app/run.hpp"

namespace barwright::app {
namespace {

using namespace std::chrono_literals;

constexpr std::chrono::steady_clock::duration kFirst = 1s, kThen = 250ms;

}  // namespace

ProgressLine::ProgressLine(Clock clock, Put put)
    : clock_(std::move(clock)), put_(std::move(put)), next_(kFirst) {}

ProgressLine::~ProgressLine() {
  if (shown_) put_("\r\x1b[K");
}

bool ProgressLine::due() { return clock_() >= next_; }

void ProgressLine::seen(std::size_t, double, double) { show("trying what else is possible"); }

void ProgressLine::so_far(const formulate::Claim& claim, bool found, bool bounded) {
  if (!found) return show("no blend so far");
  if (claim.goal.empty()) return show("a blend is found");
  std::string words =
      fmt::format("best so far {:.4g} {} in '{}'", claim.value, claim.unit, claim.goal);
  if (bounded) words += fmt::format(", beyond {:.4g} nothing is possible", claim.bound);
  show(words);
}

std::unique_ptr<ProgressLine> progress_line() {
  if (!surroundings().terminal || isatty(STDERR_FILENO) != 1) return nullptr;
  const auto start = std::chrono::steady_clock::now();
  return std::make_unique<ProgressLine>(
      [start] { return std::chrono::steady_clock::now() - start; },
      [](const std::string& text) {
        (void)std::fwrite(text.data(), 1, text.size(), stderr);
        (void)std::fflush(stderr);
      });
}

void ProgressLine::say(const std::string& words, const std::string& ends) {
  if (due()) show(words, ends);
}

void ProgressLine::show(const std::string& words, const std::string& ends) {
  const auto now = clock_();
  next_ = now + kThen;
  shown_ = true;
  put_(fmt::format("\r{} s: {} (Ctrl-C {})\x1b[K",
                   std::chrono::duration_cast<std::chrono::seconds>(now).count(), words, ends));
}

}  // namespace barwright::app
