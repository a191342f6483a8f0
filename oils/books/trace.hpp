#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "oils/books/ledger.hpp"

namespace barwright::oils {

/// A batch that took from a lot.
struct TracedBatch {
  const BatchRecord* batch = nullptr;
  double grams = 0;  ///< from the lot, all parts together
  std::vector<std::string> parts;
};

/// From a lot forward: who supplied it, which batches hold it, how many of their bars are out.
struct LotTrace {
  std::string what, lot;
  std::optional<Receipt> receipt;
  std::vector<TracedBatch> batches;
  double grams_used = 0;
  int bars_sold = 0, bars_left = 0;
  bool pieces = false;  ///< packaging: grams are pieces
};

/// Returns one trace per thing that has a lot of this number (suppliers' numbers may be alike);
/// empty when none has.
std::vector<LotTrace> trace_lot(const Ledger& ledger, std::string_view lot);

/// From a batch back: a lot it holds.
struct TracedLot {
  std::string what, lot, supplier;
  double grams = 0;
  std::vector<std::string> parts;
  bool pieces = false;  ///< packaging: grams are pieces
};
/// Returns everything a batch holds, in the order it was recorded; lots in several parts once.
std::vector<TracedLot> trace_batch(const Ledger& ledger, const BatchRecord& batch);

/// Returns every lot number the journal knows, sorted.
std::vector<std::string> known_lots(const Ledger& ledger);

}  // namespace barwright::oils
