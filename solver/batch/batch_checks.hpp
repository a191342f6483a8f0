#pragma once

#include "solver/batch/batch_times.hpp"

namespace barwright::batch {

/// Adds what the temperatures give cause to say: false trace, fats too soft to whip, gel under a
/// topping, a lye that never gets there in this room, ash.
void add_time_notes(const BatchPlan& plan, BatchTimes& times);

/// Adds figures of common practice (no source) beside ours, with the reason where they differ.
void add_trade_checks(const BatchPlan& plan, BatchTimes& times);

}  // namespace barwright::batch
