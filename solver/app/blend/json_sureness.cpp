#include "solver/app/blend/json_sureness.hpp"

#include "solver/app/json.hpp"

namespace barwright::app {
namespace {

Json share_json(const jobs::WishTrial& trial, int lots) {
  return {{"held", trial.held},
          {"percent", 100.0 * trial.held / lots},
          {"percent_low", 100 * trial.low},
          {"percent_high", 100 * trial.high}};
}

Json or_null(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }

}  // namespace

Json json_trial(const jobs::BlendReport& report) {
  const auto& trial = *report.trial;
  Json wishes = Json::array();
  for (const auto& wish : trial.wishes) {
    Json one = {
        {"wish", report.result.formulation.asked[static_cast<std::size_t>(wish.asked)].words}};
    one.update(share_json(wish, trial.lots));
    wishes.push_back(std::move(one));
  }
  Json out = {{"lots", trial.lots},
              {"seed", trial.seed},
              {"confidence_percent", 95},
              {"wishes", wishes},
              {"all", share_json(trial.all, trial.lots)}};
  if (!report.trial_of.empty()) out["measured"] = report.trial_of;
  return out;
}

Json json_sureness(const jobs::SurenessPrice& price) {
  Json levels = Json::array();
  for (const auto& at : price.levels) {
    levels.push_back({{"level", targets::words(at.level)},
                      {"asked", at.asked},
                      {"manners_gave_way", at.manners_gave_way},
                      {"status", word(at.status)},
                      {"cost_per_kg", or_null(at.cost_per_kg)},
                      {"cost_per_bar", or_null(at.cost_per_bar)},
                      {"goal", or_null(at.goal)},
                      {"open", at.open}});
  }
  return {{"goal", price.goal}, {"unit", price.goal_unit}, {"levels", levels}};
}

}  // namespace barwright::app
