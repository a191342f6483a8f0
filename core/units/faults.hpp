#pragma once

#include <vector>

#include "core/units/error.hpp"

namespace barwright::core {

/// Collects what is wrong with lines that do not hang together, so that a maker sees it all at
/// once.
class Faults {
 public:
  /// Runs what reads one line, and keeps its error. Returns whether there was none.
  template <typename Read>
  bool of(Read&& read) {
    try {
      read();
      return true;
    } catch (InputError& error) {
      add(std::move(error));
      return false;
    }
  }
  /// Runs it on every one of a list, and throws what was found in any.
  template <typename List, typename Read>
  static void each(const List& list, Read&& read) {
    Faults found;
    for (const auto& one : list) found.of([&] { read(one); });
    found.done();
  }
  void add(InputError error);
  bool none() const { return found_.empty(); }
  /// Throws what was found as one InputError, first line first; returns where nothing was.
  void done() const;

 private:
  std::vector<InputError> found_;
};

}  // namespace barwright::core
