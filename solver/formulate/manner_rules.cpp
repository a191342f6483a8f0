#include "solver/formulate/manner_rules.hpp"

#include <algorithm>

namespace barwright::formulate {

using targets::Manner;

bool carries(const oils::Oil& oil, const std::string& tag) {
  return oil.has_tag(tag) || oil.has_tag("may be " + tag);
}

bool carries_any(const oils::Oil& oil, std::span<const std::string> tags) {
  return std::any_of(tags.begin(), tags.end(),
                     [&](const std::string& tag) { return carries(oil, tag); });
}

double share_in(const KnownBar& bar, const std::string& oil) {
  for (const auto& part : bar.parts)
    if (part.oil.name == oil) return part.share;
  return 0;
}

const targets::OilLimit* limit_of(const targets::OilRules& rules, const std::string& oil) {
  for (const auto& limit : rules.oils)
    if (limit.oil.name == oil) return &limit;
  return nullptr;
}

bool asked_for(const targets::Brief& brief, const std::string& oil) {
  for (const auto& named : brief.oils_from.named)
    if (named.name == oil) return true;
  for (const auto& goal : brief.goals)
    if (goal.kind == targets::Goal::Kind::use_up && goal.oil == oil) return true;
  const auto* limit = limit_of(brief.rules, oil);
  return limit != nullptr && !(limit->most && *limit->most == 0);
}

std::vector<FamilyMember> family_of(const targets::Brief& brief, const Candidates& candidates,
                                    const HeldTo& held, const Manner& manner) {
  std::vector<FamilyMember> out;
  for (const auto& limit : brief.rules.oils) {
    if (!limit.most) continue;
    const double now = held.in_hand ? share_in(held.bar, limit.oil.name) : 0;
    if (*limit.most > 0 && *limit.most >= now) continue;
    for (const auto& tag : manner.tags) {
      // Without the bar in the hand only the head of a family stands for all of it.
      const bool head = limit.oil.name == tag || (tag == "soya" && limit.oil.name == "soybean");
      const auto goes = std::find_if(
          candidates.oils.begin(), candidates.oils.end(),
          [&](const Candidate& candidate) { return candidate.oil.name == limit.oil.name; });
      const bool member = goes != candidates.oils.end() && now > 0 && carries(goes->oil, tag);
      if (!head && !member) continue;
      for (std::size_t i = 0; i < candidates.oils.size(); ++i) {
        const auto& oil = candidates.oils[i].oil;
        if (!carries(oil, tag) || limit_of(brief.rules, oil.name) != nullptr) continue;
        if (asked_for(brief, oil.name) && share_in(held.bar, oil.name) == 0) continue;
        out.push_back({i, held.in_hand ? share_in(held.bar, oil.name) : 0});
      }
    }
  }
  return out;
}

std::vector<std::size_t> rare_oils(const targets::Brief& brief, const Candidates& candidates,
                                   const HeldTo& held, const Manner& manner) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < candidates.oils.size(); ++i) {
    const auto& one = candidates.oils[i];
    const bool everyday =
        std::find(manner.oils.begin(), manner.oils.end(), one.oil.name) != manner.oils.end();
    const bool there = one.on_shelf || one.price_per_kg || one.holding != nullptr ||
                       share_in(held.bar, one.oil.name) > 0 || asked_for(brief, one.oil.name);
    if (!everyday && !there) out.push_back(i);
  }
  return out;
}

std::vector<std::size_t> other_oils(const targets::Brief& brief, const Candidates& candidates,
                                    const HeldTo& held) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < candidates.oils.size(); ++i) {
    const std::string& name = candidates.oils[i].oil.name;
    if (share_in(held.bar, name) == 0 && !asked_for(brief, name)) out.push_back(i);
  }
  return out;
}

}  // namespace barwright::formulate
