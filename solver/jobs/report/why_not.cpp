#include "solver/jobs/report/why_not.hpp"

#include <algorithm>

#include "solver/explain/posed.hpp"
#include "solver/jobs/report/explaining.hpp"
#include "solver/jobs/report/what_to_buy.hpp"
#include "solver/jobs/ways_out.hpp"

namespace barwright::jobs {

No why_not(const BlendJob& job, const BlendResult& result, const oils::Library& library,
           const optimise::SearchOptions& asked) {
  No no;
  const Explaining conflict(asked), reach(asked), fixes(asked);
  std::vector<explain::Posed> posed;
  for (const auto& slice : result.slices) posed.push_back({&slice.problem, &slice.wishes});
  no.conflict = explain::find_conflict(posed, conflict.options());
  no.reach = explain::find_reach(posed, reach.options());
  // What only weighing shows to be in the way has no smaller set to name.
  if (!no.conflict.proved) {
    no.conflict.wishes = explain::wish_ids(*posed.front().problem, *posed.front().wishes);
    no.conflict.sides.assign(no.conflict.wishes.size(), explain::Side::both);
  }
  std::vector<int> all = explain::wish_ids(*posed.front().problem, *posed.front().wishes);
  std::erase_if(all, [&](int wish) { return !can_be_changed(result.formulation, wish); });
  std::vector<int> which = no.conflict.wishes.empty() ? all : no.conflict.wishes;
  std::erase_if(which, [&](int wish) { return !can_be_changed(result.formulation, wish); });
  const Explaining written(asked);
  const auto seek = [&](const std::vector<int>& wishes) {
    WaysOut ways = ways_out(job, result, wishes, fixes.options());
    no.fixes = std::move(ways.fixes);
    no.ways = written_ways(job, result, no.fixes.fixes, written.options());
    if (!no.ways.empty() || !ways.together) return;
    const auto together = written_ways(job, result, {*ways.together}, written.options());
    if (!together.empty()) no.together = together.front();
  };
  seek(which);
  // Where other wishes collide as well, no change of these alone is a way out.
  if (no.ways.empty() && !no.together && which.size() < all.size()) seek(all);
  const Explaining purchases(asked);
  find_what_to_buy(job, result, library, purchases.options(), no);
  return no;
}

bool can_be_changed(const formulate::Formulation& formulation, int wish) {
  const auto& asked = formulation.asked[static_cast<std::size_t>(wish)];
  const bool rule = std::any_of(formulation.wishes.rules.begin(), formulation.wishes.rules.end(),
                                [&](const explain::Rule& one) { return one.wish == wish; });
  return rule || asked.wish >= 0 || asked.place.line > 0;
}

}  // namespace barwright::jobs
