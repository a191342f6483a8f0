#include "solver/app/blend/json_blend.hpp"

#include <algorithm>
#include <cmath>

#include "core/lye/lye_cautions.hpp"
#include "core/lye/lye_order.hpp"
#include "solver/app/blend/json_manners.hpp"
#include "solver/app/blend/json_sureness.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/blend/text_explain.hpp"
#include "solver/app/blend/text_sureness.hpp"
#include "solver/app/blend/ways_out.hpp"
#include "solver/app/json.hpp"
#include "solver/formulate/claim.hpp"

namespace barwright::app {
namespace {

// JSON knows no infinity: what has no end is null.
Json finite(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

const formulate::Asked& asked(const BlendReport& report, int wish) {
  return report.result.formulation.asked[static_cast<std::size_t>(wish)];
}

double shown(const formulate::Asked& wish, double value) {
  return (value - wish.offset) * wish.per_unit;
}

Json wish_json(const formulate::Asked& wish) {
  return {{"wish", wish.words},
          {"file", wish.place.file},
          {"line", wish.place.line},
          {"unit", wish.unit},
          {"compared", wish.compared}};
}

Json blend_json(const BlendReport& report, std::span<const int> steps) {
  Json list = Json::array();
  const double all = report.result.formulation.problem.steps;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i] == 0) continue;
    list.push_back(
        {{"oil", report.job->candidates.oils[i].oil.name}, {"percent", 100 * steps[i] / all}});
  }
  return list;
}

Json objective_json(const BlendReport& report) {
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
          {"holds_to", finite(shown(wish, move.holds_to))},
          {"holds_throughout", move.holds_throughout},
          {"next", next}};
}

Json limits_json(const BlendReport& report) {
  Json list = Json::array();
  for (const auto& price : report.prices) {
    const auto& wish = asked(report, price.wish);
    Json one = wish_json(wish);
    one["side"] = price.what == explain::Change::What::floor     ? "least"
                  : price.what == explain::Change::What::ceiling ? "most"
                                                                 : "rule";
    one["level"] = finite(shown(wish, price.level));
    one["binding"] = price.binds;
    one["step"] = finite(price.step * wish.per_unit);
    one["price"] = finite(price.looser.change);
    one["holds-from"] = finite(shown(wish, price.tighter.holds_to));
    one["holds-to"] = finite(shown(wish, price.looser.holds_to));
    one["looser"] = move_json(wish, price.looser);
    one["tighter"] = move_json(wish, price.tighter);
    list.push_back(std::move(one));
  }
  return list;
}

Json extreme_json(const formulate::Asked& wish, const explain::Extreme& extreme) {
  if (extreme.steps.empty()) return nullptr;
  return {{"value", finite(shown(wish, extreme.value))}, {"proved", extreme.proved()}};
}

Json change_json(const BlendReport& report, const explain::Change& change) {
  const auto& wish = asked(report, change.wish);
  const bool rule = change.what == explain::Change::What::rule;
  Json out = wish_json(wish);
  out["side"] = rule ? "rule" : change.what == explain::Change::What::floor ? "least" : "most";
  out["from"] = finite(rule ? change.from * wish.per_unit : shown(wish, change.from));
  out["to"] = finite(rule ? change.to * wish.per_unit : shown(wish, change.to));
  return out;
}

Json fix_json(const BlendReport& report, const jobs::TriedWay& way) {
  const explain::Fix& fix = way.fix;
  Json changes = Json::array();
  for (const auto& change : fix.changes) changes.push_back(change_json(report, change));
  Json edits = Json::array();
  for (const auto& edit : edits_of(report, way)) {
    Json one = {{"words", edit.words}};
    if (!edit.file.empty()) {
      one["file"] = edit.file;
      one["line"] = edit.line > 0 ? Json(edit.line) : Json(nullptr);
      if (edit.line == 0) one["section"] = edit.section;
      one["key"] = edit.key;
      one["value"] = edit.value ? Json(*edit.value) : Json(nullptr);
    }
    edits.push_back(std::move(one));
  }
  return {{"changes", changes},
          {"edits", edits},
          {"opens", way.opens},
          {"proved_least", fix.proved},
          {"size_in_noticeable_steps", finite(fix.size)},
          {"blend", blend_json(report, fix.steps)}};
}

