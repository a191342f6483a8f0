#include "solver/formulate/manners.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "solver/formulate/blend_forms.hpp"
#include "solver/formulate/manner_rules.hpp"
#include "solver/formulate/subject.hpp"

namespace barwright::formulate {
namespace {

using targets::Manner;
using Kind = targets::Manner::Kind;

constexpr double kSlip = 1e-9;
// An oil whose usual most is no more than this, %, is a helper: it may stay under the least share,
// down to this part of its usual most (both judgement).
constexpr double kHelperMost = 10, kHelperLeast = 0.3;

class Adder {
 public:
  Adder(Formulation& out, const targets::Brief& brief, const Candidates& candidates,
        const HeldTo& held, const targets::PropertyModel& model, const Assumed& assumed)
      : out_(out),
        brief_(brief),
        candidates_(candidates),
        held_(held),
        model_(model),
        assumed_(assumed) {}

  void add(const KeptManner& kept) {
    switch (kept.manner->kind) {
      case Kind::family:
        for (const auto& member : family_of(brief_, candidates_, held_, *kept.manner))
          most(member.oil, member.most);
        break;
      case Kind::claim:
        claim(*kept.manner);
        break;
      case Kind::oils:
        rule({.kind = explain::RuleKind::most_oils,
              .bound = std::max(static_cast<int>(kept.level()), oils_in_hand())});
        break;
      case Kind::share:
        least_shares(kept.level() / 100);
        break;
      case Kind::most:
        no_oil_alone(kept.level() / 100);
        break;
      case Kind::acids:
        together(kept.level(), [&](const targets::Composition& c) { return acids(kept, c); });
        break;
      case Kind::parts:
        together(
            kept.level(),
            // A wax counts whole, its free acid within.
            [](const targets::Composition& c) { return 100 * (c.wax > 0 ? c.wax : c.free_acid); });
        break;
      case Kind::cut:
        cut(kept.level());
        break;
      case Kind::rest:
        rest(*kept.manner->property, kept.level());
        break;
      case Kind::everyday:
        for (const std::size_t i : rare_oils(brief_, candidates_, held_, *kept.manner)) most(i, 0);
        break;
      case Kind::own:
        for (const std::size_t i : other_oils(brief_, candidates_, held_))
          if (candidates_.oils[i].oil.name != kept.let_in) most(i, 0);
        break;
      case Kind::steps:
        break;
    }
  }

 private:
  int oils_in_hand() const { return held_.in_hand ? static_cast<int>(held_.bar.parts.size()) : 0; }

  void rule(const explain::Rule& rule) {
    explain::add_rule(out_.problem, rule, rule.bound);
    out_.wishes.rules.push_back(rule);
  }

  void most(std::size_t oil, double share) {
    rule({.kind = explain::RuleKind::oil_most,
          .oil = static_cast<int>(oil),
          .bound = static_cast<int>(std::floor(share * out_.problem.steps + kSlip))});
  }

  void claim(const Manner& manner) {
    for (std::size_t i = 0; i < candidates_.oils.size(); ++i) {
      const auto& oil = candidates_.oils[i].oil;
      if (carries_any(oil, manner.tags) && !asked_for(brief_, oil.name)) most(i, 0);
    }
  }

  bool used_up(const std::string& oil) const {
    return std::any_of(brief_.goals.begin(), brief_.goals.end(), [&](const targets::Goal& goal) {
      return goal.kind == targets::Goal::Kind::use_up && goal.oil == oil;
    });
  }

  void least_shares(double level) {
    for (std::size_t i = 0; i < candidates_.oils.size(); ++i) {
      const auto& oil = candidates_.oils[i].oil;
      double least = level;
      if (oil.usual_most && oil.usual_most->span.typical <= kHelperMost)
        least = std::min(least, kHelperLeast * oil.usual_most->span.typical / 100);
      const double now = held_.in_hand ? share_in(held_.bar, oil.name) : 0;
      if (now > 0) least = std::min(least, now);
      const auto* own = limit_of(brief_.rules, oil.name);
      if (own != nullptr && (own->least || (own->most && *own->most < least))) continue;
      if (used_up(oil.name)) continue;
      rule({.kind = explain::RuleKind::oil_least,
            .oil = static_cast<int>(i),
            .bound = static_cast<int>(std::ceil(least * out_.problem.steps - kSlip))});
    }
  }

