#include "solver/app/books/json_shelf.hpp"

#include <cmath>

#include "oils/books/draw.hpp"
#include "solver/app/blend/json_blend.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {

namespace {

Json lot_json(const oils::Lot& lot) {
  Json out = {{"lot", lot.lot}};
  put_what(out, lot.kind, lot.oil);
  put_amount(out, lot.kind, lot.grams);
  if (lot.strength) out["purity_percent"] = 100 * lot.strength->stated;
  const bool pieces = lot.kind == oils::StockKind::packaging;
  if (lot.keep_grams > 0) out[pieces ? "keep_pieces" : "keep_grams"] = lot.keep_grams;
  if (lot.price_per_kg)
    out[pieces ? "price_per_piece" : "price_per_kg"] = *lot.price_per_kg / (pieces ? 1000 : 1);
  if (!lot.supplier.empty()) out["supplier"] = lot.supplier;
  if (!lot.best_before.empty()) out["best_before"] = lot.best_before;
  return out;
}

}  // namespace

void put_what(Json& into, oils::StockKind kind, const std::string& name) {
  into["what"] = name;
  into["kind"] = oils::word(kind);
  if (kind == oils::StockKind::oil) into["oil"] = name;
}

void put_amount(Json& into, oils::StockKind kind, double amount) {
  if (kind == oils::StockKind::packaging)
    into["pieces"] = std::lround(amount);
  else
    into["grams"] = oils::journal_grams(amount);
}

Json json_head(const std::string& command, const std::string& status) {
  return {{"schema", kJsonSchema}, {"command", command}, {"status", status}};
}

Json json_batch(const oils::BatchRecord& batch, const core::Release& release) {
  Json parts = Json::array();
  for (const auto& part : batch.parts) {
    parts.push_back(
        {{"part", part.part}, {"poured_grams", part.poured}, {"cured_grams", part.cured}});
  }
  Json tests = Json::array();
  for (const auto& test : batch.tests) {
    tests.push_back({{"part", test.part},
                     {"date", core::text(test.day)},
                     {"outcome", test.passed ? "pass" : "fail"},
                     {"how", test.how}});
  }
  Json out = {{"batch", batch.id},
              {"made", core::text(batch.made)},
              {"ready", core::text(batch.ready)},
              {"hold", core::word(release.hold)},
              {"reasons", release.reasons},
              {"bars", batch.bars},
              {"bars_left", batch.bars_left()},
              {"sold", batch.sold},
              {"lost", batch.lost},
              {"earned", core::units(batch.earned)},
              {"parts", parts},
              {"tests", tests},
              {"notes", batch.notes}};
  if (batch.let_go)
    out["let_go"] = {{"date", core::text(batch.let_go->day)}, {"why", batch.let_go->why}};
  Json defects = Json::array();
  for (const auto& defect : batch.defects)
    defects.push_back({{"what", defect.what}, {"bars", defect.bars}});
  out["defects"] = defects;
  return out;
}

Json json_shortages(const std::vector<oils::Shortage>& shortages) {
  Json out = Json::array();
  for (const auto& each : shortages) {
    const bool pieces = each.kind == oils::StockKind::packaging;
    out.push_back({{"oil", each.oil},
                   {pieces ? "there_pieces" : "there_grams", each.there},
                   {pieces ? "planned_pieces" : "planned_grams", each.reserved + each.wanted},
                   {"batches", each.batches}});
  }
  return out;
}

Json json_week(const oils::Books& books, const Week& week) {
  Json out = json_head("shelf", "listed");
  out["shelf"] = books.shelf().name;
  out["date"] = core::text(week.today);
  out["use_up"] = Json::array();
  for (const auto& each : week.use_up) {
    Json lot = lot_json(*each.lot);
    lot["days"] = each.days;
    out["use_up"].push_back(lot);
  }
  out["reorder"] = Json::array();
  for (const auto& each : week.reorder) {
    const auto kind = books.shelf().kind_of(each.oil).value_or(oils::StockKind::oil);
    const bool pieces = kind == oils::StockKind::packaging;
    Json one = {{pieces ? "free_pieces" : "free_grams", each.free},
                {pieces ? "level_pieces" : "level_grams", each.level}};
    put_what(one, kind, each.oil);
    out["reorder"].push_back(one);
  }
  const auto add = [&](const char* key, const std::vector<BatchState>& states) {
    out[key] = Json::array();
    for (const auto& state : states) out[key].push_back(json_batch(*state.batch, state.release));
  };
  add("on_hold", week.on_hold);
  add("curing", week.curing);
  add("ready", week.ready);
  out["bars_fit_to_sell"] = week.bars_fit_to_sell;
  out["planned"] = Json::array();
  for (const auto& plan : week.planned) {
    Json grams = Json::object(), pieces = Json::object();
    for (const auto& [what, each] : plan.grams)
      (books.shelf().kind_of(what) == oils::StockKind::packaging ? pieces : grams)[what] = each;
    out["planned"].push_back({{"batch", plan.batch}, {"grams", grams}});
    if (!pieces.empty()) out["planned"].back()["pieces"] = pieces;
  }
  out["shortages"] = json_shortages(week.shortages);
  return out;
}

Json json_stock(const oils::Books& books) {
  Json out = json_head("shelf list", "listed");
  out["shelf"] = books.shelf().name;
  out["currency"] = books.shelf().currency;
  out["lots"] = Json::array();
  for (const std::size_t i : oils::use_up_order(books.shelf()))
    out["lots"].push_back(lot_json(books.shelf().lots[i]));
  return out;
}

Json json_lot_traces(const std::vector<oils::LotTrace>& traces) {
  Json out = json_head("shelf trace", "traced");
  out["lots"] = Json::array();
  for (const auto& trace : traces) {
    Json lot = {{"what", trace.what}, {"lot", trace.lot}};
    if (trace.receipt) {
      lot["received"] = core::text(trace.receipt->date);
      lot["supplier"] = trace.receipt->supplier;
    }
    lot["batches"] = Json::array();
    for (const auto& each : trace.batches) {
      lot["batches"].push_back({{"batch", each.batch->id},
                                {trace.pieces ? "pieces" : "grams", each.grams},
                                {"parts", each.parts},
                                {"sold", each.batch->sold},
                                {"left", each.batch->bars_left()}});
    }
    out["lots"].push_back(lot);
  }
  return out;
}

Json json_batch_trace(const oils::BatchRecord& batch, const std::vector<oils::TracedLot>& lots) {
  Json out = json_head("shelf trace", "traced");
  out["batch"] = batch.id;
  out["lots"] = Json::array();
  for (const auto& lot : lots) {
    out["lots"].push_back({{"what", lot.what},
                           {"lot", lot.lot},
                           {"supplier", lot.supplier},
                           {lot.pieces ? "pieces" : "grams", lot.grams},
                           {"parts", lot.parts}});
  }
  return out;
}

}  // namespace barwright::app
