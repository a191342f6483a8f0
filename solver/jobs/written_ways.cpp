#include "solver/jobs/written_ways.hpp"

#include <algorithm>
#include <cmath>

#include "core/units/error.hpp"
#include "solver/explain/relax_wish.hpp"
#include "solver/jobs/ways_out.hpp"

namespace barwright::jobs {
namespace {

using What = explain::Change::What;

constexpr double kHair = 1e-9;  // of rounding in the last place kept
// How much further a figure gives way where the scale asks for it, noticeable steps.
constexpr double kFurther[] = {0, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1};
constexpr double kNobodyNotices = 0.1;

// The job with the changes of one fix written into it.
class Rewritten {
 public:
  Rewritten(const BlendJob& asked_first, const formulate::Formulation& formulation)
      : job(asked_first), formulation_(formulation) {}

  bool apply(explain::Change change, double further) {
    const auto& asked = formulation_.asked[std::size_t(change.wish)];
    if (change.what == What::rule)
      return rule(asked, formulation_.wishes.rules[std::size_t(change.index)], change);
    const auto& measure = formulation_.wishes.measures[std::size_t(change.index)];
    change.to += (change.what == What::floor ? -1 : 1) * further * measure.noticeable;
    const double figure = written_figure(asked, change);
    const bool floor = change.what == What::floor;
    if (asked.wish >= 0 && std::size_t(asked.wish) < job.brief.wishes.size()) {
      auto& wish = job.brief.wishes[std::size_t(asked.wish)];
      (floor ? wish.low : wish.high) = targets::Bound{figure, 0};
      return true;
    }
    for (auto& tags : job.brief.rules.tags) {
      if (asked.wish >= 0 || tags.written.text != asked.words || tags.written.place != asked.place)
        continue;
      (floor ? tags.least : tags.most) = figure / 100;
      return true;
    }
    return false;
  }

  BlendJob job;
  bool in_brief = true;  ///< all of it is said by lines of the brief

 private:
  bool rule(const formulate::Asked& asked, const explain::Rule& rule,
            const explain::Change& change) {
    auto& rules = job.brief.rules;
    const int to = int(std::lround(change.to));
    if (rule.kind == explain::RuleKind::most_oils) {
      rules.most_oils = to;
      return true;
    }
    const auto barred =
        std::find_if(rules.barred.begin(), rules.barred.end(), [&](const auto& bar) {
          return bar.written.place == asked.place && asked.words == "not: " + bar.written.text;
        });
    if (barred != rules.barred.end()) {
      rules.barred.erase(barred);
      let_in_ = change.wish;
    }
    if (let_in_ == change.wish) return true;
    if (asked.unit == "g") {  // on the shelf
      in_brief = false;
      job.candidates.oils[std::size_t(rule.oil)].stock_grams = written_grams(asked, change);
      return true;
    }
    auto limit = std::find_if(rules.oils.begin(), rules.oils.end(),
                              [&](const auto& one) { return one.oil.name == asked.subject; });
    if (limit == rules.oils.end()) {
      targets::OilLimit added;
      added.oil.name = asked.subject;
      added.written.place.file = job.brief.file;
      limit = rules.oils.insert(rules.oils.end(), std::move(added));
    }
    const bool floor = rule.kind == explain::RuleKind::oil_least;
    const double share = written_percent(to, formulation_.problem.steps, floor) / 100;
    if (rule.kind == explain::RuleKind::oil_must)
      limit->always = to > 0;
    else
      (floor ? limit->least : limit->most) = share;
    return true;
  }

  const formulate::Formulation& formulation_;
  int let_in_ = -1;  ///< the bar that is lifted
};

}  // namespace

std::optional<bool> opens(const std::function<BlendResult()>& find,
                          const optimise::SearchOptions& options) {
  if (explain::out_of_time(options)) return std::nullopt;
  try {
    const BlendResult found = find();
    if (found.has_blend() && !found.too_coarse) return true;
    if (found.answer.status == optimise::Status::undecided && !found.too_coarse)
      return std::nullopt;
    return false;
  } catch (const core::Refusal&) {
    return false;  // no safe lye for any such blend
  } catch (const core::InputError&) {
    return false;
  }
}

double written_percent(int of_all, int all, bool floor) {
  const double exact = 100.0 * of_all / all;
  for (double ten = 1; ten < 1e7; ten *= 10) {
    const double value =
        (floor ? std::floor(exact * ten + kHair) : std::ceil(exact * ten - kHair)) / ten;
    const double steps = value * all / 100;
    const double whole = floor ? std::ceil(steps - 1e-6) : std::floor(steps + 1e-6);
    if (std::lround(whole) == of_all) return value;
  }
  return exact;
}

std::vector<TriedWay> written_ways(const BlendJob& job, const BlendResult& no,
                                   const std::vector<explain::Fix>& fixes,
                                   const optimise::SearchOptions& options) {
  std::vector<TriedWay> out;
  for (const explain::Fix& fix : fixes) {
    TriedWay way{fix, {}, false};
    const bool measured =
        std::any_of(fix.changes.begin(), fix.changes.end(),
                    [](const explain::Change& c) { return c.what != What::rule; });
    bool said = true, undecided = false;
    for (const double further : kFurther) {
      if (way.opens || (further > 0 && !measured)) break;
      Rewritten then(job, no.formulation);
      for (const explain::Change& change : fix.changes) said = then.apply(change, further) && said;
      if (!said) break;
      const BlendJob asked = whether_any(then.job);
      const std::optional<bool> opened =
          kept_as_weighed(asked, no.assumed, fix.steps)
              ? true
              : opens([&] { return find_blend(asked, options); }, options);
      undecided = undecided || !opened;
      way.opens = opened.value_or(false);
      if (then.in_brief && (way.opens || further == 0)) way.brief = std::move(then.job.brief);
      way.fix.proved = fix.proved && further <= kNobodyNotices && way.opens;
    }
    if (!said) way.fix.proved = fix.proved;
    if (said && !way.opens && !undecided) continue;
    out.push_back(std::move(way));
  }
  return out;
}

}  // namespace barwright::jobs
