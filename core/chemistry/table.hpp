#pragma once

#include <span>

namespace barwright::core {

/// A line of a handbook's table.
struct TablePoint {
  double at = 0;
  double value = 0;
};

/// Returns the value at `at`, straight between the lines (two or more, rising); beyond the table as
/// at its ends.
double read_table(std::span<const TablePoint> table, double at);

}  // namespace barwright::core
