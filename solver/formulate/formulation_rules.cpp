#include "solver/formulate/formulation_rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/format.hpp"
#include "core/units/weight_text.hpp"
#include "solver/formulate/blend_forms.hpp"
#include "solver/recipe/recipe_request.hpp"

namespace barwright::formulate {
namespace {

// Shares such as 0.07 * 100 must not fall to 6 by the last bit.
constexpr double kSlip = 1e-9;

int floor_steps(double steps) {
  return static_cast<int>(std::floor(steps + kSlip * std::max(1.0, steps)));
}
int ceil_steps(double steps) {
  return static_cast<int>(std::ceil(steps - kSlip * std::max(1.0, steps)));
}

std::string percent(double fraction) { return fmt::format("{:.4g} %", 100 * fraction); }

int add_asked(Formulation& out, Asked asked) {
  out.asked.push_back(std::move(asked));
  return static_cast<int>(out.asked.size()) - 1;
}

void add_oil_rule(Formulation& out, int wish, explain::RuleKind kind, std::size_t oil, int bound) {
  const explain::Rule rule{
      .wish = wish, .kind = kind, .oil = static_cast<int>(oil), .bound = bound};
  explain::add_rule(out.problem, rule, bound);
  out.wishes.rules.push_back(rule);
}

bool has_tag(const Candidate& candidate, const std::string& tag) {
  return candidate.oil.tags.count(tag) > 0;
}

void add_barred(Formulation& out, const targets::BarredOil& bar, const Candidates& candidates) {
  const int wish = add_asked(out, {.words = "not: " + bar.written.text,
                                   .place = bar.written.place,
                                   .subject = bar.written.text,
                                   .bars = true});
  for (std::size_t i = 0; i < candidates.oils.size(); ++i) {
    const auto& candidate = candidates.oils[i];
    if (candidate.oil.name == bar.oil || (!bar.tag.empty() && has_tag(candidate, bar.tag))) {
      add_oil_rule(out, wish, explain::RuleKind::oil_most, i, 0);
    }
  }
}

std::string limit_words(const targets::OilLimit& limit) {
  std::string range;
  if (limit.least && limit.most && *limit.least == *limit.most) {
    range = "exactly " + percent(*limit.least);
  } else if (limit.least && limit.most) {
    range = percent(*limit.least) + " to " + percent(*limit.most);
  } else if (limit.least) {
    range = "at least " + percent(*limit.least);
  } else if (limit.most) {
    range = "at most " + percent(*limit.most);
  }
  const bool least = limit.least && *limit.least > 0;
  if (limit.always && !least) range += range.empty() ? "always" : ", always";
  return limit.oil.name + ": " + (least && !limit.always ? "none or " : "") + range;
}

void add_limit(Formulation& out, const targets::OilLimit& limit, const Candidates& candidates) {
  const auto found = std::find_if(
      candidates.oils.begin(), candidates.oils.end(),
      [&](const Candidate& candidate) { return candidate.oil.name == limit.oil.name; });
  if (found == candidates.oils.end()) {
    if (limit.least && *limit.least > 0) {
      limit.written.fail(
          fmt::format("at least {} of {} is asked for, but it is not among the oils to use",
                      percent(*limit.least), limit.oil.name),
          "receive it on the shelf, or name it under 'oils-from'");
    }
    return;
  }
  const auto oil = static_cast<std::size_t>(found - candidates.oils.begin());
  const double steps = out.problem.steps;
  const int wish = add_asked(out, {.words = limit_words(limit),
                                   .place = limit.written.place,
                                   .subject = limit.oil.name,
                                   .unit = "%",
                                   .per_unit = 100 / steps});
  if (limit.most)
    add_oil_rule(out, wish, explain::RuleKind::oil_most, oil, floor_steps(*limit.most * steps));
  if (limit.least && *limit.least > 0) {
    add_oil_rule(out, wish, explain::RuleKind::oil_least, oil, ceil_steps(*limit.least * steps));
  }
  if (limit.always) add_oil_rule(out, wish, explain::RuleKind::oil_must, oil, 1);
}

void add_tag_rule(Formulation& out, const targets::TagRule& rule, const Candidates& candidates) {
  std::vector<double> carries;
  for (const auto& candidate : candidates.oils) {
    const bool any = std::any_of(rule.tags.begin(), rule.tags.end(),
                                 [&](const std::string& tag) { return has_tag(candidate, tag); });
    carries.push_back(any ? 100.0 : 0.0);
  }
  optimise::Limit limit{.form = optimise::weighted_sum(carries)};
  if (rule.least) limit.low = 100 * *rule.least;
  if (rule.most) limit.high = 100 * *rule.most;
  limit.wish = add_asked(out, {.words = rule.written.text,
                               .place = rule.written.place,
                               .subject = rule.written.text,
                               .unit = "%"});
  out.wishes.measures.push_back(explain::measure_of(limit, 1));
  out.problem.limits.push_back(std::move(limit));
}

void add_stock(Formulation& out, std::size_t oil, const Candidate& candidate, double oil_grams) {
  if (!candidate.stock_grams) return;
  const double steps = out.problem.steps;
  const int most = floor_steps(*candidate.stock_grams / oil_grams * steps);
  if (most >= out.problem.steps) return;
  const int wish =
      add_asked(out, {.words = fmt::format("{} on the shelf: {} to use", candidate.oil.name,
                                           core::round_grams(*candidate.stock_grams)),
                      .place = {},
                      .subject = candidate.oil.name,
                      .unit = "g",
                      .per_unit = oil_grams / steps});
  add_oil_rule(out, wish, explain::RuleKind::oil_most, oil, most);
}

void add_usual_most(Formulation& out, std::size_t oil, const Candidate& candidate,
                    const targets::OilRules& rules) {
  if (!candidate.oil.usual_most) return;
  for (const auto& limit : rules.oils) {
    if (limit.oil.name == candidate.oil.name && (limit.most || limit.least)) return;
  }
  const double most = candidate.oil.usual_most->span.typical;
  const int wish = add_asked(
      out, {.words = fmt::format("{} at most {:.4g} %, as is usual", candidate.oil.name, most),
            .place = {},
            .subject = candidate.oil.name,
            .unit = "%",
            .per_unit = 100.0 / out.problem.steps});
  add_oil_rule(out, wish, explain::RuleKind::oil_most, oil,
               floor_steps(most / 100 * out.problem.steps));
}

/// Keeps waxes together to what the lye engine takes, where the oils' own limits do not.
void add_wax_limit(Formulation& out, const Candidates& candidates) {
  std::vector<double> carries;
  double most = 0;
  for (std::size_t i = 0; i < candidates.oils.size(); ++i) {
    const bool wax = core::saponifies_in_part(recipe::pot_fat({candidates.oils[i].oil, 1}));
    carries.push_back(wax ? 100.0 : 0.0);
    if (wax) most += std::max(0, std::min(out.problem.oils[i].most, out.problem.steps));
  }
  if (most <= core::kMostWaxShare * out.problem.steps + 1e-9) return;
  optimise::Limit limit{.form = optimise::weighted_sum(carries)};
  limit.high = 100 * core::kMostWaxShare;
  limit.wish =
      add_asked(out, {.words = fmt::format("waxes together at most {}: they are hardly soap",
                                           percent(core::kMostWaxShare)),
                      .place = {},
                      .subject = "waxes",
                      .unit = "%",
                      .of_the_lye = true});
  out.wishes.measures.push_back(explain::measure_of(limit, 1));
  out.problem.limits.push_back(std::move(limit));
}

}  // namespace

int step_count(const targets::OilRules& rules, double oil_grams) {
  if (rules.step_grams) {
    const double count = oil_grams / *rules.step_grams;
    if (count < 2 || count > 1e6) {
      throw core::InputError(
          {},
          fmt::format("steps of {} do not suit {} of oils", core::grams_text(*rules.step_grams),
                      core::round_grams(oil_grams)),
          "use steps of 1 %, or smaller steps");
    }
    return static_cast<int>(std::lround(count));
  }
  const double share = rules.step_share.value_or(0.01);
  const double count = 1 / share;
  if (std::abs(count - std::round(count)) > kSlip * count) {
    throw core::InputError({}, fmt::format("steps of {} do not go into 100 %", percent(share)),
                           "use 1 %, 0.5 %, 2 % or the like");
  }
  return static_cast<int>(std::lround(count));
}

void add_rules(Formulation& out, const targets::OilRules& rules, const Candidates& candidates,
               const Assumed& assumed) {
  if (rules.most_oils) {
    const int wish = add_asked(out, {.words = fmt::format("oils: at most {}", *rules.most_oils),
                                     .place = rules.most_oils_written.place,
                                     .subject = "oils",
                                     .unit = "oils"});
    const explain::Rule rule{
        .wish = wish, .kind = explain::RuleKind::most_oils, .bound = *rules.most_oils};
    explain::add_rule(out.problem, rule, rule.bound);
    out.wishes.rules.push_back(rule);
  }
  for (const auto& limit : rules.oils) add_limit(out, limit, candidates);
  for (const auto& rule : rules.tags) add_tag_rule(out, rule, candidates);
  for (const auto& bar : rules.barred) add_barred(out, bar, candidates);
  for (std::size_t i = 0; i < candidates.oils.size(); ++i) {
    add_usual_most(out, i, candidates.oils[i], rules);
    add_stock(out, i, candidates.oils[i], assumed.oil_grams);
  }
  add_wax_limit(out, candidates);
}

}  // namespace barwright::formulate
