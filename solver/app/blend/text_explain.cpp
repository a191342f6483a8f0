#include "solver/app/blend/text_explain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/weight_text.hpp"
#include "solver/app/blend/blend_words.hpp"
#include "solver/app/blend/text_manners.hpp"
#include "solver/app/blend/text_sureness.hpp"
#include "solver/app/blend/ways_out.hpp"

namespace barwright::app {
namespace {

std::string where(const core::Place& place) {
  return place.line > 0 ? fmt::format("{}:{}", place.file, place.line) : std::string();
}

void show_conflict(Screen& screen, const jobs::BlendReport& report, const jobs::No& no) {
  const auto& conflict = no.conflict;
  if (conflict.wishes.empty()) {
    screen.sentence("Even without any wish the oils at hand do not make up a blend.");
    return;
  }
  screen.heading(
      conflict.wishes.size() == 1 ? "THIS CANNOT BE HAD" : "THESE COLLIDE",
      !conflict.proved ? "so far as was searched"
      : conflict.minimal && conflict.wishes.size() > 1
          ? (no.fixes.no_way.empty()
                 ? "proved: leave any one out and there is a blend"
                 : "proved: they cannot all be had; leave one out and the rest of them can")
          : "proved");
  std::vector<std::vector<std::string>> rows;
  for (const int wish : conflict.wishes) {
    rows.push_back({asked_of(report, wish).words, where(asked_of(report, wish).place)});
  }
  screen.table("ll", rows);
}

void show_reach(Screen& screen, const jobs::BlendReport& report, const jobs::No& no) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& reach : no.reach) {
    if (std::find(no.conflict.wishes.begin(), no.conflict.wishes.end(), reach.wish) ==
        no.conflict.wishes.end()) {
      continue;
    }
    const auto& wish = asked_of(report, reach.wish);
    const auto figure = [&](const explain::Extreme& end) {
      const double value = wish.shown(end.value);
      return wish.compared ? signed_points(value) : fmt::format("{:.4g}", value);
    };
    std::string range;
    if (!reach.least.steps.empty() && !reach.most.steps.empty()) {
      range = figure(reach.least) + " to " + figure(reach.most);
    } else if (!reach.most.steps.empty()) {  // a sure floor: how high it can be kept
      range = "up to " + figure(reach.most);
    } else if (!reach.least.steps.empty()) {
      range = "down to " + figure(reach.least);
    } else {
      continue;
    }
    const char* under = reach.under == explain::Under::rest    ? "with every other wish kept"
                        : reach.under == explain::Under::rules ? "with the rules on oils kept"
                                                               : "with nothing else asked";
    const auto told = [](const explain::Extreme& end) { return end.steps.empty() || end.proved(); };
    const bool proved = told(reach.least) && told(reach.most);
    rows.push_back({wish.subject, range,
                    wish.unit + (wish.compared ? " against the bar in hand" : ""),
                    std::string(under) + (proved ? "" : ", so far as was searched")});
  }
  if (rows.empty()) return;
  screen.heading("WHAT CAN BE REACHED");
  screen.table("lrll", rows);
}

void show_fixes(Screen& screen, const jobs::BlendReport& report, const jobs::No& no) {
  std::vector<std::vector<std::string>> rows;
  const auto add = [&](const jobs::TriedWay& way) {
    for (const auto& edit : edits_of(report, way)) {
      rows.push_back({asked_of(report, edit.wish).words, "->",
                      edit.words + (way.fix.proved ? ""
                                    : way.opens    ? " (so far: less may do)"
                                                   : " (so far: not weighed out)")});
    }
  };
  for (const auto& way : no.ways) add(way);
  if (rows.empty() && no.together) {
    screen.heading("A WAY OUT", "no single wish opens it; these together do");
    add(*no.together);
    screen.table("lll", rows);
    return;
  }
  if (rows.empty()) return;
  screen.heading("WAYS OUT", "any one of these is enough, the mildest first");
  screen.table("lll", rows);
  for (const int wish : no.fixes.no_way) {
    screen.sentence(fmt::format("Giving up '{}' alone would not do: other wishes collide too.",
                                asked_of(report, wish).words));
  }
}

void show_purchases(Screen& screen, const jobs::No& no) {
  if (no.purchases.found.empty()) return;
  std::string names;
  bool pairs = false;
  for (const auto& purchase : no.purchases.found) {
    std::string together;
    for (const int oil : purchase.oils) {
      together +=
          (together.empty() ? "" : " with ") + no.purchase_names[static_cast<std::size_t>(oil)];
    }
    pairs = pairs || purchase.oils.size() > 1;
    names += (names.empty() ? "" : ", ") + together;
  }
  const std::string doubt = no.purchases.complete ? "" : " So far as was searched.";
  screen.heading("OR BUY", pairs ? "no single oil opens the way; any one of these pairs would"
                                 : "any one of these oils would open the way");
  screen.sentence(fmt::format("{}. (A pack of {}{}.){}", names,
                              core::round_grams(jobs::kUsualPackGrams), pairs ? " of each" : "",
                              doubt));
}

}  // namespace