  // What a plant or animal gives by pressing, parting or hardening is one oil here; its kernel is
  // another.
  static std::string plant_of(const oils::Oil& oil) {
    std::size_t end = oil.inci.find(' ');
    if (end != std::string::npos) end = oil.inci.find(' ', end + 1);
    return oil.inci.substr(0, end) + (oil.has_tag("lauric") ? " (lauric)" : "");
  }

  void no_oil_alone(double level) {
    std::map<std::string, std::vector<double>> groups;
    std::map<std::string, double> now;
    for (std::size_t i = 0; i < candidates_.oils.size(); ++i) {
      const auto& oil = candidates_.oils[i].oil;
      const auto* own = limit_of(brief_.rules, oil.name);
      if (own != nullptr && ((own->most && *own->most > level) || (own->least && *own->least > 0)))
        continue;
      auto& group = groups[plant_of(oil)];
      group.resize(candidates_.oils.size(), 0.0);
      group[i] = 100;
      if (held_.in_hand) now[plant_of(oil)] += share_in(held_.bar, oil.name);
    }
    for (auto& [plant, share] : groups) {
      optimise::Limit limit{.form = optimise::weighted_sum(share)};
      limit.high = 100 * std::max(level, now[plant]);
      if (limit.high < 100) out_.problem.limits.push_back(std::move(limit));
    }
  }

  double acids(const KeptManner& kept, const targets::Composition& composition) const {
    double sum = 0;
    for (const auto acid : kept.manner->acids) sum += 100 * core::at(composition.acids, acid);
    return sum;
  }

  // What the bar in the hand has already is no vice of the new one.
  template <typename Part>
  void together(double level, Part part) {
    std::vector<double> carry;
    for (const auto& candidate : candidates_.oils) carry.push_back(part(candidate.composition));
    optimise::Limit limit{.form = optimise::weighted_sum(carry)};
    limit.high = held_.in_hand ? std::max(level, part(held_.bar.composition)) : level;
    out_.problem.limits.push_back(std::move(limit));
  }

  void floor(targets::Property property, double least) {
    targets::Subject subject;
    subject.property = property;
    subject.name = targets::name(property);
    const explain::Measure score =
        measure(subject, {}, candidates_.oils, model_, assumed_.settings, {});
    explain::add_range(out_.problem, score, least, optimise::kInfinity);
  }

  double in_held(targets::Property property) const {
    return model_.value(property, held_.bar.composition, held_.bar.settings);
  }

  void cut(double level) {
    const double now = in_held(targets::Property::cut_firmness);
    floor(targets::Property::cut_firmness, held_.in_hand ? std::min(level, now) : level);
  }

  void rest(targets::Property property, double steps) {
    targets::Subject subject;
    subject.property = property;
    floor(property, std::max(0.0, in_held(property) - steps * noticeable(subject)));
  }

  Formulation& out_;
  const targets::Brief& brief_;
  const Candidates& candidates_;
  const HeldTo& held_;
  const targets::PropertyModel& model_;
  const Assumed& assumed_;
};

}  // namespace

void add_manners(Formulation& out, const targets::Brief& brief, const Candidates& candidates,
                 const HeldTo& held, const targets::PropertyModel& model, const Assumed& assumed,
                 std::span<const KeptManner> kept) {
  Adder adder(out, brief, candidates, held, model, assumed);
  for (const auto& one : kept)
    if (!one.dropped()) adder.add(one);
}

std::string rule_words(const KeptManner& kept, const HeldTo& held) {
  std::string out = kept.manner->rule;
  const auto put = [&](const std::string& sign, const std::string& figure) {
    const std::size_t at = out.find(sign);
    if (at != std::string::npos) out.replace(at, sign.size(), figure);
  };
  put("{}", fmt::format("{:.4g}", kept.level()));
  put("{hours}", fmt::format("{:.0f}", targets::hours_to_cut(kept.level())));
  put("{bar}", held.bar.name);
  if (!kept.let_in.empty()) out += ", and " + kept.let_in;
  if (kept.manner->kind != Kind::rest) return out;
  if (kept.given > 0)
    put("not clearly", fmt::format("at most {:.4g} noticeable steps", kept.level()));
  return out + " than " + held.bar.name;
}

}  // namespace barwright::formulate
