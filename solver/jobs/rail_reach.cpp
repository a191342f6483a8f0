#include "solver/jobs/rail_reach.hpp"

#include <algorithm>

#include "solver/formulate/manners_in_force.hpp"
#include "solver/formulate/subject.hpp"
#include "solver/jobs/manners_told.hpp"
#include "solver/optimise/within.hpp"

namespace barwright::jobs {
namespace {

// One search of so many parts and so much work for each end: all of them take well below a second.
constexpr std::uint64_t kNodes = 2000, kWork = 20'000'000;

bool is_about(const targets::Subject& one, const targets::Subject& other) {
  return one.kind == other.kind &&
         (one.kind != targets::Subject::Kind::property || one.property == other.property);
}

// The job with the claims that stay in force whatever the maker wishes.
BlendJob with_claims(const BlendJob& asked, const formulate::HeldTo& held) {
  std::vector<formulate::KeptManner> claims =
      formulate::manners_in_force(asked.brief, asked.candidates, held);
  std::erase_if(claims, [](const formulate::KeptManner& one) { return !one.fixed; });
  return claims.empty() ? asked : with_manners(asked, held, claims, 0);
}

class Reacher {
 public:
  Reacher(const BlendJob& asked, const formulate::HeldTo& held, const BlendResult& found,
          const optimise::SearchOptions& options)
      : job_(with_claims(asked, held)), assumed_(found.assumed), bar_(held.bar), options_(options) {
    assumed_.step_grams.reset();
    assumed_.held_back.clear();
    formulation_ = formulation_of(job_, assumed_);
    formulation_.problem.goals.clear();
    if (!found.has_blend()) return;
    // The blend that was found shows at once how far the figures can be at least.
    const int steps = found.formulation.problem.steps;
    if (formulation_.problem.steps % steps != 0) return;
    start_ = found.answer.steps;
    for (int& w : start_) w *= formulation_.problem.steps / steps;
  }

  RailReach of(const targets::Subject& subject) {
    const formulate::CostBasis basis{assumed_.oil_grams / 1000, assumed_.bars};
    RailReach out;
    out.subject = subject;
    const explain::Measure measure =
        formulate::measure(subject, {}, job_.candidates.oils, job_.model, assumed_.settings, basis);
    if (subject.kind == targets::Subject::Kind::property || bar_.priced)
      out.offset = formulate::value_of(subject, {}, bar_, job_.model, basis);
    const optimise::Problem rest =
        explain::without(formulation_.problem, formulation_.wishes, about(subject));
    if (!floor_only(subject)) out.low = end(rest, measure, false);
    out.high = end(rest, measure, true);
    return out;
  }

 private:
  // A floor on the soluble shares can be put exactly, a ceiling not.
  static bool floor_only(const targets::Subject& subject) {
    return subject.kind == targets::Subject::Kind::property &&
           !targets::PropertyModel::has_form(subject.property);
  }

  std::vector<int> about(const targets::Subject& subject) const {
    std::vector<int> out;
    for (std::size_t i = 0; i < formulation_.asked.size(); ++i) {
      const int wish = formulation_.asked[i].wish;
      if (wish >= 0 && wish < static_cast<int>(job_.brief.wishes.size()) &&
          is_about(job_.brief.wishes[static_cast<std::size_t>(wish)].subject, subject))
        out.push_back(static_cast<int>(i));
    }
    return out;
  }

  explain::Extreme end(const optimise::Problem& rest, const explain::Measure& measure,
                       bool largest) const {
    optimise::Within quick(options_, kWork, kNodes);
    quick.options().start = start_;
    return explain::extreme(rest, measure, largest, quick.options());
  }

  BlendJob job_;
  formulate::Assumed assumed_;
  formulate::KnownBar bar_;
  const optimise::SearchOptions& options_;
  formulate::Formulation formulation_;
  std::vector<int> start_;
};

}  // namespace

std::vector<RailReach> rail_reach(const BlendJob& asked, const formulate::HeldTo& held,
                                  const BlendResult& found,
                                  const optimise::SearchOptions& options) {
  Reacher reacher(asked, held, found, options);
  std::vector<RailReach> out;
  for (const auto property : targets::all_properties()) {
    if (property == targets::Property::titre) continue;
    targets::Subject subject;
    subject.property = property;
    subject.name = std::string(targets::name(property));
    out.push_back(reacher.of(subject));
  }
  const auto& oils = asked.candidates.oils;
  if (std::all_of(oils.begin(), oils.end(),
                  [](const formulate::Candidate& one) { return one.price_per_kg.has_value(); })) {
    targets::Subject cost;
    cost.kind = targets::Subject::Kind::oil_cost;
    cost.currency = asked.candidates.currency;
    cost.name = "oil cost";
    out.push_back(reacher.of(cost));
  }
  return out;
}

}  // namespace barwright::jobs
