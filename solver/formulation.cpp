#include "solver/formulation.hpp"

#include <cmath>

#include "solver/blend_forms.hpp"
#include "solver/formulation_goals.hpp"
#include "solver/formulation_rules.hpp"
#include "solver/subject.hpp"
#include "targets/words.hpp"

namespace barwright::solver {
namespace {

double size(const targets::Bound& bound, const targets::Subject& subject) {
  return bound.value + bound.noticeable * noticeable(subject);
}

// Cost wishes and goals need a price for every oil that may be used.
bool lacks_price(std::span<const Candidate> candidates) {
  for (const auto& candidate : candidates) {
    if (!candidate.price_per_kg) return true;
  }
  return false;
}

void add_wish(Formulation& out, const targets::Wish& wish, int index, const Candidates& candidates,
              const std::optional<KnownBar>& yardstick, const targets::PropertyModel& model,
              const Assumed& assumed, const PlainBar& plain_bar) {
  if (wish.level && *wish.level != targets::Sureness::typical) {
    wish.written.fail("wishes are kept for typical lots only, so far",
                      "leave the level out; the band beside each answer shows the doubt");
  }
  const CostBasis cost{assumed.oil_grams / 1000, assumed.bars};
  if (wish.subject.kind == targets::Subject::Kind::oil_cost && lacks_price(candidates.oils)) {
    wish.written.fail("a cost is wished for, but not every oil has a price",
                      "give the missing prices in the shelf file");
  }
  if (wish.subject.kind == targets::Subject::Kind::property &&
      !targets::PropertyModel::has_form(wish.subject.property) && wish.high) {
    wish.written.fail("the soluble share can be kept above a figure, not below one",
                      "wish for thrift instead, which says how slowly the bar wears");
  }
  Measure asked =
      measure(wish.subject, wish.written, candidates.oils, model, assumed.settings, cost);
  Asked words{.words = wish.written.text,
              .place = wish.written.place,
              .subject = wish.subject.name,
              .unit = unit(wish.subject),
              .wish = index};
  if (wish.compared) {
    const KnownBar* bar = nullptr;
    KnownBar shipped;
    if (!wish.than.empty()) {
      shipped = plain_bar(wish.than, wish.written);
      bar = &shipped;
    } else if (yardstick) {
      bar = &*yardstick;
    } else {
      wish.written.fail("this compares with a bar, but the brief names none",
                        "add 'compared-with:' with your own blend, a recipe file or a plain bar");
    }
    words.offset = value_of(wish.subject, wish.written, *bar, model, cost);
    words.compared = true;
  }
  const double held = static_cast<std::size_t>(index) < assumed.held_back.size()
                          ? assumed.held_back[static_cast<std::size_t>(index)]
                          : 0;
  asked.wish = static_cast<int>(out.asked.size());
  asked.noticeable = noticeable(wish.subject);
  if (wish.low) asked.low = words.offset + size(*wish.low, wish.subject) + held;
  if (wish.high) asked.high = words.offset + size(*wish.high, wish.subject) - held;
  add_range(out.problem, asked, asked.low, asked.high);
  out.wishes.measures.push_back(std::move(asked));
  out.asked.push_back(std::move(words));
}

}  // namespace

Formulation formulate(const targets::Brief& brief, const Candidates& candidates,
                      const std::optional<KnownBar>& yardstick, const targets::PropertyModel& model,
                      const Assumed& assumed, const PlainBar& plain_bar) {
  if (brief.sureness != targets::Sureness::typical) {
    throw core::InputError({brief.file, 0, 0}, "wishes are kept for typical lots only, so far",
                           "leave 'sureness' out; the band beside each answer shows the doubt");
  }
  Formulation out;
  out.problem.steps = step_count(brief.rules, assumed.oil_grams);
  out.problem.oils.assign(candidates.oils.size(), {.least = 1, .most = out.problem.steps});
  for (std::size_t i = 0; i < brief.wishes.size(); ++i) {
    add_wish(out, brief.wishes[i], static_cast<int>(i), candidates, yardstick, model, assumed,
             plain_bar);
  }
  add_rules(out, brief.rules, candidates, assumed);
  add_goals(out, brief.goals, candidates, yardstick, model, assumed, plain_bar);
  return out;
}

}  // namespace barwright::solver
