#include "solver/jobs/swap/swap_bench.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/bench/temperature_solid.hpp"
#include "solver/formulate/blend_forms.hpp"
#include "solver/formulate/feel_goal.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/formulate/sure_measure.hpp"
#include "targets/model/feel.hpp"

namespace barwright::jobs {
namespace {

// Stands for a wax's endless pull towards crystals: one part in a thousand of it is solid anywhere.
constexpr double kWaxPull = 1000;
// A clear point is told no finer than this, C (judgement).
constexpr double kClearStep = 1;

core::MeltingFat melting(const formulate::Candidate& candidate, double share) {
  return {candidate.composition.acids, share, candidate.oil.form == oils::Form::wax};
}

class Keeper {
 public:
  Keeper(formulate::Formulation& out, const formulate::Candidates& candidates,
         const formulate::Assumed& assumed, const SwapKeep& keep)
      : out_(out), candidates_(candidates), assumed_(assumed), keep_(keep) {}

  void add(explain::Measure measure, formulate::Asked asked, double low, double high) {
    const std::size_t number = keep_.first_wish + count_++;
    const double held = number < assumed_.held_back.size() ? assumed_.held_back[number] : 0;
    asked.wish = static_cast<int>(number);
    measure.wish = static_cast<int>(out_.asked.size());
    measure.low = low + held;
    measure.high = high - held;
    explain::add_range(out_.problem, measure, measure.low, measure.high);
    out_.wishes.measures.push_back(std::move(measure));
    out_.asked.push_back(std::move(asked));
  }

  void bench() {
    const auto& keep = keep_.keep;
    if (keep.melts_below_celsius) {
      explain::Measure measure = clear_point(candidates_.oils);
      measure.noticeable = kClearStep;
      add(std::move(measure), asked(keep.melts_written, "melting", "C"), -optimise::kInfinity,
          *keep.melts_below_celsius);
    }
    if (keep.cut_by_hours) {
      targets::Subject subject;
      subject.property = targets::Property::cut_firmness;
      subject.name = "cut-firmness";
      targets::BarSettings then = assumed_.settings;
      then.cut_hours = *keep.cut_by_hours;
      formulate::Asked words = asked(keep.cut_by_written, subject.name, "points");
      words.compared = true;
      words.level = keep_.level;
      // By then as firm as the old bar when it is cut as usual.
      explain::Measure measure;
      if (keep_.level == targets::Sureness::typical) {
        measure = formulate::measure(subject, keep.cut_by_written, candidates_.oils, keep_.model,
                                     then, {});
        words.offset =
            keep_.model.value(subject.property, keep_.old_bar.composition, keep_.old_bar.settings);
      } else {
        const formulate::LotBook lots =
            formulate::lot_book(candidates_.oils, keep_.level == targets::Sureness::likely);
        measure = formulate::sure_difference(
            subject, keep.cut_by_written, formulate::End::floor,
            {candidates_.oils, lots, keep_.model, then, keep_.level, candidates_.memo.get()},
            keep_.old_bar);
      }
      measure.noticeable = formulate::noticeable(subject);
      const double low = words.offset;
      add(std::move(measure), std::move(words), low, optimise::kInfinity);
    }
  }

