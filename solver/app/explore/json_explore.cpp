#include "solver/app/explore/json_explore.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/trade/money.hpp"
#include "oils/text/journal_csv.hpp"
#include "solver/app/blend/json_blend.hpp"
#include "solver/app/blend/json_manners.hpp"
#include "solver/app/blend/json_sureness.hpp"
#include "solver/app/explore/rows_explore.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {
namespace {

Json blend_json(const jobs::ExploreJob& job, std::span<const int> steps, int all) {
  Json list = Json::array();
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i] > 0) {
      list.push_back({{"oil", oil_name(job, i)}, {"percent", 100.0 * steps[i] / all}});
    }
  }
  return list;
}

Json room_json(const jobs::ExploreJob& job, const std::vector<jobs::PriceRoom>& rooms) {
  Json list = Json::array();
  for (const auto& room : rooms) {
    list.push_back({{"oil", oil_name(job, static_cast<std::size_t>(room.oil))},
                    {"now_per_kg", room.now},
                    {"turns_per_kg", room.turns.per_kg ? Json(*room.turns.per_kg) : Json(nullptr)},
                    {"proved", room.turns.proved}});
  }
  return list;
}

Json plan_json(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  const auto& plan = *seen.plan;
  Json buys = Json::array();
  const std::vector<double> landed = landed_sums(seen);
  for (std::size_t k = 0; k < plan.buys.size(); ++k) {
    const auto& buy = plan.buys[k];
    const auto& pack =
        job.packs[static_cast<std::size_t>(buy.oil)][static_cast<std::size_t>(buy.pack)];
    buys.push_back({{"oil", pack.oil},
                    {"product", pack.product},
                    {"pack", pack.size},
                    {"pack_grams", pack.grams},
                    {"pack_price", pack.price},
                    {"count", buy.count},
                    {"landed", plan.found ? Json(landed[k]) : Json(nullptr)},
                    {"landed_per_kg", plan.found ? Json(seen.landed.buy_per_kg[k]) : Json(nullptr)},
                    {"line", pack.place.line}});
  }
  Json blends = Json::array();
  for (std::size_t b = 0; b < plan.steps.size(); ++b) {
    Json missed = Json::array();
    for (const auto& miss : seen.planned[b].missed)
      missed.push_back({{"wish", miss.words}, {"by", miss.by}, {"unit", miss.unit}});
    blends.push_back({{"for", job.bars[b].what_for},
                      {"oil_cost_per_bar", seen.landed.bar_cost[b]},
                      {"missed", missed},
                      {"refused", seen.planned[b].refused},
                      {"blend", blend_json(job, plan.steps[b], seen.plan_steps)}});
  }
  Json left = Json::array();
  for (std::size_t i = 0; i < plan.left_grams.size(); ++i) {
    if (plan.left_grams[i] < 1) continue;
    const bool bought = plan.found && seen.landed.left_grams[i] >= 1;
    left.push_back({{"oil", oil_name(job, i)},
                    {"grams", plan.left_grams[i]},
                    {"bought_grams", bought ? seen.landed.left_grams[i] : 0},
                    {"bought_worth", bought ? seen.landed.left_worth[i] : 0}});
  }
  return {{"found", plan.found},
          {"proved", plan.proved()},
          {"buys", buys},
          {"tax_percent", 100 * job.tax},
          {"goods", plan.goods},
          {"delivery", plan.delivery},
          {"delivery_spread", job.brief.money.delivery_by_value ? "value" : "weight"},
          {"cash", plan.cash()},
          {"blends", blends},
          {"left_over", left},
          {"tried", plan.tried},
          {"order_by", seen.order_by ? Json(core::text(*seen.order_by)) : Json(nullptr)}};
}

}  // namespace

std::string json_explore(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  const char* status = "infeasible";
  if (seen.plan) {
    status = seen.plan->found ? (seen.plan->proved() ? "optimal" : "feasible")
                              : (seen.plan->proved() ? "infeasible" : "undecided");
  }
  Json object = {{"schema", kJsonSchema},   {"command", "explore"},
                 {"status", status},        {"reason", seen.no_plan},
                 {"brief", job.brief.name}, {"currency", job.candidates().currency}};
  Json skipped = Json::array();
  for (const auto& row : job.skipped) {
    skipped.push_back({{"file", row.place.file}, {"line", row.place.line}, {"why", row.why}});
  }
  object["skipped_rows"] = skipped;
  Json bars = Json::array();
  for (std::size_t b = 0; b < job.bars.size(); ++b) {
    const auto& one = seen.bars[b];
    Json bar = {{"for", job.bars[b].what_for},
                {"bars", job.bars[b].bars},
                {"batches", job.bars[b].batches},
                {"status", word(one.found.answer.status)}};
    bar["manners"] = json_manners(one.manners);
    bar["hours_to_cut"] = one.manners.hours_to_cut;
    if (one.found.has_blend()) {
      const int all = one.found.formulation.problem.steps;
      bar["blend"] = blend_json(job, one.found.answer.steps, all);
      bar["recipe"] = json_recipe(one.found.recipe);
      Json others = Json::array();
      for (std::size_t k = 1; k < one.others.found.size(); ++k) {
        const auto& other = one.others.found[k];
        others.push_back({{"blend", blend_json(job, other.answer.steps, all)},
                          {"share_moved_percent", 100 * other.distance},
                          {"proved", other.answer.status == optimise::Status::optimal}});
      }
      bar["alternatives"] = others;
      Json points = Json::array();
      for (const auto& point : one.curve.points) {
        points.push_back({{"cost_per_kg", point.second},
                          {"feel_steps", std::sqrt(std::max(0.0, point.first))},
                          {"new_blend", point.new_blend},
                          {"proved", point.answer.status == optimise::Status::optimal},
                          {"blend", blend_json(job, point.answer.steps, all)}});
      }
      bar["curve"] = {{"proved", one.curve.proved}, {"points", points}};
      Json traced = Json::array();
      for (const auto& trade : one.traced) {
        Json list = Json::array();
        for (std::size_t k = 0; k < trade.seen.size(); ++k) {
          const auto& point = trade.curve.points[k];
          list.push_back({{"up", trade.seen[k].second},
                          {"across", trade.seen[k].first},
                          {"new_blend", point.new_blend},
                          {"proved", point.answer.status == optimise::Status::optimal},
                          {"blend", blend_json(job, point.answer.steps, all)}});
        }
        traced.push_back({{"up", side_words(job, trade.trade.up)},
                          {"across", side_words(job, trade.trade.across)},
                          {"reason", trade.no_curve},
                          {"proved", trade.curve.proved},
                          {"points", list}});
      }
      bar["curves"] = traced;
      bar["price_may_rise_to"] = room_json(job, one.room);
      bar["worth"] = room_json(job, one.worth);
    }
    bar["sureness"] = one.sureness ? json_sureness(*one.sureness) : Json(nullptr);
    bars.push_back(std::move(bar));
  }
  object["bars"] = bars;
  object["plan"] = seen.plan ? plan_json(job, seen) : Json(nullptr);
  return object.dump(2) + "\n";
}

}  // namespace barwright::app