void show_no(Screen& screen, const jobs::BlendReport& report) {
  const auto& answer = report.result.answer;
  if (answer.status != optimise::Status::infeasible || !report.no) {
    if (report.result.too_coarse) {
      screen.sentence("A blend fits on paper, but not on this scale. " + answer.reason);
      return;
    }
    screen.sentence("Nothing found yet, and nothing proved: " + answer.reason + ".");
    screen.sentence("Give it longer (--within 60s), or loosen the wish that matters least.");
    return;
  }
  screen.sentence("No blend fits. That is proved, not guessed.");
  show_claim_in_the_way(screen, report.manners);
  show_conflict(screen, report, *report.no);
  if (const auto& lye = report.result.lye_in_the_way) {
    screen.heading("THE LYE IS IN THE WAY", "a blend that keeps the wishes is not safe to make");
    screen.sentence(lye->reason() + " " + lye->remedy());
  }
  show_reach(screen, report, *report.no);
  show_fixes(screen, report, *report.no);
  show_purchases(screen, *report.no);
  show_sureness(screen, report);
  screen.heading("NEXT");
  const bool together = report.no->ways.empty() && report.no->together;
  const bool any = !report.no->ways.empty() || !report.no->purchases.found.empty();
  screen.sentence(together ? "Change these lines of the brief, all of them, and run it again."
                  : any    ? "Change one line of the brief as above and run it again."
                           : "Loosen one of the wishes that collide and run it again.");
}

void show_prices(Screen& screen, const jobs::BlendReport& report) {
  std::vector<std::string> sentences;
  const auto& goals = report.result.formulation.goals;
  if (goals.empty() || goals.front().tie_breaker) return;
  const auto complete =
      explain::complete(report.result.formulation.problem, report.result.formulation.wishes);
  for (const auto& price : report.prices) {
    if (!price.binds || !std::isfinite(price.looser.change) || sentences.size() == 2) continue;
    const auto& wish = asked_of(report, price.wish);
    const double step = 100 * price.step / report.result.formulation.problem.steps;
    const std::string by = wish.bars ? fmt::format("letting in {:.2g} %", step)
                                     : "giving way by " + in_unit(wish, price.step * wish.per_unit);
    sentences.push_back(fmt::format(
        "{} '{}': {} would better '{}' by {}{:.2g} {}{}.",
        sentences.empty() ? "What holds it back most is" : "Then comes", wish.words, by,
        goals.front().words, price.looser.proved ? "" : "at least ", std::abs(price.looser.change),
        goals.front().unit, price.looser.proved ? "" : ", so far as was searched"));
  }
  if (sentences.empty()) return;
  screen.heading("WHAT HOLDS IT BACK");
  for (const auto& text : sentences) screen.sentence(text);
}

void show_alternatives(Screen& screen, const jobs::BlendReport& report) {
  if (!report.alternatives || report.alternatives->found.size() < 2) return;
  const auto& found = report.alternatives->found;
  const double all = report.result.formulation.problem.steps;
  screen.heading("OTHER BLENDS", "each the best at its distance from those above it");
  for (std::size_t n = 1; n < found.size(); ++n) {
    std::string differs;
    for (std::size_t i = 0; i < found[n].moved.size(); ++i) {
      if (found[n].moved[i] == 0) continue;
      differs +=
          fmt::format("{}{} {:+.4g} %", differs.empty() ? "" : ", ",
                      report.job->candidates.oils[i].oil.name, 100.0 * found[n].moved[i] / all);
    }
    screen.sentence(fmt::format("{}: {}. Against the first: {}.", alternative_name(report, n),
                                blend_words(report.job->candidates.oils, found[n].answer.steps,
                                            report.result.formulation.problem.steps),
                                differs),
                    fmt::format("{}.", n + 1));
    if (found[n].answer.status != optimise::Status::optimal) {
      screen.sentence("(Not proved the best at its distance.)");
    }
  }
  if (report.alternatives->exhausted) {
    screen.sentence("There is no further blend at that distance. That is proved.");
  }
}

std::string alternative_name(const jobs::BlendReport& report, std::size_t n) {
  const auto& found = report.alternatives->found;
  const auto& candidates = report.job->candidates.oils;
  const auto strictly_least = [&](const auto& figure) {
    for (std::size_t other = 0; other < found.size(); ++other) {
      if (other != n && figure(found[other]) <= figure(found[n]) + 1e-9) return false;
    }
    return true;
  };
  std::vector<std::string> names;
  const bool priced = std::all_of(candidates.begin(), candidates.end(),
                                  [](const formulate::Candidate& c) { return !!c.price_per_kg; });
  if (priced && strictly_least([&](const explain::Alternative& one) {
        double cost = 0;
        for (std::size_t i = 0; i < candidates.size(); ++i) {
          cost += one.answer.steps[i] * *candidates[i].price_per_kg;
        }
        return cost;
      })) {
    names.emplace_back("the cheapest");
  }
  if (strictly_least([](const explain::Alternative& one) {
        return static_cast<double>(std::count_if(one.answer.steps.begin(), one.answer.steps.end(),
                                                 [](int w) { return w > 0; }));
      })) {
    names.emplace_back("the fewest oils");
  }
  const auto carries = [&](const explain::Alternative& one, const char* tag) {
    for (std::size_t i = 0; i < candidates.size(); ++i) {
      if (one.answer.steps[i] > 0 && candidates[i].oil.has_tag(tag)) return true;
    }
    return false;
  };
  for (const char* tag : {"palm", "animal", "tree nut", "soya", "butter"}) {
    if (carries(found.front(), tag) && !carries(found[n], tag)) {
      names.push_back(std::string("without ") + tag);
    }
  }
  for (std::size_t i = 0; i < candidates.size() && names.empty(); ++i) {
    if (found.front().answer.steps[i] > 0 && found[n].answer.steps[i] == 0) {
      names.push_back("without " + candidates[i].oil.name);
    }
  }
  if (names.empty()) names.emplace_back("other shares");
  return fmt::format("{}", fmt::join(names, ", "));
}

}  // namespace barwright::app
