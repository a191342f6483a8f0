#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "oils/books/trace.hpp"
#include "solver/app/books/command_shelf_week.hpp"

namespace barwright::app {

/// Returns "schema", "command", "status" and room for more.
nlohmann::ordered_json json_head(const std::string& command, const std::string& status);

nlohmann::ordered_json json_week(const oils::Books& books, const Week& week);
nlohmann::ordered_json json_stock(const oils::Books& books);
nlohmann::ordered_json json_lot_traces(const std::vector<oils::LotTrace>& traces);
nlohmann::ordered_json json_batch_trace(const oils::BatchRecord& batch,
                                        const std::vector<oils::TracedLot>& lots);
/// Returns a batch with its state on a day.
nlohmann::ordered_json json_batch(const oils::BatchRecord& batch, const core::Release& release);
nlohmann::ordered_json json_shortages(const std::vector<oils::Shortage>& shortages);

}  // namespace barwright::app
