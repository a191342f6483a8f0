#include "solver/formulate/manners_in_force.hpp"

#include <algorithm>

#include "solver/formulate/manner_rules.hpp"
#include "targets/model/yardstick.hpp"

namespace barwright::formulate {

using targets::Manner;
using Kind = targets::Manner::Kind;

namespace {

// A share of a tag above none was spoken of: its oils are told to be welcome.
bool told(const targets::OilRules& rules, std::span<const std::string> tags) {
  return std::any_of(rules.tags.begin(), rules.tags.end(), [&](const targets::TagRule& rule) {
    const bool some = (rule.least && *rule.least > 0) || (rule.most && *rule.most > 0);
    return some && std::any_of(rule.tags.begin(), rule.tags.end(), [&](const std::string& tag) {
             return std::find(tags.begin(), tags.end(), tag) != tags.end();
           });
  });
}

bool barred(const targets::OilRules& rules, const std::string& tag) {
  for (const auto& bar : rules.barred)
    if (bar.tag == tag) return true;
  for (const auto& rule : rules.tags) {
    const bool of_it = std::find(rule.tags.begin(), rule.tags.end(), tag) != rule.tags.end();
    if (of_it && rule.most && *rule.most == 0) return true;
    const bool vegan = std::find(rule.tags.begin(), rule.tags.end(), "vegan") != rule.tags.end();
    if (tag == "animal" && vegan && rule.least && *rule.least >= 1) return true;
  }
  return false;
}

bool speaks_of(const targets::Subject& subject, const Manner& manner) {
  using Subject = targets::Subject::Kind;
  if (subject.kind == Subject::property) {
    if (manner.kind == Kind::cut) return subject.property == targets::Property::cut_firmness;
    return manner.property && *manner.property == subject.property;
  }
  if (subject.kind != Subject::acids) return false;
  return std::any_of(subject.acids.begin(), subject.acids.end(), [&](core::FattyAcid acid) {
    return std::find(manner.acids.begin(), manner.acids.end(), acid) != manner.acids.end();
  });
}

bool speaks_of(const targets::Goal& goal, const Manner& manner) {
  using Goal = targets::Goal::Kind;
  switch (goal.kind) {
    case Goal::most:
    case Goal::least:
      return speaks_of(goal.subject, manner);
    case Goal::nearest:
      return std::any_of(goal.points.begin(), goal.points.end(),
                         [&](const auto& point) { return speaks_of(point.subject, manner); });
    case Goal::weighted:
      return std::any_of(goal.parts.begin(), goal.parts.end(),
                         [&](const auto& part) { return speaks_of(part, manner); });
    case Goal::cheapest:
    case Goal::nearest_in_feel:  // of feel in all: it names no property
    case Goal::use_up:
    case Goal::fewest_oils:
      return false;
  }
  return false;
}

bool spoken_of(const targets::Brief& brief, const Manner& manner) {
  return std::any_of(brief.wishes.begin(), brief.wishes.end(),
                     [&](const auto& wish) { return speaks_of(wish.subject, manner); }) ||
         std::any_of(brief.goals.begin(), brief.goals.end(),
                     [&](const auto& goal) { return speaks_of(goal, manner); });
}

bool claim_stands(const targets::Brief& brief, const Candidates& candidates, const HeldTo& held,
                  const Manner& manner) {
  for (const auto& part : held.bar.parts)
    if (carries_any(part.oil, manner.tags)) return false;
  if (told(brief.rules, manner.tags)) return false;
  return std::any_of(candidates.oils.begin(), candidates.oils.end(), [&](const Candidate& one) {
    return carries_any(one.oil, manner.tags) && !asked_for(brief, one.oil.name);
  });
}

// No shelf, and no oils named: the library stands for "any".
bool only_the_library(const targets::Brief& brief) {
  const auto& from = brief.oils_from;
  return from.library && !from.shelf && !brief.shelf && from.shelves.empty() &&
         from.named.empty() && !from.price_list;
}

bool in_force(const targets::Brief& brief, const Candidates& candidates, const HeldTo& held,
              const Manner& manner) {
  const auto& rules = brief.rules;
  switch (manner.kind) {
    case Kind::family:
      return !family_of(brief, candidates, held, manner).empty();
    case Kind::claim:
      return claim_stands(brief, candidates, held, manner);
    case Kind::oils:
      return !rules.most_oils;
    case Kind::steps:
      return !rules.step_share && !rules.step_grams;
    case Kind::most:
      return candidates.oils.size() > 1 && !(rules.most_oils && *rules.most_oils == 1);
    case Kind::acids:
    case Kind::rest:
    case Kind::cut:
      return !spoken_of(brief, manner);
    case Kind::everyday:
      return !rare_oils(brief, candidates, held, manner).empty();
    case Kind::own:
      // A shipped bar is nobody's own.
      return brief.compared_with && brief.compared_with->blend && only_the_library(brief) &&
             !other_oils(brief, candidates, held).empty();
    case Kind::share:
    case Kind::parts:
      return true;
  }
  return false;
}

}  // namespace

std::string stand_in(const targets::Brief& brief, const Candidates& candidates) {
  double animal = 0, all = 0;
  for (const auto& candidate : candidates.oils) {
    const double weight = candidate.stock_grams.value_or(1000);
    all += weight;
    if (candidate.oil.has_tag("animal") && candidate.oil.form == oils::Form::triglyceride)
      animal += weight;
  }
  // A third of what is at hand (judgement): the maker works with it.
  constexpr double kMuch = 1.0 / 3;
  if (animal >= kMuch * all && !brief.oils_from.library && !barred(brief.rules, "animal"))
    return "plain farm bar";
  const auto at_hand = [&](const std::string& name) {
    return std::any_of(candidates.oils.begin(), candidates.oils.end(), [&](const Candidate& one) {
      return one.oil.name == name &&
             std::none_of(one.oil.tags.begin(), one.oil.tags.end(),
                          [&](const std::string& tag) { return barred(brief.rules, tag); });
    });
  };
  for (const char* name :
       {"plain bar", "plain bar without palm", "plain olive bar", "plain kitchen bar"}) {
    const auto* bar = targets::find_yardstick(name);
    if (bar != nullptr && std::all_of(bar->blend.begin(), bar->blend.end(),
                                      [&](const auto& part) { return at_hand(part.first); }))
      return name;
  }
  return "plain bar without palm";
}

std::vector<KeptManner> manners_in_force(const targets::Brief& brief, const Candidates& candidates,
                                         const HeldTo& held) {
  std::vector<KeptManner> out;
  const auto& wish = brief.rules.manners;
  if (wish.none) return out;
  for (const Manner& manner : targets::manners()) {
    if (std::find(wish.off.begin(), wish.off.end(), manner.name) != wish.off.end()) continue;
    if (!in_force(brief, candidates, held, manner)) continue;
    const bool fixed = manner.kind == Kind::family || (manner.kind == Kind::claim && held.in_hand);
    out.push_back({.manner = &manner, .fixed = fixed, .let_in = {}});
  }
  return out;
}

}  // namespace barwright::formulate
