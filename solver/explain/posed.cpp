#include "solver/explain/posed.hpp"

#include <algorithm>
#include <map>

namespace barwright::explain {
namespace {

bool holds(const std::vector<int>& wishes, int wish) {
  return std::find(wishes.begin(), wishes.end(), wish) != wishes.end();
}

// What a fix moves: a wish as a whole, or one of the oils it caps.
std::pair<int, int> moved(const Fix& fix) {
  const bool one_rule = fix.changes.size() == 1 && fix.changes.front().what == Change::What::rule;
  return {fix.wishes.front(), one_rule ? fix.changes.front().index : -1};
}

// Takes the further end of two, and proves what both prove.
void widen(Extreme& end, const Extreme& other, bool largest) {
  if (other.steps.empty()) {
    if (other.status != optimise::Status::infeasible && end.status == optimise::Status::optimal)
      end.status = optimise::Status::feasible;
    return;
  }
  if (end.steps.empty()) {
    const bool known = end.status == optimise::Status::infeasible;
    end = other;
    if (!known && end.status == optimise::Status::optimal) end.status = optimise::Status::feasible;
    return;
  }
  const bool proved = end.proved() && other.proved();
  const double bound =
      largest ? std::max(end.bound, other.bound) : std::min(end.bound, other.bound);
  if (largest ? other.value > end.value : other.value < end.value) end = other;
  end.bound = bound;
  end.status = proved ? optimise::Status::optimal : optimise::Status::feasible;
}

}  // namespace

Fixes find_fixes(std::span<const Posed> posed, std::span<const int> which,
                 const optimise::SearchOptions& options) {
  if (posed.size() == 1)
    return find_fixes(*posed.front().problem, *posed.front().wishes, which, options);
  Fixes out;
  std::map<std::pair<int, int>, Fix> mildest;
  std::map<int, std::size_t> no_way;
  std::vector<int> undecided;
  for (const Posed& one : posed) {
    Fixes found = find_fixes(*one.problem, *one.wishes, which, options);
    for (const int wish : found.no_way) ++no_way[wish];
    undecided.insert(undecided.end(), found.undecided.begin(), found.undecided.end());
    for (Fix& fix : found.fixes) {
      const auto [place, fresh] = mildest.try_emplace(moved(fix), fix);
      if (fresh) continue;
      const bool proved = place->second.proved && fix.proved;
      if (fix.size < place->second.size) place->second = std::move(fix);
      place->second.proved = proved;
    }
  }
  for (auto& [what, fix] : mildest) {
    fix.proved = fix.proved && !holds(undecided, what.first);
    out.fixes.push_back(std::move(fix));
  }
  std::stable_sort(out.fixes.begin(), out.fixes.end(),
                   [](const Fix& a, const Fix& b) { return a.size < b.size; });
  for (const int wish : which) {
    const bool opened = std::any_of(out.fixes.begin(), out.fixes.end(),
                                    [&](const Fix& fix) { return holds(fix.wishes, wish); });
    if (opened) continue;
    (no_way[wish] == posed.size() ? out.no_way : out.undecided).push_back(wish);
  }
  return out;
}

Fix joint_fix(std::span<const Posed> posed, std::span<const int> which,
              const optimise::SearchOptions& options) {
  Fix best;
  best.wishes.assign(which.begin(), which.end());
  best.proved = true;
  for (const Posed& one : posed) {
    Fix fix = joint_fix(*one.problem, *one.wishes, which, options);
    const bool proved = best.proved && fix.proved;
    if (!fix.steps.empty() && (best.steps.empty() || fix.size < best.size)) best = std::move(fix);
    best.proved = proved;
  }
  return best;
}

std::vector<Reach> find_reach(std::span<const Posed> posed,
                              const optimise::SearchOptions& options) {
  std::vector<Reach> out;
  for (const Posed& one : posed) {
    std::vector<Reach> found = find_reach(*one.problem, *one.wishes, options);
    if (out.empty()) {
      out = std::move(found);
      continue;
    }
    // Measures stand in the same order in all.
    for (std::size_t m = 0; m < std::min(out.size(), found.size()); ++m) {
      const bool none = found[m].least.steps.empty() && found[m].most.steps.empty();
      const bool none_yet = out[m].least.steps.empty() && out[m].most.steps.empty();
      if (none) continue;
      if (none_yet || found[m].under < out[m].under) {
        out[m] = std::move(found[m]);
      } else if (found[m].under == out[m].under) {
        widen(out[m].least, found[m].least, false);
        widen(out[m].most, found[m].most, true);
      }
    }
  }
  return out;
}

}  // namespace barwright::explain
