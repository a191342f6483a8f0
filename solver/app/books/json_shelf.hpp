#pragma once

#include <string>

#include "oils/books/trace.hpp"
#include "solver/app/books/command_shelf_week.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {

/// Puts what a lot is of into an object: "what", "kind", and for an oil "oil".
void put_what(Json& into, oils::StockKind kind, const std::string& name);
/// Puts how much of it: "grams", of packaging "pieces".
void put_amount(Json& into, oils::StockKind kind, double amount);

/// Returns "schema", "command", "status" and room for more.
Json json_head(const std::string& command, const std::string& status);

Json json_week(const oils::Books& books, const Week& week);
Json json_stock(const oils::Books& books);
Json json_lot_traces(const std::vector<oils::LotTrace>& traces);
Json json_batch_trace(const oils::BatchRecord& batch, const std::vector<oils::TracedLot>& lots);
/// Returns a batch with its state on a day.
Json json_batch(const oils::BatchRecord& batch, const core::Release& release);
Json json_shortages(const std::vector<oils::Shortage>& shortages);

}  // namespace barwright::app
