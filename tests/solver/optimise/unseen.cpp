#include "tests/solver/optimise/unseen.hpp"

#include <algorithm>
#include <cmath>

#include "oils/records/library.hpp"
#include "solver/formulate/blend_forms.hpp"
#include "solver/formulate/feel_goal.hpp"
#include "targets/model/model.hpp"
#include "tests/solver/optimise/instances.hpp"

namespace barwright::testing {
namespace {

using core::FattyAcid;

// What an oil does in a bar, told by its acids, and how much of its kind a recipe takes, per cent
// (common practice, no source).
enum class Part { lather, castor, hard, soft };

Part part_of(const targets::Composition& oil) {
  if (core::at(oil.acids, FattyAcid::C12_0) > 0.3) return Part::lather;
  if (core::at(oil.acids, FattyAcid::C16_0) + core::at(oil.acids, FattyAcid::C18_0) > 0.35)
    return Part::hard;
  if (core::at(oil.acids, FattyAcid::C18_1OH) > 0.5) return Part::castor;
  return Part::soft;
}

std::vector<formulate::Candidate> draw_oils(const UnseenSpec& spec, Uniform& draw) {
  static const std::vector<formulate::Candidate> kFats = [] {
    std::vector<formulate::Candidate> out;
    const oils::Library library = oils::Library::embedded();
    for (const oils::Oil& oil : library.oils()) {
      if (oil.form != oils::Form::triglyceride) continue;
      formulate::Candidate one;
      one.oil = oil;
      one.composition = targets::composition(oil);
      out.push_back(std::move(one));
    }
    return out;
  }();
  std::vector<formulate::Candidate> order = kFats;
  for (std::size_t i = order.size(); i > 1; --i)
    std::swap(order[i - 1], order[std::size_t(draw.whole(0, int(i) - 1))]);
  std::vector<formulate::Candidate> out;
  for (std::size_t i = 0; int(out.size()) < spec.oils; ++i) {
    const bool lot = !out.empty() && (draw() < spec.near || i >= order.size());
    formulate::Candidate one =
        lot ? out[std::size_t(draw.whole(0, int(out.size()) - 1))] : order[i % order.size()];
    if (lot) {
      double before = 0, after = 0;
      for (double& acid : one.composition.acids) {
        before += acid;
        acid *= draw(0.995, 1.005);
        after += acid;
      }
      for (double& acid : one.composition.acids) acid *= before / after;
    }
    out.push_back(std::move(one));
  }
  return out;
}

// A blend with the shares of a real recipe, whole steps.
std::vector<int> draw_blend(const UnseenSpec& spec, const std::vector<formulate::Candidate>& oils,
                            Uniform& draw) {
  std::vector<std::vector<std::size_t>> of(4);
  for (std::size_t i = 0; i < oils.size(); ++i)
    of[std::size_t(part_of(oils[i].composition))].push_back(i);
  std::vector<int> steps(oils.size(), 0);
  int left = spec.steps, used = 0;
  const auto put = [&](Part part, double low, double high) {
    const auto& all = of[std::size_t(part)];
    const int room = spec.most_oils > 0 ? spec.most_oils : 6;
    if (all.empty() || used >= room) return;
    const std::size_t i = all[std::size_t(draw.whole(0, int(all.size()) - 1))];
    const int want =
        std::min(left, std::max(spec.least, int(std::lround(draw(low, high) / 100 * spec.steps))));
    if (steps[i] == 0) ++used;
    steps[i] += want;
    left -= want;
  };
  put(Part::soft, 25, 45);
  put(Part::lather, 15, 28);
  put(Part::hard, 8, 25);
  put(Part::castor, 3, 8);
  put(Part::soft, 5, 12);
  put(Part::hard, 4, 10);
  for (std::size_t i = 0; i < steps.size() && left > 0; ++i)
    if (steps[i] > 0) {
      steps[i] += left;
      left = 0;
    }
  return steps;
}

struct Made {
  optimise::Problem problem;
  std::vector<int> hidden;
};

Made make(const UnseenSpec& spec) {
  static const targets::PropertyModel kModel = targets::PropertyModel::embedded();
  const targets::BarSettings settings;
  Uniform draw(spec.seed * 0xD1B54A32D192ED03ULL + 7);
  const std::vector<formulate::Candidate> oils = draw_oils(spec, draw);
  std::vector<targets::Composition> compositions;
  std::vector<double> prices;
  for (const formulate::Candidate& one : oils) {
    compositions.push_back(one.composition);
    prices.push_back(std::round(100 * std::exp(draw(0.7, 3.2))) / 100);
  }
  optimise::Problem problem;
  problem.steps = spec.steps;
  problem.most_oils = spec.most_oils;
  const std::vector<int> hidden = draw_blend(spec, oils, draw);
  const std::vector<double> x = problem.shares(hidden);
  for (std::size_t i = 0; i < oils.size(); ++i) {
    const int usual = int(draw(0.2, 1.0) * spec.steps);
    problem.oils.push_back({spec.least, std::max({usual, hidden[i], spec.least}), false});
  }
  std::vector<optimise::Form> straight, bent;
  for (const targets::Property property : targets::all_properties()) {
    if (!targets::PropertyModel::has_form(property)) continue;
    optimise::Form form = formulate::over_oils(kModel.form(property, settings), compositions);
    (form.is_linear() ? straight : bent).push_back(std::move(form));
  }
  const auto shuffle = [&](std::vector<optimise::Form>& forms) {
    for (std::size_t i = forms.size(); i > 1; --i)
      std::swap(forms[i - 1], forms[std::size_t(draw.whole(0, int(i) - 1))]);
  };
  shuffle(straight);
  shuffle(bent);
  int wish = 0;
  const auto range = [&](const optimise::Form& form) {
    const double width = draw(spec.narrowest, spec.widest);
    const double low = form.at(x) - width * draw();
    problem.limits.push_back({form, low, low + width, wish++});
  };
  for (int r = 0; r < spec.ranges && std::size_t(r) + 1 < straight.size(); ++r)
    range(straight[std::size_t(r)]);
  for (int r = 0; r < spec.bent && std::size_t(r) < bent.size(); ++r) range(bent[std::size_t(r)]);

  optimise::Goal goal{optimise::Form{0, std::vector<double>(oils.size(), 0.0), {}}, {}, 0};
  const double off = spec.can_be_met ? 0 : 1;
  switch (spec.asked) {
    case Asked::cheapest:
      goal.form.linear = prices;
      break;
    case Asked::most:
    case Asked::least: {
      const std::size_t all = straight.size() + bent.size();
      const std::size_t at = std::size_t(draw.whole(0, int(all) - 1));
      goal.form = optimise::scaled(at < straight.size() ? straight[at] : bent[at - straight.size()],
                                   spec.asked == Asked::most ? -1 : 1);
      break;
    }
    case Asked::nearest_point:
      for (std::size_t r = 0; r < 4; ++r) {
        const optimise::Form& form = r < 3 ? straight[straight.size() - 1 - r] : bent.back();
        goal.pulls.push_back({form, form.at(x) + off * draw(-8.0, 8.0), 0.25});
      }
      goal.give = 0.01;  // as briefs state it
      goal.tie = 0.001;
      break;
    case Asked::nearest_in_feel: {
      const std::vector<optimise::Form> terms = formulate::feel_over_oils(kModel, settings, oils);
      const std::size_t strange = std::size_t(draw.whole(0, int(oils.size()) - 1));
      std::vector<double> wanted, there(oils.size(), 0.0);
      for (std::size_t i = 0; i < there.size(); ++i) there[i] = (1 - 0.25 * off) * x[i];
      there[strange] += 0.25 * off;
      for (const optimise::Form& term : terms) wanted.push_back(term.at(there));
      goal = formulate::feel_goal(terms, wanted);
      break;
    }
  }
  problem.goals.push_back(std::move(goal));
  return {std::move(problem), hidden};
}

}  // namespace

optimise::Problem make_unseen(const UnseenSpec& spec) { return make(spec).problem; }

std::vector<int> hidden_blend(const UnseenSpec& spec) { return make(spec).hidden; }

}  // namespace barwright::testing
