#include "solver/app/serve/gate.hpp"

namespace barwright::app {

bool Gate::enter(bool search) {
  std::unique_lock<std::mutex> hold(door_);
  std::uint64_t mine = 0;
  if (search) {
    mine = ++last_;
    if (busy_ && may_be_ended_) stopped_.store(true, std::memory_order_relaxed);
    turn_.notify_all();
  }
  turn_.wait(hold, [&] { return closed_ || !busy_ || (search && mine != last_); });
  if (closed_ || (search && mine != last_)) return false;
  busy_ = true;
  may_be_ended_ = search;
  stopped_.store(false, std::memory_order_relaxed);
  return true;
}

void Gate::leave() {
  const std::lock_guard<std::mutex> hold(door_);
  busy_ = false;
  turn_.notify_all();
}

void Gate::stop() {
  const std::lock_guard<std::mutex> hold(door_);
  if (busy_) stopped_.store(true, std::memory_order_relaxed);
}

void Gate::close() {
  const std::lock_guard<std::mutex> hold(door_);
  closed_ = true;
  stopped_.store(true, std::memory_order_relaxed);
  turn_.notify_all();
}

}  // namespace barwright::app
