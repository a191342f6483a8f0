#pragma once

#include <atomic>

namespace barwright::app {

/// Returns a flag that the first Ctrl-C raises, for SearchOptions::stop: the search then ends with
/// the best so far. A second Ctrl-C ends the program at once, as the system does.
const std::atomic<bool>* stop_on_interrupt();

}  // namespace barwright::app
