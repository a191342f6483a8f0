#include "solver/app/sheet/json_sheet.hpp"

#include "solver/app/blend/json_blend.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {
namespace {

Json check_of(const core::PotCheck& check) {
  if (check.nothing_left) return {{"nothing_left", true}};
  return {{"superfat_percent", 100 * check.superfat},
          {"worst_percent", 100 * check.band.low},
          {"best_percent", 100 * check.band.high},
          {"lye_heavy", check.lye_heavy()}};
}

Json lines_of(const std::vector<batch::WeighedAddition>& lines) {
  Json out = Json::array();
  for (const auto& line : lines) {
    out.push_back(
        {{"name", line.name}, {"grams", line.grams}, {"when", line.when}, {"remark", line.remark}});
  }
  return out;
}

Json optional_of(const std::optional<double>& value) { return value ? Json(*value) : Json(); }

Json part_of(const batch::PartPlan& part, const batch::PartTimes& times) {
  Json colours = Json::array(), scents = Json::array();
  for (const auto& colour : part.colours) {
    colours.push_back({{"name", colour.name},
                       {"share_percent", 100 * colour.share},
                       {"batter_grams", colour.batter_grams},
                       {"wet_grams", colour.wet_grams},
                       {"with", lines_of(colour.with)}});
  }
  for (const auto& scent : part.scents) {
    Json portions = Json::array(), behaves = Json::array();
    for (const auto& [what, how] : scent.behaves) {
      behaves.push_back({{"what", what}, {"how", how}});
    }
    for (const auto& portion : scent.portions) {
      portions.push_back({{"colour", portion.colour},
                          {"grams", portion.grams},
                          {"in_bar_percent", 100 * portion.in_bar}});
    }
    scents.push_back(
        {{"name", scent.scent->name},
         {"grams", scent.grams},
         {"asked_grams", scent.asked_grams},
         {"limit_percent", scent.limit ? Json(100 * *scent.limit) : Json()},
         {"capped", scent.capped},
         {"flash_celsius", optional_of(scent.flash_celsius)},
         {"behaves", behaves},
         {"soaked_in", scent.soaked_in ? lines_of(std::vector{*scent.soaked_in}) : Json::array()},
         {"portions", portions}});
  }
  Json recipe = json_recipe(part.recipe);
  if (part.portion) recipe.erase("lye_pot_order");  // its lye is weighed out of the one pot
  return {{"name", part.part->name},
          {"recipe", recipe},
          {"check", check_of(part.check)},
          {"lye_solution_grams", part.portion ? Json(part.portion->solution_grams) : Json()},
          {"colours", colours},
          {"scents", scents},
          {"into_lye", lines_of(part.into_lye)},
          {"additions", lines_of(part.additions)},
          {"on_top", lines_of(part.on_top)},
          {"embeds_ml", part.embed_ml},
          {"salt_percent_of_oils", 100 * part.salt_of_oils},
          {"temperatures",
           {{"oils_celsius", times.oils_celsius},
            {"lye_celsius", times.lye_celsius},
            {"batter_celsius", times.batter_celsius},
            {"solid_percent", 100 * times.solid_share},
            {"solids_fit", times.solids_fit},
            {"clear_celsius", times.clear_celsius},
            {"whips_from_celsius", times.firm_celsius},
            {"whips_to_celsius", times.soft_celsius}}},
          {"times",
           {{"lye_on_bench_hours", optional_of(times.lye_air_hours)},
            {"lye_in_bath_hours", optional_of(times.lye_bath_hours)},
            {"working_minutes", times.working_minutes},
            {"cut_hours", times.cut_hours},
            {"cure_weeks", times.cure_weeks}}}};
}

}  // namespace

