#include "solver/app/swap/json_swap.hpp"

#include <fmt/format.h>

#include "oils/text/journal_csv.hpp"
#include "solver/app/blend/json_blend.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {
namespace {

Json gap_json(const targets::FeelGap& gap) {
  Json terms = Json::array();
  for (std::size_t t = 0; t < gap.terms.size(); ++t) {
    terms.push_back({{"name", targets::feel_terms()[t].name}, {"steps", gap.terms[t]}});
  }
  return {{"unit", "steps, 1 is about what a user would just notice (judgement)"},
          {"total", gap.total},
          {"dry_bar", gap.part(targets::FeelPart::dry_bar)},
          {"lather", gap.part(targets::FeelPart::lather)},
          {"skin_after", gap.part(targets::FeelPart::skin_after)},
          {"terms", terms}};
}

Json swap_json(const jobs::SwapJob& job, const jobs::BlendResult& found,
               const jobs::SwapResult& result) {
  Json out;
  const auto& outside = result.outside;
  out["outside"] = {{"ingredients_before", outside.list_before},
                    {"ingredients_after", outside.list_after},
                    {"new_names", outside.new_names},
                    {"gone_names", outside.gone_names},
                    {"new_tags", outside.new_tags},
                    {"kept_claims", outside.kept_claims}};
  Json lines = Json::array();
  for (const auto& line : result.lines) {
    lines.push_back({{"oil", line.oil},
                     {"before_percent", 100 * line.before},
                     {"after_percent", 100 * line.after},
                     {"short_grams", line.to_buy_grams}});
  }
  out["oils"] = lines;
  out["feel"] = gap_json(result.gap);
  out["saving"] = nullptr;
  if (result.saving) {
    out["saving"] = {
        {"currency", job.blend.candidates.currency}, {"per_bar", result.saving->per_bar},
        {"per_batch", result.saving->per_batch},     {"old_per_bar", result.saving->old_per_bar},
        {"new_per_bar", result.saving->new_per_bar}, {"bars", job.bars},
        {"bars_assumed", job.bar_grams > 0}};
  }
  out["first_order"] = nullptr;
  if (result.first_order) {
    Json items = Json::array();
    for (const auto& item : result.first_order->items) {
      items.push_back({{"oil", item.oil},
                       {"count", item.count},
                       {"pack", item.size},
                       {"pack_grams", item.pack_grams},
                       {"money", item.money},
                       {"left_grams", item.left_grams},
                       {"left_worth", item.left_worth}});
    }
    out["first_order"] = {{"items", items},
                          {"delivery", result.first_order->delivery},
                          {"left_worth", result.first_order->left_worth},
                          {"saved_per_bar", result.first_order->saved_per_bar}};
  }
  Json bench = Json::array();
  for (const auto& line : result.bench) {
    bench.push_back(
        {{"what", line.what}, {"unit", line.unit}, {"before", line.before}, {"after", line.after}});
  }
  out["bench"] = bench;
  out["recipe_before"] = json_recipe(job.old_recipe);
  out["recipe"] = json_recipe(found.recipe);
  if (result.prices) {
    Json points = Json::array();
    const double all = found.formulation.problem.steps;
    for (const auto& point : result.prices->points) {
      Json blend = Json::array();
      for (std::size_t i = 0; i < point.steps.size(); ++i) {
        if (point.steps[i] == 0) continue;
        blend.push_back({{"oil", job.blend.candidates.oils[i].oil.name},
                         {"percent", 100 * point.steps[i] / all}});
      }
      points.push_back({{"saved_per_bar", point.saved_per_bar},
                        {"feel", gap_json(point.gap)},
                        {"blend", blend},
                        {"proved", point.proved}});
    }
    out["price_of_feel"] = {
        {"points", points}, {"proved", result.prices->proved}, {"why_not", result.prices->why_not}};
  }
  if (result.side_by_side) {
    const auto& both = *result.side_by_side;
    out["test_first"] = {{"old", both.before ? json_recipe(*both.before) : Json(nullptr)},
                         {"new", both.after ? json_recipe(*both.after) : Json(nullptr)},
                         {"refusal", both.refusal}};
  }
  return out;
}

}  // namespace

std::string json_swap(const jobs::SwapReport& report) {
  Json object = json_blend(report.blend);
  object["command"] = "swap";
  object["brief"] = report.job->brief.name;
  if (report.result) {
    object["swap"] = swap_json(*report.job, report.blend.result, *report.result);
  } else {
    object["swap"] = nullptr;
    if (report.nearest) {
      object["nearest"] = swap_json(*report.job, *report.nearest, *report.nearest_result);
      object["nearest"]["status"] = word(report.nearest->answer.status);
    }
  }
  return object.dump(2) + "\n";
}

std::string csv_swap(const jobs::SwapReport& report) {
  std::string out = "what,oil,figure,unit\n";
  const auto row = [&](const std::string& what, const std::string& oil, double figure,
                       const std::string& unit) {
    out += fmt::format("{},{},{:.6g},{}\n", oils::written_cell(what, ','),
                       oils::written_cell(oil, ','), figure, oils::written_cell(unit, ','));
  };
  if (!report.result && !report.nearest) return out;
  const jobs::SwapJob& job = *report.job;
  const auto& found = report.result ? report.blend.result : *report.nearest;
  const auto& result = report.result ? *report.result : *report.nearest_result;
  const std::string& currency = job.blend.candidates.currency;
  const std::string status = report.result ? "" : "nearest there is: ";
  for (const auto& line : result.lines) row("old", line.oil, 100 * line.before, "%");
  for (const auto& line : result.lines) row(status + "new", line.oil, 100 * line.after, "%");
  for (const auto& line : found.recipe.oils) row(status + "weigh", line.name, line.grams, "g");
  for (const auto& line : found.recipe.alkali) {
    row(status + "weigh", core::name(line.alkali), line.grams, "g");
  }
  row(status + "weigh", "water", found.recipe.water_grams, "g");
  for (std::size_t p = 0; p < targets::kFeelPartCount; ++p) {
    row("felt: " + std::string(targets::words(static_cast<targets::FeelPart>(p))), "",
        result.gap.parts[p], "steps");
  }
  if (result.saving) row("saved", "", result.saving->per_bar, currency + " per bar");
  for (const auto& line : result.bench) {
    row("bench, old: " + line.what, "", line.before, line.unit);
    row("bench, new: " + line.what, "", line.after, line.unit);
  }
  if (result.prices) {
    const double all = found.formulation.problem.steps;
    int number = 0;
    for (const auto& point : result.prices->points) {
      const std::string what = fmt::format("price of feel {}", ++number);
      row(what + ": saved", "", point.saved_per_bar, currency + " per bar");
      row(what + ": feel", "", point.gap.total, "steps");
      for (std::size_t i = 0; i < point.steps.size(); ++i) {
        if (point.steps[i] == 0) continue;
        row(what, job.blend.candidates.oils[i].oil.name, 100 * point.steps[i] / all, "%");
      }
    }
  }
  return out;
}

}  // namespace barwright::app