void add_no(Json& object, const BlendReport& report, const No& no) {
  Json wishes = Json::array();
  for (const int wish : no.conflict.wishes) wishes.push_back(wish_json(asked(report, wish)));
  object["conflict"] = {{"wishes", wishes},
                        {"proved", no.conflict.proved},
                        {"minimal", no.conflict.minimal},
                        {"smallest", no.conflict.smallest},
                        {"reason", no.conflict.reason}};
  if (const auto& lye = report.result.lye_in_the_way)
    object["lye_in_the_way"] = {{"reason", lye->reason()}, {"remedy", lye->remedy()}};
  Json reach = Json::array();
  for (const auto& one : no.reach) {
    Json entry = wish_json(asked(report, one.wish));
    entry["under"] = one.under == explain::Under::rest    ? "the other wishes"
                     : one.under == explain::Under::rules ? "the rules on oils"
                                                          : "nothing else";
    entry["least"] = extreme_json(asked(report, one.wish), one.least);
    entry["most"] = extreme_json(asked(report, one.wish), one.most);
    reach.push_back(std::move(entry));
  }
  object["reach"] = reach;
  Json fixes = Json::array();
  for (const auto& way : no.ways) fixes.push_back(fix_json(report, way));
  if (no.together) fixes.push_back(fix_json(report, *no.together));
  object["fixes"] = fixes;
  Json purchases = Json::array();
  for (const auto& purchase : no.purchases.found) {
    Json names = Json::array();
    for (const int oil : purchase.oils) {
      names.push_back(no.purchase_names[static_cast<std::size_t>(oil)]);
    }
    purchases.push_back({{"oils", names}, {"price", finite(purchase.price)}});
  }
  object["purchases"] = purchases;
  object["purchases_proved"] = no.purchases.complete;
}

void add_alternatives(Json& object, const BlendReport& report) {
  Json list = Json::array();
  for (std::size_t n = 0; n < report.alternatives->found.size(); ++n) {
    const auto& other = report.alternatives->found[n];
    list.push_back({{"name", n == 0 ? "the best" : alternative_name(report, n)},
                    {"status", word(other.answer.status)},
                    {"blend", blend_json(report, other.answer.steps)},
                    {"share_moved_percent", 100 * other.distance}});
  }
  object["alternatives"] = list;
}

}  // namespace

Json json_properties(std::span<const PropertyLine> lines) {
  Json out = Json::object();
  for (const auto& line : lines) {
    out[std::string(targets::name(line.property))] = {{"value", line.value},
                                                      {"difference", line.against.value},
                                                      {"difference_low", line.against.low},
                                                      {"difference_high", line.against.high},
                                                      {"sure", line.against.sure},
                                                      {"leans_on", line.leans}};
  }
  return out;
}

Json json_recipe(const core::Recipe& recipe) {
  const auto fats = [](const std::vector<core::FatLine>& lines) {
    Json list = Json::array();
    for (const auto& fat : lines) {
      list.push_back({{"oil", fat.name},
                      {"grams", fat.grams},
                      {"percent", fat.percent_of_oils},
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

Json json_blend(const BlendReport& report) {
  const auto& result = report.result;
  Json object = {{"schema", kJsonSchema},
                 {"command", "blend"},
                 {"status", word(result.answer.status)},
                 {"reason", result.answer.reason},
                 {"brief", report.job->brief.name}};
  Json left_out = Json::array();
  for (const auto& left : report.job->candidates.left_out) {
    left_out.push_back({{"oil", left.oil}, {"why", left.why}});
  }
  object["left_out"] = left_out;
  if (result.has_blend()) {
    Json blend = Json::array();
    for (std::size_t line = 0; line < result.used.size(); ++line) {
      const std::size_t i = result.used[line];
      blend.push_back(
          {{"oil", report.job->candidates.oils[i].oil.name},
           {"percent", 100.0 * result.answer.steps[i] / result.formulation.problem.steps},
           {"grams", result.recipe.oils[line].grams}});
    }
    object["blend"] = blend;
    object["compared_with"] = report.compared.name;
    object["properties"] = json_properties(report.properties);
    Json cost = {{"currency", report.job->candidates.currency},
                 {"per_kg", nullptr},
                 {"per_batch", nullptr},
                 {"per_bar", nullptr}};
    if (report.cost) {
      cost["per_kg"] = report.cost->per_kg;
      cost["per_batch"] = report.cost->per_batch;
      if (report.cost->per_bar) cost["per_bar"] = *report.cost->per_bar;
    }
    object["cost"] = cost;
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
    Json wishes = Json::array();
    for (const auto& verdict : result.verdicts) {
      const auto& wish = asked(report, verdict.asked);
      Json one = wish_json(wish);
      one["value"] = finite(verdict.value * wish.per_unit);
      one["low"] = finite(verdict.low * wish.per_unit);
      one["high"] = finite(verdict.high * wish.per_unit);
      one["level"] = targets::words(wish.level);
      one["tie"] = inside_the_doubt(report, verdict);
      wishes.push_back(std::move(one));
    }
    object["wishes"] = wishes;
    object["manners"] = json_manners(report);
    object["hours_to_cut"] = report.manners.hours_to_cut;
    if (report.trial) object["lots_tried"] = json_trial(report);
    object["limits"] = limits_json(report);
    object["recipe"] = json_recipe(result.recipe);
    object["cautions"] = report.cautions;
    if (report.alternatives) add_alternatives(object, report);
  }
  if (report.sureness) object["sureness"] = json_sureness(*report.sureness);
  if (report.no) add_no(object, report, *report.no);
  object["search"] = {{"nodes", result.answer.stats.nodes}, {"cuts", result.answer.stats.cuts}};
  return object;
}

}  // namespace barwright::app