Json sheet_object(const batch::BatchPlan& plan, const batch::BatchTimes& times) {
  Json parts = Json::array(), list = Json::array(), clock = Json::array(), pots = Json::array();
  Json checks = Json::array(), notes = Json::array();
  for (std::size_t i = 0; i < plan.parts.size(); ++i) {
    parts.push_back(part_of(plan.parts[i], times.parts[i]));
    if (plan.shared && plan.parts[i].portion) {
      parts.back()["not_topped_up"] = check_of(
          core::check_untopped(*plan.shared, plan.needs[i], *plan.parts[i].portion,
                               core::kBoiledOff * plan.shared->making_weight, plan.scales));
    }
  }
  for (const auto& line : plan.list) {
    Json in = Json::array();
    for (const auto& [part, grams] : line.parts) in.push_back({{"part", part}, {"grams", grams}});
    list.push_back({{"name", line.name},
                    {"grams", line.grams},
                    {"parts", in},
                    {"on_shelf_grams", optional_of(line.on_shelf)}});
  }
  for (const auto& step : batch::clock_of(plan, times)) {
    clock.push_back({{"minutes", step.minutes},
                     {"clock", batch::clock_text(plan, step.minutes)},
                     {"part", step.part},
                     {"what", step.what},
                     {"sign", step.sign}});
  }
  for (const auto& pot : times.pots) {
    pots.push_back({{"name", pot.name},
                    {"grams", pot.grams},
                    {"fresh_celsius", pot.fresh_celsius},
                    {"ice_grams", pot.ice.ice_grams},
                    {"with_ice_celsius", pot.ice.peak_celsius}});
  }
  for (const auto& check : times.checks) {
    checks.push_back({{"what", check.what},
                      {"practice", check.trade},
                      {"here", check.ours},
                      {"why", check.why}});
  }
  for (const auto* each : {&plan.notes, &times.notes}) {
    for (const auto& note : *each) {
      notes.push_back({{"severity", core::word(note.severity)}, {"text", note.text}});
    }
  }
  Json shared;
  if (plan.shared) {
    Json alkali = Json::array();
    for (const auto& line : plan.shared->alkali) {
      alkali.push_back({{"alkali", core::name(line.alkali)},
                        {"grams", line.grams},
                        {"purity_percent", 100 * line.purity}});
    }
    shared = {{"alkali", alkali},
              {"water_grams", plan.shared->water_grams},
              {"making_weight_grams", plan.shared->making_weight},
              {"concentration_percent", 100 * plan.shared->concentration},
              {"left_grams", plan.shared->left_grams}};
  }
  return {{"schema", kJsonSchema},
          {"command", "sheet"},
          {"status", "weighed"},
          {"name", plan.file.name},
          {"bars", plan.bars},
          {"lye_pot", shared},
          {"pots", pots},
          {"parts", parts},
          {"list", list},
          {"clock", clock},
          {"gel",
           {{"outlook", core::word(times.gel.gel)},
            {"gel_celsius", times.gel.gel_celsius},
            {"hottest_celsius", times.gel.peak_celsius},
            {"hottest_hours", times.gel.peak_hours}}},
          {"practice", checks},
          {"notes", notes}};
}

std::string json_sheet(const batch::BatchPlan& plan, const batch::BatchTimes& times) {
  return sheet_object(plan, times).dump(2) + "\n";
}

std::string json_rescue(const batch::BatchPlan& plan, const batch::Rescue& rescue) {
  Json parts = Json::array();
  for (const auto& part : rescue.parts) {
    Json fixes = Json::array();
    for (const auto& fix : part.fixes) {
      fixes.push_back({{"add", fix.what},
                       {"grams", fix.grams},
                       {"water_grams", fix.water_grams},
                       {"while_liquid_only", fix.liquid_only},
                       {"how", fix.how},
                       {"after", check_of(fix.after)}});
    }
    parts.push_back({{"part", part.part},
                     {"verdict", word(part.verdict)},
                     {"planned", check_of(part.planned)},
                     {"now", check_of(part.now)},
                     {"say", part.say},
                     {"fixes", fixes}});
  }
  const Json object = {{"schema", kJsonSchema},
                       {"command", "rescue"},
                       {"status", word(rescue.verdict())},
                       {"name", plan.file.name},
                       {"happened", rescue.happened},
                       {"parts", parts},
                       {"other_way", rescue.other_way ? check_of(*rescue.other_way) : Json()}};
  return object.dump(2) + "\n";
}

}  // namespace barwright::app
