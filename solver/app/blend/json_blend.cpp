#include "solver/app/blend/json_blend.hpp"

#include <algorithm>
#include <cmath>

#include "core/lye/lye_cautions.hpp"
#include "core/lye/lye_order.hpp"
#include "solver/app/blend/json_manners.hpp"
#include "solver/app/blend/json_no.hpp"
#include "solver/app/blend/json_rails.hpp"
#include "solver/app/blend/json_sureness.hpp"
#include "solver/app/blend/json_wish.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/blend/text_explain.hpp"
#include "solver/app/blend/text_sureness.hpp"
#include "solver/app/json.hpp"
#include "solver/formulate/claim.hpp"

namespace barwright::app {
namespace {

Json objective_json(const jobs::BlendReport& report) {
  Json list = Json::array();
  const auto& goals = report.result.formulation.goals;
  const auto& values = report.result.answer.goals;
  for (std::size_t g = 0; g < values.size() && g < goals.size(); ++g) {
    const auto& goal = report.result.formulation.problem.goals[g];
    list.push_back({{"name", goals[g].words},
                    {"unit", goals[g].unit},
                    {"value", finite(goals[g].shown(values[g].value))},
                    {"bound", finite(goals[g].shown(values[g].bound))},
                    {"tie", std::max(goal.give, goal.tie)},
                    {"tie_breaker", goals[g].tie_breaker}});
  }
  return list;
}

Json move_json(const formulate::Asked& wish, const explain::Move& move) {
  Json next = move.next;
  return {{"change", finite(move.change)},
          {"proved", move.proved},
          {"holds_to", finite(wish.shown(move.holds_to))},
          {"holds_throughout", move.holds_throughout},
          {"next", next}};
}

Json limits_json(const jobs::BlendReport& report) {
  Json list = Json::array();
  for (const auto& price : report.prices) {
    const auto& wish = asked_of(report, price.wish);
    Json one = wish_json(report, price.wish);
    one["side"] = price.what == explain::Change::What::floor     ? "least"
                  : price.what == explain::Change::What::ceiling ? "most"
                                                                 : "rule";
    one["level"] = finite(wish.shown(price.level));
    one["binding"] = price.binds;
    one["step"] = finite(price.step * wish.per_unit);
    one["price"] = finite(price.looser.change);
    one["holds-from"] = finite(wish.shown(price.tighter.holds_to));
    one["holds-to"] = finite(wish.shown(price.looser.holds_to));
    one["looser"] = move_json(wish, price.looser);
    one["tighter"] = move_json(wish, price.tighter);
    list.push_back(std::move(one));
  }
  return list;
}

void add_alternatives(Json& object, const jobs::BlendReport& report) {
  Json list = Json::array();
  for (std::size_t n = 0; n < report.alternatives->found.size(); ++n) {
    const auto& other = report.alternatives->found[n];
    list.push_back({{"name", n == 0 ? "the best" : alternative_name(report, n)},
                    {"status", word(other.answer.status)},
                    {"blend", json_shares(report, other.answer.steps)},
                    {"share_moved_percent", 100 * other.distance}});
  }
  object["alternatives"] = list;
}

}  // namespace

Json json_recipe(const core::Recipe& recipe) {
  const auto fats = [&](const std::vector<core::FatLine>& lines) {
    Json list = Json::array();
    for (const auto& fat : lines) {
      list.push_back({{"oil", fat.name},
                      {"grams", fat.grams},
                      {"percent", fat.share_of_oils > 0 ? 100 * fat.grams / recipe.oils_grams : 0},
                      {"saponification_value",
                       {{"low", fat.saponification_value.low},
                        {"typical", fat.saponification_value.typical},
                        {"high", fat.saponification_value.high},
                        {"unit", "mg KOH/g"},
                        {"source", fat.source},
                        {"mark", core::word(fat.mark)}}}});
    }
    return list;
  };
  const auto lines = [](const std::vector<core::Line>& all) {
    Json list = Json::array();
    for (const auto& line : all) {
      list.push_back({{"name", line.name}, {"grams", line.grams}, {"when", core::word(line.into)}});
    }
    return list;
  };
  Json lye = Json::array();
  for (const auto& alkali : recipe.alkali) {
    lye.push_back({{"alkali", core::name(alkali.alkali)},
                   {"grams", alkali.grams},
                   {"purity_percent", 100 * alkali.purity}});
  }
  Json order = Json::array();
  for (const auto& step : core::lye_order(recipe)) {
    order.push_back({{"name", step.name}, {"grams", step.grams}, {"how", step.how}});
  }
  Json forgotten = Json::array();
  for (const auto& one : recipe.forgotten) {
    forgotten.push_back(
        {{"line", one.line},
         {"superfat_percent", one.nothing_left ? Json(nullptr) : Json(100 * one.superfat)},
         {"at_worst_percent", one.nothing_left ? Json(nullptr) : Json(100 * one.worst)},
         {"lye_heavy", one.lye_heavy}});
  }
  Json cautions = Json::array();
  for (const auto& note : core::lye_cautions(recipe)) {
    cautions.push_back({{"severity", core::word(note.severity)}, {"text", note.text}});
  }
  Json notes = Json::array();
  for (const auto& note : recipe.notes) {
    notes.push_back({{"severity", core::word(note.severity)}, {"text", note.text}});
  }
  return {{"oils", fats(recipe.oils)},
          {"other_fats", fats(recipe.other_fats)},
          {"lye", lye},
          {"water_grams", recipe.water_grams},
          {"lye_pot_order", order},
          {"acids", lines(recipe.acids)},
          {"liquids", lines(recipe.liquids)},
          {"additives", lines(recipe.additives)},
          {"superfat_percent", 100 * recipe.superfat},
          {"superfat_asked_percent", 100 * recipe.asked_superfat},
          {"superfat_low_percent", 100 * recipe.band.low},
          {"superfat_high_percent", 100 * recipe.band.high},
          {"lye_concentration_percent", 100 * recipe.lye_concentration},
          {"lye_concentration_as_made_percent", 100 * recipe.mixed_concentration},
          {"oils_grams", recipe.oils_grams},
          {"total_grams", recipe.total_grams},
          {"if_forgotten", forgotten},
          {"cautions", cautions},
          {"notes", notes}};
}

Json json_blend(const jobs::BlendReport& report) {
  const auto& result = report.result;
  Json object = {{"schema", kBlendSchema},
                 {"command", "blend"},
                 {"status", word(result.answer.status)},
                 {"reason", result.answer.reason},
                 {"brief", report.job->brief.name}};
  const bool full = report.depth == jobs::Depth::full;
  object["mode"] = word(report.depth);
  object["brief_hash"] = report.brief_hash;
  Json left_out = Json::array();
  for (const auto& left : report.job->candidates.left_out) {
    left_out.push_back({{"oil", left.oil}, {"why", left.why}});
  }
  object["left_out"] = left_out;
  object["compared_with"] = report.compared.name;
  object["properties"] = properties_json(report);
  object["cost"] = cost_json(report);
  object["wishes"] = wishes_json(report);
  object["oil_rules"] = oil_rules_json(report);
  if (result.has_blend()) {
    Json blend = Json::array();
    for (std::size_t line = 0; line < result.used.size(); ++line) {
      const std::size_t i = result.used[line];
      blend.push_back(
          {{"oil", report.job->candidates.oils[i].oil.name},
           {"percent", 100.0 * result.answer.steps[i] / result.formulation.problem.steps}});
      if (full) blend.back()["grams"] = result.recipe.oils[line].grams;
    }
    object["blend"] = blend;
    const Json goals = objective_json(report);
    object["objective"] = goals.empty() ? Json(nullptr) : goals.front();
    object["objectives"] = goals;
    if (const auto bought = formulate::claim_of(result.formulation, result.answer).bought) {
      object["tie_bought"] = {{"goal", bought->goal},
                              {"unit", bought->unit},
                              {"value", bought->value},
                              {"instead_of", bought->instead},
                              {"given_way", bought->gave_way}};
    }
    object["superfat"] = superfat_json(result.recipe);
    object["make"] = make_json(report);
    object["manners"] = json_manners(report.manners);
    object["hours_to_cut"] = report.manners.hours_to_cut;
    if (report.trial) object["lots_tried"] = json_trial(report);
    if (full) {  // nothing is weighed out by what may still change
      object["limits"] = limits_json(report);
      object["recipe"] = json_recipe(result.recipe);
    }
    object["cautions"] = cautions_json(report);
    if (report.alternatives) add_alternatives(object, report);
  }
  if (report.sureness) object["sureness"] = json_sureness(*report.sureness);
  if (report.no) object.update(no_json(report, *report.no));
  object["search"] = {{"nodes", result.answer.stats.nodes}, {"cuts", result.answer.stats.cuts}};
  return object;
}

}  // namespace barwright::app