  void feel() {
    using Feel = targets::Keep::Feel;
    const auto terms = formulate::feel_over_oils(keep_.model, assumed_.settings, candidates_.oils);
    const auto points = formulate::feel_points(keep_.model, keep_.old_bar);
    for (const std::size_t g : keep_.feel_goals) {
      // Asked only whether there is any blend, the job has no goals of its own.
      if (g >= out_.goals.size() || out_.goals[g].tie_breaker) continue;
      optimise::Goal goal = formulate::feel_goal(terms, points, keep_.emphasis);
      goal.give = out_.problem.goals.at(g).give;  // the maker's own, where stated
      out_.problem.goals.at(g) = std::move(goal);
    }
    if (!keep_.keep.feel || *keep_.keep.feel == Feel::free) return;
    for (std::size_t t = 0; t < terms.size(); ++t) {
      const auto& term = targets::feel_terms()[t];
      const bool matters =
          keep_.keep.matters_most.empty() ? term.weight >= 1 : keep_.emphasis.at(t) > 1;
      if (*keep_.keep.feel == Feel::about_the_same && !matters) continue;
      explain::Measure measure;
      measure.shifts = true;
      measure.at = [form = terms[t]](std::span<const double> x) { return form.at(x); };
      measure.form = [form = terms[t]](double level) {
        optimise::Form moved = form;
        moved.constant -= level;
        return moved;
      };
      formulate::Asked words = asked(keep_.keep.feel_written, term.name, "steps of feel");
      words.words += fmt::format(" ({})", term.name);
      words.offset = points[t];
      words.compared = true;
      add(std::move(measure), std::move(words), points[t] - 1, points[t] + 1);
    }
  }

  // The first names stand by weight: each at least as heavy as the next, the last of them as heavy
  // as any other oil.
  void label() {
    for (const auto& claim : keep_.label) {
      const std::size_t count = std::min<std::size_t>(static_cast<std::size_t>(claim.first_names),
                                                      keep_.old_order.size());
      for (std::size_t i = 0; i < count; ++i) {
        for (const auto& candidate : candidates_.oils) {
          const auto& name = candidate.oil.name;
          const auto place = std::find(keep_.old_order.begin(), keep_.old_order.end(), name) -
                             keep_.old_order.begin();
          const bool before = static_cast<std::size_t>(place) <= i;
          if (before || (i + 1 < count && static_cast<std::size_t>(place) != i + 1)) continue;
          std::vector<double> ahead;
          for (const auto& oil : candidates_.oils) {
            ahead.push_back(oil.oil.name == keep_.old_order[i] ? 100.0
                            : oil.oil.name == name             ? -100.0
                                                               : 0.0);
          }
          optimise::Limit limit{.form = optimise::weighted_sum(ahead), .low = 0};
          explain::Measure measure = explain::measure_of(limit, 1);
          formulate::Asked words = asked(claim.written, keep_.old_order[i], "%");
          words.words += fmt::format(" ({} before {})", keep_.old_order[i], name);
          add(std::move(measure), std::move(words), 0, optimise::kInfinity);
        }
      }
    }
  }

 private:
  static formulate::Asked asked(const targets::Written& written, std::string subject,
                                std::string unit) {
    return {.words = written.text,
            .place = written.place,
            .subject = std::move(subject),
            .unit = std::move(unit)};
  }

  formulate::Formulation& out_;
  const formulate::Candidates& candidates_;
  const formulate::Assumed& assumed_;
  const SwapKeep& keep_;
  std::size_t count_ = 0;
};

}  // namespace

explain::Measure clear_point(std::span<const formulate::Candidate> candidates) {
  explain::Measure result;
  const std::vector<formulate::Candidate> kept(candidates.begin(), candidates.end());
  result.at = [kept](std::span<const double> x) {
    std::vector<core::MeltingFat> fats;
    for (std::size_t i = 0; i < kept.size(); ++i) fats.push_back(melting(kept[i], x[i]));
    return core::clear_celsius(fats);
  };
  result.form = [kept](double celsius) {
    std::vector<double> pulls;
    for (const auto& candidate : kept) {
      pulls.push_back(std::min(kWaxPull, core::crystal_pull(melting(candidate, 1), celsius)));
    }
    return optimise::weighted_sum(pulls);
  };
  return result;
}

void keep_swap(formulate::Formulation& out, const formulate::Candidates& candidates,
               const formulate::Assumed& assumed, const SwapKeep& keep) {
  Keeper keeper(out, candidates, assumed, keep);
  keeper.bench();
  keeper.feel();
  keeper.label();
}

}  // namespace barwright::jobs
