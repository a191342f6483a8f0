#include "solver/jobs/explore/explore_curves.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "solver/formulate/blend_forms.hpp"
#include "solver/formulate/feel_goal.hpp"
#include "solver/formulate/subject.hpp"
#include "targets/model/feel.hpp"

namespace barwright::jobs {
namespace {

using Kind = TradeSide::Kind;

std::optional<TradeSide> find_side(const std::string& text) {
  std::string word = oils::yaml::folded(text);
  if (word == "cost" || word == "oil cost") return TradeSide{Kind::cost, {}, "cost"};
  if (word == "feel") return TradeSide{Kind::feel, {}, "feel"};
  std::replace(word.begin(), word.end(), ' ', '-');
  const auto property = targets::find_property(word);
  if (!property || !targets::PropertyModel::has_form(*property)) return std::nullopt;
  return TradeSide{Kind::property, *property, std::string(targets::name(*property))};
}

// A side as a goal to be made least, and its value in the maker's unit.
struct Side {
  optimise::Goal goal;
  std::function<double(std::span<const double>)> value;
};

}  // namespace

std::optional<Trade> find_trade(const std::string& text) {
  const std::string between = " against ";
  const auto at = text.find(between);
  if (at == std::string::npos) return std::nullopt;
  const auto up = find_side(oils::yaml::trimmed(text.substr(0, at)));
  const auto across = find_side(oils::yaml::trimmed(text.substr(at + between.size())));
  if (!up || !across || up->name == across->name) return std::nullopt;
  return Trade{*up, *across};
}

std::string trades_known() {
  std::vector<std::string> names = {"cost", "feel"};
  for (const auto property : targets::all_properties()) {
    if (targets::PropertyModel::has_form(property)) names.emplace_back(targets::name(property));
  }
  return "Write two of them, such as 'cost against hardness': " + oils::yaml::one_of(names) + ".";
}

TracedTrade trace_trade(const BlendJob& job, const BlendResult& found, optimise::Problem problem,
                        std::span<const double> price_per_kg, const Trade& trade, int points,
                        const optimise::SearchOptions& options) {
  TracedTrade out;
  out.trade = trade;
  const bool feel = trade.up.kind == Kind::feel || trade.across.kind == Kind::feel;
  if (feel && !job.yardstick) {
    out.no_curve = "Feel needs a bar to be compared with: add 'compared-with:' to this bar.";
    return out;
  }
  const auto side = [&](const TradeSide& asked) -> Side {
    if (asked.kind == Kind::cost) {
      const optimise::Form form =
          optimise::weighted_sum(std::vector<double>(price_per_kg.begin(), price_per_kg.end()));
      return {optimise::Goal{form, {}, 0},
              [form](std::span<const double> x) { return form.at(x); }};
    }
    if (asked.kind == Kind::feel) {
      const auto terms =
          formulate::feel_over_oils(job.model, found.assumed.settings, job.candidates.oils);
      const auto points_there = formulate::feel_points(job.model, *job.yardstick);
      const auto& all = targets::feel_terms();
      return {formulate::feel_goal(terms, points_there),
              [terms, points_there, &all](std::span<const double> x) {
                double sum = 0;
                for (std::size_t t = 0; t < terms.size(); ++t) {
                  const double gap = terms[t].at(x) - points_there[t];
                  sum += all[t].weight * gap * gap;
                }
                return std::sqrt(sum);
              }};
    }
    targets::Subject subject;
    subject.property = asked.property;
    subject.name = asked.name;
    const explain::Measure measured =
        formulate::measure(subject, {}, job.candidates.oils, job.model, found.assumed.settings, {});
    constexpr double kMiddle = 50;  // curved scales keep their order: any level will do
    return {
        optimise::Goal{optimise::scaled(measured.form(measured.shifts ? 0 : kMiddle), -1), {}, 0},
        measured.at};
  };
  // Only the goal may be curved, so the feel is never the one under the ceiling.
  const bool turned = trade.across.kind == Kind::feel;
  const Side up = side(trade.up), across = side(trade.across);
  problem.goals = {turned ? across.goal : up.goal};
  out.curve =
      explain::trade_off(problem, turned ? up.goal.form : across.goal.form, points, options);
  for (const auto& point : out.curve.points) {
    const auto shares = problem.shares(point.answer.steps);
    out.seen.emplace_back(across.value(shares), up.value(shares));
  }
  if (out.curve.points.empty()) out.no_curve = "No curve was found in the time given.";
  return out;
}

}  // namespace barwright::jobs
