#include "core/units/faults.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace barwright::core {

void Faults::add(InputError error) {
  // Taken apart, so that all of them come in the order of the file.
  for (const InputError& other : error.also()) found_.push_back(other);
  found_.push_back(error.alone());
}

void Faults::done() const {
  if (found_.empty()) return;
  std::vector<InputError> sorted = found_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const InputError& a, const InputError& b) {
    if (a.place().file != b.place().file) return false;
    return std::tuple(a.place().line, a.place().column) <
           std::tuple(b.place().line, b.place().column);
  });
  InputError first = sorted.front();
  for (std::size_t i = 1; i < sorted.size(); ++i) first.add(std::move(sorted[i]));
  throw first;
}

}  // namespace barwright::core
