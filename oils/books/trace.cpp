#include "oils/books/trace.hpp"

#include <algorithm>
#include <set>

namespace barwright::oils {
namespace {

void add_once(std::vector<std::string>& to, const std::string& text) {
  if (!text.empty() && std::find(to.begin(), to.end(), text) == to.end()) to.push_back(text);
}

std::optional<Receipt> receipt_of(const Ledger& ledger, const std::string& what,
                                  std::string_view lot) {
  for (const Receipt& each : ledger.receipts) {
    if (each.what == what && each.lot == lot && !lot.empty()) return each;
  }
  return std::nullopt;
}

}  // namespace

std::vector<LotTrace> trace_lot(const Ledger& ledger, std::string_view lot) {
  std::set<std::string> things;
  for (const Receipt& each : ledger.receipts) {
    if (each.lot == lot) things.insert(each.what);
  }
  for (const BatchRecord& batch : ledger.batches) {
    for (const Use& use : batch.uses) {
      if (use.lot == lot) things.insert(use.what);
    }
  }
  std::vector<LotTrace> out;
  for (const std::string& what : things) {
    LotTrace trace{what, std::string(lot), receipt_of(ledger, what, lot), {}, 0, 0, 0, false};
    trace.pieces = trace.receipt && trace.receipt->pieces;
    for (const BatchRecord& batch : ledger.batches) {
      TracedBatch traced{&batch, 0, {}};
      for (const Use& use : batch.uses) {
        if (use.lot != lot || use.what != what) continue;
        traced.grams += use.grams;
        trace.pieces = use.pieces;
        add_once(traced.parts, use.part);
      }
      if (traced.grams <= 0) continue;
      trace.grams_used += traced.grams;
      trace.bars_sold += batch.sold;
      trace.bars_left += batch.bars_left();
      trace.batches.push_back(std::move(traced));
    }
    out.push_back(std::move(trace));
  }
  return out;
}

std::vector<TracedLot> trace_batch(const Ledger& ledger, const BatchRecord& batch) {
  std::vector<TracedLot> out;
  for (const Use& use : batch.uses) {
    auto found = std::find_if(out.begin(), out.end(), [&](const TracedLot& each) {
      return each.what == use.what && each.lot == use.lot;
    });
    if (found == out.end()) {
      const auto receipt = receipt_of(ledger, use.what, use.lot);
      out.push_back({use.what, use.lot, receipt ? receipt->supplier : "", 0, {}, use.pieces});
      found = out.end() - 1;
    }
    found->grams += use.grams;
    add_once(found->parts, use.part);
  }
  return out;
}

std::vector<std::string> known_lots(const Ledger& ledger) {
  std::set<std::string> out;
  for (const Receipt& each : ledger.receipts) out.insert(each.lot);
  for (const BatchRecord& batch : ledger.batches) {
    for (const Use& use : batch.uses) out.insert(use.lot);
  }
  out.erase("");
  return {out.begin(), out.end()};
}

}  // namespace barwright::oils
