#include "solver/app/explore/csv_explore.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>

#include "oils/text/journal_csv.hpp"
#include "solver/app/explore/rows_explore.hpp"

namespace barwright::app {
namespace {

/// The rows of the CSV form, written one by one.
class Csv {
 public:
  Csv(const jobs::ExploreJob& job, const jobs::Explored& seen)
      : job_(job), seen_(seen), per_kg_(job.candidates().currency + " per kg") {}

  std::string text() && {
    for (std::size_t b = 0; b < job_.bars.size(); ++b) blends(b);
    for (std::size_t b = 0; b < job_.bars.size(); ++b) prices(b);
    for (std::size_t b = 0; b < job_.bars.size(); ++b) {
      if (seen_.bars[b].sureness) sureness(bar(b), *seen_.bars[b].sureness);
    }
    if (seen_.plan && seen_.plan->found) plan(*seen_.plan);
    return std::move(out_);
  }

 private:
  const std::string& bar(std::size_t b) const { return job_.bars[b].what_for; }

  void row(const std::string& what, const std::string& bar, const std::string& oil, double figure,
           const std::string& unit) {
    out_ += fmt::format("{},{},{},{:.6g},{}\n", what, oils::written_cell(bar, ','),
                        oils::written_cell(oil, ','), figure, oils::written_cell(unit, ','));
  }

  void shares(const std::string& what, std::size_t b, std::span<const int> steps) {
    const int all = std::accumulate(steps.begin(), steps.end(), 0);
    for (std::size_t i = 0; i < steps.size(); ++i) {
      if (steps[i] > 0) row(what, bar(b), oil_name(job_, i), 100.0 * steps[i] / all, "%");
    }
  }

  void blends(std::size_t b) {
    const auto& one = seen_.bars[b];
    shares("best alone", b, one.found.answer.steps);
    for (std::size_t k = 1; k < one.others.found.size(); ++k) {
      shares(fmt::format("another {}", k), b, one.others.found[k].answer.steps);
    }
    for (const auto& traced : one.traced) {
      const auto& [up, across] = traced.trade;
      for (std::size_t k = 0; k < traced.seen.size(); ++k) {
        const std::string what = fmt::format("{} against {} {}", up.name, across.name, k + 1);
        row(what, bar(b), "", traced.seen[k].second, side_words(job_, up));
        row(what, bar(b), "", traced.seen[k].first, side_words(job_, across));
      }
    }
    int number = 0;
    for (const auto& point : one.curve.points) {
      ++number;
      row(fmt::format("curve {} cost", number), bar(b), "", point.second, per_kg_);
      row(fmt::format("curve {} feel", number), bar(b), "", std::sqrt(std::max(0.0, point.first)),
          "steps");
    }
  }

  void prices(std::size_t b) {
    for (const auto* rooms : {&seen_.bars[b].room, &seen_.bars[b].worth}) {
      for (const auto& room : *rooms) {
        if (!room.turns.proved || !room.turns.per_kg) continue;
        row(rooms == &seen_.bars[b].room ? "price may rise to" : "comes in below", bar(b),
            oil_name(job_, static_cast<std::size_t>(room.oil)), *room.turns.per_kg, per_kg_);
      }
    }
  }

  void sureness(const std::string& name, const jobs::SurenessPrice& price) {
    for (const auto& at : price.levels) {
      const std::string what = "kept for " + (at.asked ? "lots as asked" : lots_words(at.level));
      if (at.cost_per_kg) row(what, name, "", *at.cost_per_kg, per_kg_);
      if (at.goal && has_other_goal(price)) {
        row(what + ": " + price.goal, name, "", *at.goal, price.goal_unit);
      }
      if (!at.cost_per_kg) {
        const bool none = at.status == optimise::Status::infeasible;
        row(what + (none ? ": nothing fits" : ": nothing found"), name, "", 0, "blends");
      }
    }
  }

  void plan(const jobs::BuyingPlan& plan) {
    const std::string& currency = job_.candidates().currency;
    const std::vector<double> landed = landed_sums(seen_);
    for (std::size_t k = 0; k < plan.buys.size(); ++k) {
      const auto& buy = plan.buys[k];
      const auto& pack =
          job_.packs[static_cast<std::size_t>(buy.oil)][static_cast<std::size_t>(buy.pack)];
      row("buy", "", pack.product, buy.count, fmt::format("packs of {:.4g} kg", pack.grams / 1000));
      row("price", "", pack.product, buy.count * pack.price, currency);
      row("price with delivery", "", pack.product, landed[k], currency);
    }
    row("delivery", "", "", plan.delivery, currency);
    row("cash out", "", "", plan.cash(), currency);
    for (std::size_t b = 0; b < plan.steps.size(); ++b) {
      row("oils of a bar", bar(b), "", seen_.landed.bar_cost[b], currency);
      shares("as planned", b, plan.steps[b]);
    }
    for (std::size_t i = 0; i < seen_.landed.left_grams.size(); ++i) {
      if (seen_.landed.left_grams[i] < 1) continue;
      row("left of what is bought", "", oil_name(job_, i), seen_.landed.left_grams[i], "g");
    }
  }

  const jobs::ExploreJob& job_;
  const jobs::Explored& seen_;
  const std::string per_kg_;
  std::string out_ = "what,bar,oil,figure,unit\n";
};

}  // namespace

std::string csv_explore(const jobs::ExploreJob& job, const jobs::Explored& seen) {
  return Csv(job, seen).text();
}

}  // namespace barwright::app
