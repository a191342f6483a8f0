#pragma once

#include <string>

#include "oils/books/trace.hpp"
#include "solver/app/books/command_shelf_week.hpp"

namespace barwright::app {

/// Each returns a page for the maker.
std::string text_week(const oils::Books& books, const Week& week);
std::string text_stock(const oils::Books& books, const core::Day& today);
std::string text_lot_traces(const std::vector<oils::LotTrace>& traces);
std::string text_batch_trace(const oils::BatchRecord& batch,
                             const std::vector<oils::TracedLot>& lots);

/// Returns the sentence that warns of oil which several batches count on.
std::string shortage_words(const oils::Shortage& shortage);

}  // namespace barwright::app
