#pragma once

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <mutex>

namespace barwright::app {

/// One run at a time. A newer search ends an earlier one that runs, and takes the place of one that
/// waits.
class Gate {
 public:
  /// Waits for its turn. Returns false when a newer one took its place, or the gate was closed.
  bool enter(bool search);
  void leave();
  /// Ends the search that runs.
  void stop();
  /// Ends it, and lets no more in.
  void close();

  /// What the search inside looks at.
  const std::atomic<bool>& stopped() const { return stopped_; }

 private:
  std::mutex door_;
  std::condition_variable turn_;
  std::atomic<bool> stopped_ = false;
  bool busy_ = false, may_be_ended_ = false, closed_ = false;
  std::uint64_t last_ = 0;  // the newest search
};

}  // namespace barwright::app
