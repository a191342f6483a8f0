#include "solver/explain/conflict.hpp"

#include <algorithm>

namespace barwright::explain {
namespace {

bool contains(const std::vector<int>& set, int member) {
  return std::find(set.begin(), set.end(), member) != set.end();
}

bool extend(const std::vector<std::vector<int>>& sets, std::size_t room, std::vector<int>& chosen) {
  const auto missed = std::find_if(sets.begin(), sets.end(), [&](const std::vector<int>& set) {
    return std::none_of(set.begin(), set.end(), [&](int m) { return contains(chosen, m); });
  });
  if (missed == sets.end()) return true;
  if (room == 0) return false;
  for (int member : *missed) {
    chosen.push_back(member);
    if (extend(sets, room - 1, chosen)) return true;
    chosen.pop_back();
  }
  return false;
}

/// One run of the filter: the questions asked, and what the blends found along the way break.
class Filter {
 public:
  Filter(std::span<const Posed> posed, const optimise::SearchOptions& options)
      : posed_(posed),
        options_(options),
        all_(wish_ids(*posed.front().problem, *posed.front().wishes)) {}

  const std::vector<int>& all() const { return all_; }
  int searches() const { return searches_; }

  /// Lets so many more searches be made; past them every question stays undecided.
  void allow(int more) { allowed_ = searches_ + more; }
  const std::vector<std::vector<int>>& broken() const { return broken_; }

  /// Whether these wishes collide: infeasible, feasible or undecided.
  optimise::Status ask(const std::vector<int>& kept) {
    if (out_of_time(options_) || searches_ >= allowed_) return optimise::Status::undecided;
    ++searches_;
    bool decided = true;
    for (const Posed& posed : posed_) {
      const optimise::Answer answer =
          any_blend(with_only(*posed.problem, *posed.wishes, kept), options_);
      if (answer.steps.empty()) {
        decided = decided && answer.status == optimise::Status::infeasible;
        continue;
      }
      std::vector<int> missed;
      for (int wish : all_) {
        if (!contains(kept, wish) && !meets(*posed.problem, *posed.wishes, wish, answer.steps)) {
          missed.push_back(wish);
        }
      }
      broken_.push_back(std::move(missed));
      return optimise::Status::feasible;
    }
    return decided ? optimise::Status::infeasible : optimise::Status::undecided;
  }

  /// Leaves out what can be left out; true when nothing more can, proved.
  bool shrink(std::vector<int>& kept) {
    bool minimal = true;
    for (std::size_t i = kept.size(); i-- > 0;) {
      // A known blend that breaks this wish alone has already shown that it must stay.
      const int wish = kept[i];
      if (opened_by(kept, wish)) continue;
      std::vector<int> fewer = kept;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
      const optimise::Status status = ask(fewer);
      if (status == optimise::Status::infeasible) kept = fewer;
      if (status == optimise::Status::undecided) minimal = false;
    }
    return minimal;
  }

  /// Which side of a wish with a floor and a ceiling matters.
  Side side(const std::vector<int>& conflict, int wish) {
    bool floor = false;
    bool ceiling = false;
    for (const optimise::Limit& limit : posed_.front().problem->limits) {
      if (limit.wish != wish) continue;
      floor = floor || limit.low != -optimise::kInfinity;
      ceiling = ceiling || limit.high != optimise::kInfinity;
    }
    if (!floor && !ceiling) return Side::rule;
    if (!floor) return Side::ceiling;
    if (!ceiling) return Side::floor;
    if (collides_with_one_side(conflict, wish, true)) return Side::floor;
    if (collides_with_one_side(conflict, wish, false)) return Side::ceiling;
    return Side::both;
  }

 private:
  bool opened_by(const std::vector<int>& kept, int wish) const {
    return std::any_of(broken_.begin(), broken_.end(), [&](const std::vector<int>& missed) {
      return contains(missed, wish) && std::none_of(missed.begin(), missed.end(), [&](int m) {
               return m != wish && contains(kept, m);
             });
    });
  }

  bool collides_with_one_side(const std::vector<int>& conflict, int wish, bool floor) {
    if (out_of_time(options_)) return false;
    ++searches_;
    return std::all_of(posed_.begin(), posed_.end(), [&](const Posed& posed) {
      optimise::Problem part = with_only(*posed.problem, *posed.wishes, conflict);
      for (optimise::Limit& limit : part.limits) {
        if (limit.wish != wish) continue;
        (floor ? limit.high : limit.low) = floor ? optimise::kInfinity : -optimise::kInfinity;
      }
      const optimise::Answer answer = any_blend(std::move(part), options_);
      return answer.steps.empty() && answer.status == optimise::Status::infeasible;
    });
  }

  std::span<const Posed> posed_;
  const optimise::SearchOptions& options_;
  std::vector<int> all_;
  std::vector<std::vector<int>> broken_;  ///< per blend found: the wishes it breaks
  int searches_ = 0;
  int allowed_ = 1;  ///< the first question: is there a collision at all
};

/// Replaces the set by a smaller one where there is one; true when it is proved smallest.
bool make_smallest(Filter& filter, std::vector<int>& found) {
  while (!found.empty()) {
    const auto candidate = hitting_set(filter.broken(), found.size() - 1);
    if (!candidate) return true;  // every colliding set has at least as many members
    std::vector<int> set = *candidate;
    std::sort(set.begin(), set.end());
    const optimise::Status status = filter.ask(set);
    if (status == optimise::Status::undecided) return false;
    if (status == optimise::Status::infeasible) found = set;
  }
  return true;
}

std::string sentence(const Conflict& c) {
  if (c.wishes.empty()) return "What is on hand leaves no blend at all, whatever is wished.";
  if (c.smallest) return "These wishes collide; no smaller set of wishes does.";
  if (c.minimal) return "These wishes collide, and leaving out any one of them opens the way.";
  return "These wishes collide; time ran out before it was shown that each of them takes part.";
}

}  // namespace

std::optional<std::vector<int>> hitting_set(const std::vector<std::vector<int>>& sets,
                                            std::size_t most) {
  for (std::size_t size = 0; size <= most; ++size) {
    std::vector<int> chosen;
    if (extend(sets, size, chosen)) return chosen;
  }
  return std::nullopt;
}

Conflict find_conflict(const optimise::Problem& problem, const Wishes& wishes,
                       const optimise::SearchOptions& options, const ConflictOptions& how) {
  const Posed posed{&problem, &wishes};
  return find_conflict(std::span(&posed, 1), options, how);
}

Conflict find_conflict(std::span<const Posed> posed, const optimise::SearchOptions& options,
                       const ConflictOptions& how) {
  Filter filter(posed, options);
  Conflict conflict;
  std::vector<int> kept = filter.all();
  const optimise::Status whole = filter.ask(kept);
  conflict.searches = filter.searches();
  if (whole != optimise::Status::infeasible) {
    conflict.reason = whole == optimise::Status::feasible
                          ? "These wishes do not collide: a blend meets them all."
                          : "Time ran out before it was known whether these wishes collide.";
    return conflict;
  }
  conflict.proved = true;
  filter.allow(how.most_filtering);
  conflict.minimal = filter.shrink(kept);
  filter.allow(how.most_searches);
  if (conflict.minimal) conflict.smallest = make_smallest(filter, kept);
  conflict.wishes = kept;
  for (int wish : kept) conflict.sides.push_back(filter.side(kept, wish));
  conflict.searches = filter.searches();
  conflict.reason = sentence(conflict);
  return conflict;
}

}  // namespace barwright::explain
