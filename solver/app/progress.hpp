#pragma once

#include <chrono>
#include <functional>
#include <memory>
#include <string>

#include "solver/formulate/goal_watch.hpp"

namespace barwright::app {

/// One line on a terminal that says how far a search has come, once it has lasted a second; it is
/// wiped out when the search ends, and changes nothing of it.
class ProgressLine : public formulate::GoalWatch {
 public:
  using Clock = std::function<std::chrono::steady_clock::duration()>;
  using Put = std::function<void(const std::string&)>;

  /// `clock`: time gone by since the start; `put`: takes what is to be written.
  ProgressLine(Clock clock, Put put);
  ~ProgressLine() override;
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  bool due() override;
  void seen(std::size_t goal, double value, double bound) override;
  void so_far(const formulate::Claim& claim, bool found, bool bounded) override;
  /// Says these words when it is time to; `ends`: what Ctrl-C does.
  void say(const std::string& words, const std::string& ends);

 private:
  void show(const std::string& words, const std::string& ends = "ends with it");

  Clock clock_;
  Put put_;
  std::chrono::steady_clock::duration next_;
  bool shown_ = false;
};

/// Returns a line on stderr where that is a terminal and this the program's own run; else null.
std::unique_ptr<ProgressLine> progress_line();

}  // namespace barwright::app
