#include "solver/app/interrupt.hpp"

#include <csignal>

#include "solver/app/run.hpp"

namespace barwright::app {
namespace {

std::atomic<bool> stopped = false;
static_assert(std::atomic<bool>::is_always_lock_free);  // or a handler may not touch it

extern "C" void on_interrupt(int) {
  stopped.store(true, std::memory_order_relaxed);
  std::signal(SIGINT, SIG_DFL);
}

}  // namespace

const std::atomic<bool>* stop_on_interrupt() {
  if (!surroundings().terminal) return surroundings().stop;
  std::signal(SIGINT, on_interrupt);
  return &stopped;
}

}  // namespace barwright::app
