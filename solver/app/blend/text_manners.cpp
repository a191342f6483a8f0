#include "solver/app/blend/text_manners.hpp"

#include <fmt/format.h>

#include <cmath>

namespace barwright::app {
namespace {

using State = jobs::MannerTold::State;

// Longer than this in the mould is said before anything else, h (common practice, no source: a log
// is cut after one or two days).
constexpr double kReasonableHours = 48;

std::string price_words(const std::string& goal, const jobs::MannerTold& one) {
  const double size = std::abs(*one.price);
  const std::string figure = size >= 10 ? fmt::format("{:.0f}", size) : fmt::format("{:.2g}", size);
  return fmt::format("{}{} {} {} in '{}'", one.proved ? "" : "at least ", figure, one.unit,
                     *one.price > 0 ? "more" : "less", goal);
}

// Why a manner went altogether.
std::string dropped_words(const std::string& goal, const jobs::MannerTold& one) {
  if (one.had_to) return "not kept: it leaves no blend";
  return one.price ? "not kept; with it " + price_words(goal, one) : "not kept";
}

bool is_steps(const jobs::MannerTold& one) {
  return one.manner->kind == targets::Manner::Kind::steps;
}

}  // namespace

std::string cut_words(const jobs::MannersTold& told) {
  const double hours = told.hours_to_cut;
  if (hours <= kReasonableHours) return {};
  return fmt::format(
      "CUTS SOFT: about {:.0f} h in the mould before this bar comes clean off the knife "
      "(judgement; a plain bar takes a day).",
      hours);
}

std::string these_oils(const jobs::MannersTold& told) {
  for (const auto& one : told.manners) {
    if (one.manner->kind != targets::Manner::Kind::own || one.dropped) continue;
    return "the oils of " + told.held.bar.name + (one.let_in.empty() ? "" : " and " + one.let_in);
  }
  return "these oils";
}

void show_let_in(Screen& screen, const jobs::MannersTold& told) {
  for (const auto& one : told.manners) {
    if (one.let_in.empty()) continue;
    screen.sentence(
        fmt::format("The oils of {} alone {} your wishes. Of {} others, each tried beside them, {} "
                    "served best; that no two of them together would serve better is not proved.",
                    told.held.bar.name, one.had_to ? "cannot keep" : "were not found to keep",
                    one.tried, one.let_in));
  }
}

std::string given_way_words(const jobs::MannersTold& told) {
  std::string out;
  for (const auto& one : told.manners) {
    if (one.state != State::gave_way) continue;
    out += (out.empty() ? "" : "; ") + one.manner->name +
           (one.dropped ? " (" + dropped_words(told.goal, one) + ")" : " (now: " + one.rule + ")");
  }
  if (out.empty()) return {};
  return "So that your wishes could be kept, manners of the house gave way: " + out + ".";
}

std::string stand_in_words(const jobs::MannersTold& told) {
  if (told.held.in_hand || told.manners.empty()) return {};
  std::string blend;
  for (const auto& part : told.held.bar.parts)
    blend += (blend.empty() ? "" : ", ") + part.oil.name + " " + percent(part.share);
  return fmt::format(
      "No bar is in the hand, so '{}' takes its place: {}. Name yours with 'compared-with:'.",
      told.held.bar.name, blend);
}

std::string kept_words(const jobs::MannersTold& told) {
  std::string out;
  for (const auto& one : told.manners)
    if (!one.dropped) out += (out.empty() ? "" : "; ") + one.manner->name + ": " + one.rule;
  return out.empty() ? out : "Manners kept unasked: " + out + ".";
}

void show_words(Screen& screen, const std::string& words) {
  if (!words.empty()) screen.sentence(words);
}

void show_manners(Screen& screen, const jobs::MannersTold& told) {
  if (told.manners.empty()) return;
  screen.heading("MANNERS", "kept unasked; 'manners: none' in the brief gives the free search");
  show_manner_rows(screen, told);
}

void show_manner_rows(Screen& screen, const jobs::MannersTold& told) {
  const auto& all = told.manners;
  std::vector<std::vector<std::string>> rows;
  std::string rest, open;
  for (const auto& one : all) {
    if (one.price && !one.dropped) {
      rows.push_back({one.manner->name, one.rule +
                                            (is_steps(one) ? "; in 1 % steps " : "; without it ") +
                                            price_words(told.goal, one)});
    } else if (one.open) {
      open += (open.empty() ? "" : ", ") + one.manner->name;
    } else if (one.state != State::gave_way) {
      rest += (rest.empty() ? "" : ", ") + one.manner->name;
    }
  }
  screen.table("ll", rows);
  if (!rest.empty())
    screen.sentence((rows.empty() ? "Kept, at no price: " : "At no price: ") + rest + ".");
  if (!open.empty()) screen.sentence("Kept; at what price was not settled: " + open + ".");
}

void show_claim_in_the_way(Screen& screen, const jobs::MannersTold& told) {
  const std::string& name = told.claim_in_the_way;
  if (name.empty()) return;
  screen.sentence(fmt::format(
      "What {} can claim was kept: {}. Without that there is a blend: name the oil you would take "
      "in, or write 'manners: without {}'.",
      told.held.bar.name, targets::find_manner(name)->rule, name));
}

}  // namespace barwright::app
