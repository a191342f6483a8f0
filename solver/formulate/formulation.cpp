#include "solver/formulate/formulation.hpp"

#include <cmath>

#include "solver/formulate/blend_forms.hpp"
#include "solver/formulate/formulation_goals.hpp"
#include "solver/formulate/formulation_rules.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/formulate/sure_measure.hpp"
#include "targets/model/words.hpp"

namespace barwright::formulate {
namespace {

double size(const targets::Bound& bound, const targets::Subject& subject) {
  return bound.value + bound.noticeable * noticeable(subject);
}

// Cost wishes and goals need a price for every oil that may be used.
bool lacks_price(std::span<const Candidate> candidates) {
  for (const auto& candidate : candidates) {
    if (!candidate.price_per_kg) return true;
  }
  return false;
}

// What every wish of one brief is put over.
struct Ground {
  const targets::Brief& brief;
  const Candidates& candidates;
  const std::optional<KnownBar>& yardstick;
  const targets::PropertyModel& model;
  const Assumed& assumed;
  const PlainBar& plain_bar;
  const LotBook& lots;
  CostBasis cost;
};

KnownBar bar_compared(const targets::Wish& wish, const Ground& ground) {
  if (!wish.than.empty()) return ground.plain_bar(wish.than, wish.written);
  if (!ground.yardstick) {
    wish.written.fail("this compares with a bar, but the brief names none",
                      "add 'compared-with:' with your own blend, a recipe file or a plain bar");
  }
  return *ground.yardstick;
}

void check_wish(const targets::Wish& wish, const Ground& ground) {
  const std::string& prices = ground.candidates.currency;
  if (wish.subject.kind == targets::Subject::Kind::oil_cost && !prices.empty() &&
      !wish.subject.currency.empty() && wish.subject.currency != prices) {
    wish.written.fail(
        "the oils are priced in " + prices + ", this wish is in " + wish.subject.currency,
        "give the wish in " + prices + ": no rate of exchange is known here");
  }
  if (wish.subject.kind == targets::Subject::Kind::oil_cost &&
      lacks_price(ground.candidates.oils)) {
    wish.written.fail("a cost is wished for, but not every oil has a price",
                      "give the missing prices in the shelf file");
  }
  if (wish.subject.kind == targets::Subject::Kind::property &&
      !targets::PropertyModel::has_form(wish.subject.property) && wish.high) {
    wish.written.fail("the soluble share can be kept above a figure, not below one",
                      "wish for thrift instead, which says how slowly the bar wears");
  }
}

// The measures of one wish where lots count: one per end.
std::vector<explain::Measure> sure_measures(const targets::Wish& wish,
                                            const targets::SureLevel& level,
                                            const std::optional<KnownBar>& bar,
                                            const Ground& ground) {
  std::vector<explain::Measure> out;
  const SureGround sure{ground.candidates.oils,  ground.lots, ground.model,
                        ground.assumed.settings, level,       ground.candidates.memo.get()};
  for (const End end : {End::floor, End::ceiling}) {
    if (!(end == End::floor ? wish.low : wish.high)) continue;
    out.push_back(bar && compares_lots(wish.subject)
                      ? sure_difference(wish.subject, wish.written, end, sure, *bar)
                      : sure_measure(wish.subject, wish.written, end, sure));
  }
  return out;
}

void add_wish(Formulation& out, const targets::Wish& wish, int index, const Ground& ground) {
  check_wish(wish, ground);
  Asked words{.words = wish.written.text,
              .place = wish.written.place,
              .subject = wish.subject.name,
              .unit = unit(wish.subject),
              .wish = index};
  if (wish.subject.kind != targets::Subject::Kind::oil_cost)
    words.level = wish.level.value_or(ground.brief.sureness);
  // Refuses what cannot be put at any level before a bar is looked for.
  std::vector<explain::Measure> measures = {measure(wish.subject, wish.written,
                                                    ground.candidates.oils, ground.model,
                                                    ground.assumed.settings, ground.cost)};
  std::optional<KnownBar> bar;
  if (wish.compared) {
    bar = bar_compared(wish, ground);
    words.compared = true;
    // A sure difference has the bar in it already.
    if (words.level == targets::Sureness::typical || !compares_lots(wish.subject))
      words.offset = value_of(wish.subject, wish.written, *bar, ground.model, ground.cost);
  }
  const auto& held_back = ground.assumed.held_back;
  const auto place = static_cast<std::size_t>(index);
  const double held = place < held_back.size() ? held_back[place] : 0;
  if (!(words.level == targets::Sureness::typical))
    measures = sure_measures(wish, words.level, bar, ground);
  for (explain::Measure& asked : measures) {
    asked.wish = static_cast<int>(out.asked.size());
    asked.noticeable = noticeable(wish.subject);
    if (wish.low && asked.ends != explain::Measure::Ends::ceiling)
      asked.low = words.offset + size(*wish.low, wish.subject) + held;
    if (wish.high && asked.ends != explain::Measure::Ends::floor)
      asked.high = words.offset + size(*wish.high, wish.subject) - held;
    explain::add_range(out.problem, asked, asked.low, asked.high);
    out.wishes.measures.push_back(std::move(asked));
  }
  out.asked.push_back(std::move(words));
}

LotBook lots_of(const targets::Brief& brief, const Candidates& candidates) {
  bool any = false, drawn = false;
  const auto see = [&](const targets::SureLevel& level) {
    any = any || !(level == targets::Sureness::typical);
    drawn = drawn || level == targets::Sureness::likely;
  };
  see(brief.sureness);
  for (const auto& wish : brief.wishes)
    if (wish.level) see(*wish.level);
  return any ? lot_book(candidates.oils, drawn) : LotBook{};
}

}  // namespace

Formulation formulate(const targets::Brief& brief, const Candidates& candidates,
                      const std::optional<KnownBar>& yardstick, const targets::PropertyModel& model,
                      const Assumed& assumed, const PlainBar& plain_bar) {
  Formulation out;
  targets::OilRules rules = brief.rules;
  if (assumed.step_grams) rules.step_grams = assumed.step_grams;
  out.problem.steps = step_count(rules, assumed.oil_grams);
  out.problem.oils.assign(candidates.oils.size(), {.least = 1, .most = out.problem.steps});
  const LotBook lots = lots_of(brief, candidates);
  const Ground ground{brief,   candidates, yardstick, model,
                      assumed, plain_bar,  lots,      {assumed.oil_grams / 1000, assumed.bars}};
  for (std::size_t i = 0; i < brief.wishes.size(); ++i)
    add_wish(out, brief.wishes[i], static_cast<int>(i), ground);
  add_rules(out, brief.rules, candidates, assumed);
  add_goals(out, brief.goals, brief.sureness, lots, candidates, yardstick, model, assumed,
            plain_bar);
  return out;
}

}  // namespace barwright::formulate
