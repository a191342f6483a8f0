#include "solver/jobs/report/report_blend.hpp"

#include <algorithm>
#include <cmath>

#include "solver/explain/posed.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/report/explaining.hpp"
#include "solver/jobs/ways_out.hpp"
#include "targets/model/caution.hpp"
#include "targets/model/difference.hpp"
#include "targets/model/lean.hpp"

namespace barwright::jobs {
namespace {

bool wished(const targets::Brief& brief, targets::Property property) {
  return targets::asks_for_any(brief, [&](const targets::Subject& subject) {
    return subject.kind == targets::Subject::Kind::property && subject.property == property;
  });
}

std::optional<OilCost> cost_of(const BlendJob& job, const BlendResult& result,
                               const formulate::KnownBar& yardstick) {
  OilCost cost;
  for (const std::size_t i : result.used) {
    const auto& price = job.candidates.oils[i].price_per_kg;
    if (!price) return std::nullopt;
    cost.per_kg += result.shares[i] * *price;
  }
  const double kg = result.recipe.oils_grams / 1000;
  cost.per_batch = cost.per_kg * kg;
  if (result.assumed.bars > 0) {
    cost.per_bar = cost.per_batch / result.assumed.bars;
    if (yardstick.priced) {
      cost.yardstick_per_bar = yardstick.price_per_kg * kg / result.assumed.bars;
    }
  }
  return cost;
}

// A draft takes about 40 ms on an ordinary machine.
constexpr std::uint64_t kDraftWork = 32'000'000;

std::vector<explain::View> views(const BlendResult& result) {
  std::vector<explain::View> out;
  for (const auto& goal : result.formulation.problem.goals) {
    if (goal.pulls.empty()) out.push_back({goal.form, false, 0});
  }
  return out;
}

}  // namespace

const char* word(Depth depth) {
  return depth == Depth::draft ? "draft" : depth == Depth::reach ? "reach" : "full";
}

BlendReport report_blend(const BlendJob& asked, const oils::Library& library,
                         const ReportOptions& options) {
  BlendReport report;
  const optimise::Within quick(options.search, kDraftWork);
  report.manners =
      find_mannerly(asked, options.depth == Depth::full ? options.search : quick.options());
  report.result = std::move(report.manners.result);
  const BlendJob& job = *report.manners.job;
  report.job = &job;
  report.compared = report.manners.held.bar;
  report.depth = options.depth;
  auto& result = report.result;
  const bool full = options.depth == Depth::full;
  if (options.depth == Depth::reach) {
    const Explaining reach(options.search);
    report.rails = rail_reach(asked, report.manners.held, result, reach.options());
  }
  if (full && result.answer.status == optimise::Status::infeasible) {
    report.no = why_not(job, result, library, options.search);
  }
  const bool teach = options.teach && full;
  if (teach && asks_for_sureness(job.brief)) {
    const Explaining sureness(options.search);
    report.sureness =
        price_of_sureness(asked, result, report.manners.given, {}, sureness.options());
  }
  if (!result.has_blend()) return report;
  if (options.try_lots > 0 || options.measured) {
    report.trial = try_lots(job, result, options.try_lots, options.seed, options.measured);
    if (options.measured) report.trial_of = options.measured->oil + " in " + options.measured_file;
  }
  std::vector<targets::NamedPart> parts;
  for (const std::size_t i : result.used) {
    const auto& candidate = job.candidates.oils[i];
    parts.push_back({candidate.oil.name, candidate.composition, result.shares[i]});
  }
  report.properties =
      property_lines(job.model, result.composition, result.settings, report.compared, parts);
  for (auto& line : report.properties) line.wished = wished(job.brief, line.property);
  report.cost = cost_of(job, result, report.compared);
  report.cautions = targets::cautions(result.composition);
  const bool proved = result.answer.status == optimise::Status::optimal;
  if (teach && proved && !result.formulation.problem.goals.empty() &&
      result.formulation.fewest_oils_at < 0) {
    optimise::Problem first = result.formulation.problem;
    first.goals.resize(1);
    // Priced at the first goal's own best, not where ties let it give way to a later goal.
    const Explaining explaining(options.search);
    const optimise::Answer best = optimise::search(first, explaining.options());
    if (best.status == optimise::Status::optimal) {
      report.prices =
          explain::find_prices(first, result.formulation.wishes, best, explaining.options(),
                               {.most_steps = 8, .most_slack = 0.5});
    }
  }
  if (full && options.answers > 1) {
    report.alternatives = explain::find_alternatives(held_as_weighed(job, result, options.search),
                                                     options.answers - 1, options.apart,
                                                     views(result), options.search);
  }
  return report;
}

}  // namespace barwright::jobs
