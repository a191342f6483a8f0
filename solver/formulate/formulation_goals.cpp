#include "solver/formulate/formulation_goals.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "solver/formulate/blend_forms.hpp"
#include "solver/formulate/feel_goal.hpp"
#include "solver/formulate/subject.hpp"

namespace barwright::formulate {
namespace {

using Kind = targets::Goal::Kind;

// Of the distance to a wished point, in noticeable steps: blends a tenth of a step apart are as
// good as each other, and a thirtieth need not be proved (judgement). Without this, a point that
// can be met sends the search after the sixth decimal.
constexpr double kNearGive = kTieShare, kNearTie = kTieShare / 3;

struct Maker {
  Formulation& out;
  const Candidates& candidates;
  const std::optional<KnownBar>& yardstick;
  const targets::PropertyModel& model;
  const Assumed& assumed;
  const PlainBar& plain_bar;
  CostBasis cost;
  const targets::SureLevel& level;
  const LotBook& lots;
};

optimise::Form prices(const Maker& maker, const targets::Written& written) {
  std::vector<double> per_kg;
  for (const auto& candidate : maker.candidates.oils) {
    if (!candidate.price_per_kg) {
      written.fail("cheapest is asked for, but " + candidate.oil.name + " has no price",
                   "give its price in the shelf file, or leave it out with 'not:'");
    }
    per_kg.push_back(*candidate.price_per_kg);
  }
  return optimise::weighted_sum(per_kg);
}

double same(double value) { return value; }
double negated(double value) { return 0 - value; }  // never -0

// The subject's form, rising with the subject. Curved scales keep their order, so the most of the
// form is the most of the score.
struct Rising {
  optimise::Form form;
  std::function<double(double)> shown = same;
  std::function<double(double)> form_at = {};  ///< what `shown` turns into this; empty: itself
};

// The scale of a goal that makes the most (`most`) or the least of a score that bends.
optimise::GoalScale scale_of(bool most, std::function<double(double)> shown,
                             std::function<double(double)> back) {
  if (!back) return {};
  const double sign = most ? -1 : 1;
  return {[sign, shown = std::move(shown)](double value) { return sign * shown(sign * value); },
          [sign, back = std::move(back)](double place) { return sign * back(sign * place); }};
}

Rising rising_form(const Maker& maker, const targets::Subject& subject,
                   const targets::Written& written) {
  const explain::Measure asked = measure(subject, written, maker.candidates.oils, maker.model,
                                         maker.assumed.settings, maker.cost);
  const bool is_property = subject.kind == targets::Subject::Kind::property;
  if (subject.kind == targets::Subject::Kind::acid_ratio ||
      (is_property && !targets::PropertyModel::has_form(subject.property))) {
    written.fail("'" + subject.name + "' can be kept within a range, but not made the most of",
                 "put a range on it under 'want:' and choose another 'best'");
  }
  if (asked.shifts) return {asked.form(0)};
  constexpr double kMiddle = 50;  // any level inside the scale will do: only the constant moves
  const targets::PropertyForm form = maker.model.form(subject.property, maker.assumed.settings);
  return {asked.form(kMiddle),
          [form](double value) {
            const double inner = (form.rising() ? value : -value) + form.inverse(kMiddle);
            return form.outer(inner);
          },
          [form](double score) {
            const double inner = form.inverse(score) - form.inverse(kMiddle);
            return form.rising() ? inner : -inner;
          }};
}

optimise::Pull pull(const Maker& maker, const targets::WishedPoint& point,
                    const targets::Written& written) {
  double wanted = point.value;
  if (point.compared) {
    if (!maker.yardstick) {
      written.fail("this point is compared with a bar, but the brief names none",
                   "add 'compared-with:'");
    }
    wanted += value_of(point.subject, written, *maker.yardstick, maker.model, maker.cost);
  }
  const double step = noticeable(point.subject);
  // form(wanted) = score - wanted for even scales; for a curved scale, its distance on the inner
  // scale, stretched so that one noticeable step at the wished point is one.
  const explain::Measure asked = measure(point.subject, written, maker.candidates.oils, maker.model,
                                         maker.assumed.settings, maker.cost);
  if (point.subject.kind == targets::Subject::Kind::property &&
      !targets::PropertyModel::has_form(point.subject.property)) {
    written.fail("nearest to a soluble share cannot be asked for",
                 "put a range on it under 'want:'");
  }
  double unit_size = step;
  if (!asked.shifts) {
    const std::vector<double> none(maker.candidates.oils.size(), 0.0);
    unit_size = std::abs(asked.form(wanted + step).at(none) - asked.form(wanted).at(none));
  }
  return {asked.form(wanted), 0, point.weight / (unit_size * unit_size)};
}

optimise::Goal nearest_in_feel(const Maker& maker, const targets::Goal& goal) {
  KnownBar bar;
  if (!goal.feel_of.empty()) {
    bar = maker.plain_bar(goal.feel_of, goal.written);
  } else if (maker.yardstick) {
    bar = *maker.yardstick;
  } else {
    goal.written.fail("nearest in feel to what? The brief names no bar", "add 'compared-with:'");
  }
  return feel_goal(feel_over_oils(maker.model, maker.assumed.settings, maker.candidates.oils),
                   feel_points(maker.model, bar));
}

// A goal for the search, and how its number reads.
struct Put {
  optimise::Goal goal;
  std::function<double(double)> shown = same;
  std::string unit = {};
};

bool is_sure(const Maker& maker, const targets::Goal& goal);
void make_sure(const Maker& maker, const targets::Goal& goal, Put& put);

Put put(const Maker& maker, const targets::Goal& goal) {
  const std::size_t count = maker.candidates.oils.size();
  Put result;
  optimise::Goal& out = result.goal;
  out.form.linear.assign(count, 0.0);
  switch (goal.kind) {
    case Kind::cheapest:
      out.form = prices(maker, goal.written);
      result.unit = maker.candidates.currency + " per kg of oils";
      break;
    case Kind::most: {
      Rising rising = rising_form(maker, goal.subject, goal.written);
      out.form = optimise::scaled(std::move(rising.form), -1);
      out.scale = scale_of(true, rising.shown, rising.form_at);
      out.give = kTieShare * noticeable(goal.subject);
      result.shown = [shown = rising.shown](double value) { return shown(-value); };
      result.unit = unit(goal.subject);
      break;
    }
    case Kind::least: {
      Rising rising = rising_form(maker, goal.subject, goal.written);
      out.form = std::move(rising.form);
      out.scale = scale_of(false, rising.shown, rising.form_at);
      out.give = kTieShare * noticeable(goal.subject);
      result.shown = rising.shown;
      result.unit = unit(goal.subject);
      break;
    }
    case Kind::nearest:
      for (const auto& point : goal.points) out.pulls.push_back(pull(maker, point, goal.written));
      out.give = kNearGive;
      out.tie = kNearTie;
      out.scale = of_squares();
      result.shown = out.scale.place;
      result.unit = "noticeable steps";
      break;
    case Kind::nearest_in_feel:
      out = nearest_in_feel(maker, goal);
      result.shown = out.scale.place;
      result.unit = "steps of feel";
      break;
    case Kind::use_up: {
      bool found = false;
      for (std::size_t i = 0; i < count; ++i) {
        if (maker.candidates.oils[i].oil.name != goal.oil) continue;
        out.form.linear[i] = -100;
        found = true;
      }
      if (!found) {
        goal.written.fail(
            "'" + goal.oil + "' is to be used up, but it is not among the oils to use",
            "check the shelf, or name it under 'oils-from'");
      }
      result.shown = negated;
      result.unit = "% of the oils";
      break;
    }
    case Kind::fewest_oils:
      result.unit = "oils";
      break;  // a count no form can say: see Formulation::fewest_oils_at
    case Kind::weighted:
      for (const auto& part : goal.parts) {
        optimise::Goal piece = put(maker, part).goal;
        const optimise::Form form = optimise::scaled(piece.form, part.weight);
        out.form.constant += form.constant;
        for (std::size_t i = 0; i < count; ++i) out.form.linear[i] += form.linear[i];
        out.form.kinks.insert(out.form.kinks.end(), form.kinks.begin(), form.kinks.end());
        out.form.guards.insert(out.form.guards.end(), form.guards.begin(), form.guards.end());
        for (auto& one : piece.pulls) {
          one.weight *= part.weight;
          out.pulls.push_back(std::move(one));
        }
      }
      result.unit = "weighted points";
      break;
  }
  if (is_sure(maker, goal)) make_sure(maker, goal, result);
  if (goal.give > 0) out.give = goal.give;
  return result;
}

bool is_sure(const Maker& maker, const targets::Goal& goal) {
  return !(maker.level == targets::Sureness::typical) &&
         (goal.kind == Kind::most || goal.kind == Kind::least) &&
         goal.subject.kind != targets::Subject::Kind::oil_cost;
}

// Replaces a typical goal by what is sure of it, against the maker's bar or, without one, a plain
// bar: most constants' doubt is shared by both.
void make_sure(const Maker& maker, const targets::Goal& goal, Put& put) {
  const KnownBar bar = maker.yardstick
                           ? *maker.yardstick
                           : maker.plain_bar(std::string(targets::kPlainBar), goal.written);
  const bool most = goal.kind == Kind::most;
  put.goal.form =
      optimise::scaled(sure_goal(goal.subject, goal.written, most,
                                 {maker.candidates.oils, maker.lots, maker.model,
                                  maker.assumed.settings, maker.level, maker.candidates.memo.get()},
                                 bar),
                       -1);
  const double sign = most ? -1 : 1;
  put.shown = [sign](double value) { return sign * value; };
  if (goal.subject.kind != targets::Subject::Kind::property) return;
  put.unit = "points against " + bar.name;
  if (maker.model.form(goal.subject.property, maker.assumed.settings).rising()) return;
  const double known = maker.model.value(goal.subject.property, bar.composition, bar.settings);
  // Beyond every score the curve would turn; there the scale goes on evenly.
  constexpr double kBeyond = 200, kSlope = kBeyond * kBeyond / 100;
  const auto points = [known](double sure) {
    const double left = 100 / known - sure, least = 100 / kBeyond;
    return (left > least ? 100 / left : kBeyond + (least - left) * kSlope) - known;
  };
  const auto back = [known](double difference) {
    constexpr double kLeast = 0.01;  // no blend comes near: see PropertyForm::inverse
    const double score = std::max(known + difference, kLeast);
    return 100 / known -
           (score < kBeyond ? 100 / score : 100 / kBeyond - (score - kBeyond) / kSlope);
  };
  put.shown = [sign, points](double value) { return points(sign * value); };
  put.goal.scale = scale_of(most, points, back);
}

// A goal written as a block has no words of its own.
std::string goal_words(const targets::Goal& goal) {
  if (!goal.written.text.empty()) return goal.written.text;
  if (goal.kind == Kind::nearest) {
    std::string points;
    for (const auto& point : goal.points)
      points += (points.empty() ? "" : ", ") + point.subject.name;
    return "nearest in " + points;
  }
  return goal.kind == Kind::weighted ? "the weighted mix" : "best";
}

// How ties break: first by what is on the shelf, then by price.
void add_tie_breakers(const Maker& maker) {
  const auto& oils = maker.candidates.oils;
  const auto add = [&](std::string words, std::string unit_words, optimise::Form form) {
    optimise::Goal goal;
    goal.form = std::move(form);
    maker.out.problem.goals.push_back(std::move(goal));
    maker.out.goals.push_back({std::move(words), std::move(unit_words), same, true});
  };
  const auto on_shelf = [](const Candidate& c) { return c.on_shelf; };
  if (std::any_of(oils.begin(), oils.end(), on_shelf) &&
      !std::all_of(oils.begin(), oils.end(), on_shelf)) {
    std::vector<double> outside;
    for (const auto& candidate : oils) outside.push_back(candidate.on_shelf ? 0.0 : 100.0);
    add("least from outside the shelf", "% of the oils", optimise::weighted_sum(outside));
  }
  if (std::all_of(oils.begin(), oils.end(), [](const Candidate& c) { return !!c.price_per_kg; })) {
    add("cheapest", maker.candidates.currency + " per kg of oils", prices(maker, {}));
  }
}

}  // namespace

void add_goals(Formulation& out, const std::vector<targets::Goal>& goals,
               const targets::SureLevel& level, const LotBook& lots, const Candidates& candidates,
               const std::optional<KnownBar>& yardstick, const targets::PropertyModel& model,
               const Assumed& assumed, const PlainBar& plain_bar) {
  const Maker maker{out,
                    candidates,
                    yardstick,
                    model,
                    assumed,
                    plain_bar,
                    {assumed.oil_grams / 1000, assumed.bars},
                    level,
                    lots};
  for (const auto& goal : goals) {
    if (goal.kind == Kind::fewest_oils) {
      out.fewest_oils_at = static_cast<int>(out.problem.goals.size());
    }
    Put result = put(maker, goal);
    out.problem.goals.push_back(std::move(result.goal));
    const bool sure = is_sure(maker, goal);
    out.goals.push_back({goal_words(goal) + (sure ? ", " + targets::words(level) : ""), result.unit,
                         result.shown, false});
  }
  add_tie_breakers(maker);
}

}  // namespace barwright::formulate
