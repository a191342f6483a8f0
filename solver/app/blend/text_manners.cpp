#include "solver/app/blend/text_manners.hpp"

#include <fmt/format.h>

#include <cmath>

namespace barwright::app {
namespace {

using State = jobs::MannerTold::State;

// Longer than this in the mould is said before anything else, h (common practice, no source: a log
// is cut after one or two days).
constexpr double kReasonableHours = 48;

std::string price_words(const jobs::BlendReport& report, const jobs::MannerTold& one) {
  const double size = std::abs(*one.price);
  const std::string figure = size >= 10 ? fmt::format("{:.0f}", size) : fmt::format("{:.2g}", size);
  const std::string goal = report.result.formulation.goals.front().words;
  return fmt::format("{}{} {} {} in '{}'", one.proved ? "" : "at least ", figure, one.unit,
                     *one.price > 0 ? "more" : "less", goal);
}

bool is_steps(const jobs::MannerTold& one) {
  return one.manner->kind == targets::Manner::Kind::steps;
}

}  // namespace

void show_cut(Screen& screen, const jobs::BlendReport& report) {
  const double hours = report.manners.hours_to_cut;
  if (hours <= kReasonableHours) return;
  screen.sentence(fmt::format(
      "CUTS SOFT: about {:.0f} h in the mould before this bar comes clean off the knife "
      "(judgement; a plain bar takes a day).",
      hours));
}

void show_given_way(Screen& screen, const jobs::BlendReport& report) {
  std::string out;
  for (const auto& one : report.manners.manners) {
    if (one.state != State::gave_way) continue;
    out += (out.empty() ? "" : "; ") + one.manner->name +
           (one.dropped ? " (not kept)" : " (now: " + one.rule + ")");
  }
  if (!out.empty())
    screen.sentence("So that your wishes could be kept, manners of the house gave way: " + out +
                    ".");
}

void show_stand_in(Screen& screen, const jobs::BlendReport& report) {
  if (report.manners.held.in_hand || report.manners.manners.empty()) return;
  std::string blend;
  for (const auto& part : report.manners.held.bar.parts)
    blend += (blend.empty() ? "" : ", ") + part.oil.name + " " + percent(part.share);
  screen.sentence(
      fmt::format("No bar is in the hand, so '{}' takes its place: {}. Name yours with "
                  "'compared-with:'.",
                  report.manners.held.bar.name, blend));
}

void show_manners(Screen& screen, const jobs::BlendReport& report) {
  const auto& all = report.manners.manners;
  if (all.empty()) return;
  screen.heading("MANNERS", "kept unasked; 'manners: none' in the brief gives the free search");
  std::vector<std::vector<std::string>> rows;
  std::string rest;
  for (const auto& one : all) {
    if (one.price) {
      rows.push_back({one.manner->name, one.rule +
                                            (is_steps(one) ? "; in 1 % steps " : "; without it ") +
                                            price_words(report, one)});
    } else if (!one.dropped) {
      rest += (rest.empty() ? "" : ", ") + one.manner->name;
    }
  }
  screen.table("ll", rows);
  if (rest.empty()) return;
  screen.sentence((rows.empty() ? "Kept, at no price: " : "At no price: ") + rest + ".");
}

void show_claim_in_the_way(Screen& screen, const jobs::BlendReport& report) {
  const std::string& name = report.manners.claim_in_the_way;
  if (name.empty()) return;
  screen.sentence(fmt::format(
      "What {} can claim was kept: {}. Without that there is a blend: name the oil you would take "
      "in, or write 'manners: without {}'.",
      report.manners.held.bar.name, targets::find_manner(name)->rule, name));
}

}  // namespace barwright::app
