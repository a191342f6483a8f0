#pragma once

#include <atomic>

namespace barwright::app {

/// Returns a flag for SearchOptions::stop: the search ends with the best so far when it is raised.
/// In the program's own run the first Ctrl-C raises it, and a second ends the program at once, as
/// the system does; elsewhere it is the caller's, or null.
const std::atomic<bool>* stop_on_interrupt();

}  // namespace barwright::app
