#include "solver/batch/batch_clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>

#include "core/lye/lye_cautions.hpp"
#include "core/lye/lye_order.hpp"
#include "core/units/weight_text.hpp"

namespace barwright::batch {
namespace {

using Method = targets::Part::Method;

constexpr double kGear = 10, kLye = 15, kWeigh = 15, kMelt = 25, kColours = 15;  // min, judgement
constexpr double kWhip = 15;
constexpr double kLongWait = 4 * 60;

/// What cools, and how: on the bench if that is quick enough, else in the bath.
struct Wait {
  double minutes = 0;
  bool bath = false;
};

Wait wait_for(const std::optional<double>& air, const std::optional<double>& bath) {
  if (air && *air * 60 <= 120) return {*air * 60, false};
  if (bath) return {*bath * 60, true};
  return {air ? *air * 60 : kLongWait, false};
}

std::string place(const Wait& wait, double celsius) {
  return fmt::format("{} about {:.0f} min until {:.0f} C",
                     wait.bath ? "cold bath, " : "on the bench, ", std::ceil(wait.minutes / 5) * 5,
                     celsius);
}

/// What the pot holds as the lye is made; what joins it cooled has a step of its own.
std::vector<core::LyeStep> made_with(const PartPlan& part) {
  auto order = core::lye_order(part.recipe);
  std::erase_if(order, [](const auto& step) { return step.kind == core::LyeStep::Kind::cooled; });
  return order;
}

/// "its lye, once it is clear and below 45 C: sodium lactate syrup"; empty where nothing joins.
std::string joins_cooled(const PartPlan& part) {
  const auto order = core::lye_order(part.recipe);
  std::string names;
  bool scorches = false;
  for (const auto& step : order) {
    if (step.kind != core::LyeStep::Kind::cooled) continue;
    names += (names.empty() ? "" : ", ") + step.name;
    scorches = scorches || step.scorches;
  }
  if (names.empty()) return names;
  return fmt::format("its lye, once {} and below {:.0f} C{}: {}", core::lye_ready_words(order),
                     scorches ? core::kMilkLyeCelsius : core::kCooledLyeCelsius,
                     scorches ? ", cold, in a thin stream, the pot in cold water" : "", names);
}

/// "Let the lye cool, on the bench, about 20 min until 32 C".
std::string cooling(const char* what, const Wait& wait, double celsius) {
  return wait.minutes < 1
             ? fmt::format("The {} is ready as it is, about {:.0f} C: no waiting", what, celsius)
             : fmt::format("Let the {} cool, {}", what, place(wait, celsius));
}

std::string lye_cooling(const PotTimes& pot, const Wait& wait, double celsius) {
  if (!pot.in_ice || wait.minutes < 1) return cooling("lye", wait, celsius);
  return fmt::format(
      "Stir on in the ice water, about {:.0f} min until {:.0f} C or cooler, no grain "
      "felt; then take the pot out",
      std::ceil(wait.minutes / 5) * 5, celsius);
}

double rounded_up(double minutes) { return std::ceil(minutes / 5 - 1e-9) * 5; }

std::string lye_words(const PartPlan& part) {
  return "Make the lye: " + core::lye_order_words(made_with(part)) + "; stir";
}

std::string lye_sign(const PartPlan& part, double celsius) {
  const auto order = made_with(part);
  return (core::made_in_ice(order) ? std::string("it stays cool in its ice water")
                                   : "it " + core::heat_words(celsius)) +
         "; made when: " + core::lye_made_sign(order);
}

/// Writes the steps, in minutes from the moment body oils and lye meet; shifted to begin at 0 in
/// the end.
class Clock {
 public:
  Clock(const BatchPlan& plan, const BatchTimes& times)
      : plan_(plan), times_(times), top_(rounded_up(60 * times.topping_hours)) {
    for (std::size_t i = 0; i < plan.parts.size(); ++i) {
      if (&plan.parts[i] == &plan.body()) body_ = i;
    }
  }

  std::vector<ClockStep> steps() && {
    const Wait lye = wait_for(main_times().lye_air_hours, main_times().lye_bath_hours);
    plan_.shared ? shared_lye(lye) : own_lye(lye);
    cooled(-3, main());
    acids(-2, main());
    body_oils();
    body_pour();
    for (std::size_t i = 0; i < plan_.parts.size(); ++i) {
      if (i != body_) topping(i);
    }
    from_the_gear_to_the_cut();
    std::stable_sort(steps_.begin(), steps_.end(),
                     [](const ClockStep& a, const ClockStep& b) { return a.minutes < b.minutes; });
    return std::move(steps_);
  }

 private:
  const PartPlan& main() const { return plan_.parts[body_]; }
  const PartTimes& main_times() const { return times_.parts[body_]; }

  void add(double at, const std::string& part, std::string what, std::string sign = {}) {
    steps_.push_back({at, part, std::move(what), std::move(sign), false});
  }

  void make_lye(double at, const std::string& part, std::string what, std::string sign) {
    add(at, part, std::move(what), std::move(sign));
    steps_.back().lye = true;
  }

  void cooled(double at, const PartPlan& part) {
    const std::string names = joins_cooled(part);
    if (names.empty()) return;
    add(at, part.part->name, "Stir into " + names);
  }

  void acids(double at, const PartPlan& part) {
    for (const auto& line : part.recipe.acids) {
      if (line.into != core::Into::oils) continue;
      add(at, part.part->name, "Stir into its oils, before its lye: " + line.name);
    }
  }

  // Made so early that the part which waits longest for it finds it cool.
  void shared_lye(const Wait& body) {
    double made = -rounded_up(body.minutes);
    for (std::size_t i = 0; i < plan_.parts.size(); ++i) {
      if (i == body_) continue;
      const Wait wait = wait_for(times_.parts[i].lye_air_hours, times_.parts[i].lye_bath_hours);
      made = std::min(made, top_ - kWhip - rounded_up(wait.minutes));
    }
    make_lye(
        made - kLye, "all parts",
        "Make the lye: water, then the alkali into it a little at a time, never the reverse; stir",
        "it " + core::heat_words(times_.pots[0].fresh_celsius) + "; made when: clear, no grains");
    add(made, "all parts", cooling("lye", body, main_times().lye_celsius));
    add(-5, "all parts",
        fmt::format("Put the lye pot on the scale and top up with water to {} of solution "
                    "(steam has left); stir; weigh out each part's lye",
                    core::weight_text(plan_.shared->making_weight, plan_.scales.lye.step,
                                      core::shown_units(), core::Rounding::nearest)),
        "scale shows the making weight");
  }

  void own_lye(const Wait& wait) {
    const double made = -rounded_up(wait.minutes);
    const std::string& name = main().part->name;
    make_lye(made - kLye, name, lye_words(main()),
             lye_sign(main(), times_.pots[body_].fresh_celsius));
    add(made, name, lye_cooling(times_.pots[body_], wait, main_times().lye_celsius));
  }

  void body_oils() {
    const std::string& name = main().part->name;
    const Wait wait = wait_for(main_times().oils_air_hours, main_times().oils_bath_hours);
    const double melted = -rounded_up(wait.minutes);
    add(melted - kMelt - kWeigh, name, "Weigh the oils, tick each line");
    add(melted - kMelt, name,
        fmt::format("Melt the oils until all is clear ({:.0f} C is enough)",
                    main_times().melt_celsius),
        "no cloud, no crumb");
    add(melted, name, "Let the oils cool, " + place(wait, main_times().oils_celsius));
  }

  void body_pour() {
    const std::string& name = main().part->name;
    const bool plain = main().colours.empty();
    if (!plain) {
      add(-kColours - 10, name, "Wet the colours, weigh scents and additions, set out jugs");
    }
    add(0, name,
        fmt::format("Oils at {:.0f} C, lye at {:.0f} C: pour the lye into the oils, stir in bursts",
                    main_times().oils_celsius, main_times().lye_celsius),
        "light trace: a drip stays a moment on top");
    add(10, name,
        plain ? "Stir in additions and scent; pour into the moulds"
              : "Pour off the colour portions, stir in colour and scent, pour",
        fmt::format("you have about {:.0f} min ({:.0f} to {:.0f})", main_times().working_minutes,
                    main_times().working_least, main_times().working_most));
  }

  void topping(std::size_t i) {
    const auto& part = plan_.parts[i];
    const std::string& name = part.part->name;
    topping_fats(i);
    topping_lye(i);
    const double mix = top_ - kWhip;
    cooled(std::max(mix - 3, plan_.shared ? -3.0 : mix - 3), part);
    acids(mix - 2, part);
    topping_mix(i);
    add(top_, name, "Fill the bag, pipe the topping, then top with what is weighed for it",
        part.part->when.empty() ? "body holds a fingertip mark and is below 35 C"
                                : part.part->when);
  }

  void topping_fats(std::size_t i) {
    const auto& one = times_.parts[i];
    const std::string& name = plan_.parts[i].part->name;
    const bool creamed = plan_.parts[i].part->method == Method::creamed_fats;
    const Wait wait = wait_for(one.oils_air_hours, one.oils_bath_hours);
    const double melted = top_ - kWhip - rounded_up(wait.minutes);
    add(melted - kMelt - kWeigh, name, "Weigh the fats, tick each line");
    add(melted - kMelt, name,
        fmt::format("Melt the fats until all is clear ({:.0f} C is enough)", one.melt_celsius));
    add(melted, name,
        "Let the fats cool, " + place(wait, one.oils_celsius) +
            (creamed ? "; stir now and then, they set half solid on purpose" : ""),
        creamed ? "soft like butter at room warmth" : "clear, no crumb");
  }

  void topping_lye(std::size_t i) {
    const auto& one = times_.parts[i];
    const std::string& name = plan_.parts[i].part->name;
    const Wait wait = wait_for(one.lye_air_hours, one.lye_bath_hours);
    const double made = top_ - kWhip - rounded_up(wait.minutes);
    if (!plan_.shared) {
      make_lye(made - kLye, name, lye_words(plan_.parts[i]),
               lye_sign(plan_.parts[i], times_.pots[i].fresh_celsius));
      add(made, name, lye_cooling(times_.pots[i], wait, one.lye_celsius));
    } else if (one.lye_celsius < main_times().lye_celsius) {
      add(std::max(-5.0, made), name,
          fmt::format("Set its portion of the lye into the cold bath until {:.0f} C",
                      one.lye_celsius),
          "still clear: crystals mean too cold");
    }
  }

  void topping_mix(std::size_t i) {
    const auto& one = times_.parts[i];
    const std::string& name = plan_.parts[i].part->name;
    const double mix = top_ - kWhip;
    if (plan_.parts[i].part->method == Method::creamed_fats) {
      add(mix, name,
          fmt::format("Cream the fats at {:.0f} C until pale and light, then whip the lye of "
                      "{:.0f} C in as a thin thread",
                      one.oils_celsius, one.lye_celsius),
          "stands in peaks, holds the ridges of the nozzle");
    } else {
      add(mix, name,
          fmt::format("Oils at {:.0f} C, lye at {:.0f} C: stir to thick trace", one.oils_celsius,
                      one.lye_celsius),
          "holds a peak");
    }
  }

  void from_the_gear_to_the_cut() {
    double first = 0;
    for (const auto& step : steps_) first = std::min(first, step.minutes);
    for (auto& step : steps_) step.minutes += kGear - first;
    add(0, {},
        "Goggles, gloves, sleeves, closed shoes; fan on or window open; clear the bench; scale "
        "checked");
    double poured = kGear - first + 20;
    if (plan_.parts.size() > 1) poured = std::max(poured, kGear - first + top_ + 20);
    add(poured, {},
        plan_.file.after.cover.value_or(false) ? "Cover the moulds"
                                               : "Leave the moulds bare, a hand's breadth apart");
    // A salt bar does not wait for a plan made for other soap.
    const double cut =
        main_times().salt_bar
            ? main_times().cut_hours
            : std::max(main_times().cut_hours, plan_.file.after.look_from_hours.value_or(0));
    add(poured + cut * 60, {}, "Look if it is firm: unmould with gloves on and cut",
        main_times().salt_bar
            ? fmt::format("still warm, firm as cheese; after {:.0f} h it crumbles",
                          kSaltBarCrumbles)
            : "it leaves the mould clean and does not stick to the blade");
  }

  const BatchPlan& plan_;
  const BatchTimes& times_;
  const double top_;  ///< the topping is piped
  std::size_t body_ = 0;
  std::vector<ClockStep> steps_;
};

}  // namespace

std::vector<ClockStep> clock_of(const BatchPlan& plan, const BatchTimes& times) {
  return Clock(plan, times).steps();
}

std::string clock_text(const BatchPlan& plan, double minutes) {
  const int at = static_cast<int>(std::lround(minutes));
  if (!plan.file.start_hours) return fmt::format("{}:{:02} h", at / 60, at % 60);
  const int clock = at + static_cast<int>(std::lround(*plan.file.start_hours * 60));
  const int days = clock / (24 * 60), rest = clock % (24 * 60);
  return fmt::format("{}{}:{:02}", days > 0 ? fmt::format("+{} d ", days) : "", rest / 60,
                     rest % 60);
}

std::string day_after(const BatchPlan& plan, int days) {
  if (!plan.file.bench_date) return {};
  namespace chrono = std::chrono;
  const auto& date = *plan.file.bench_date;
  const chrono::sys_days start = chrono::year{date.year} / date.month / date.day;
  const chrono::year_month_day end = start + chrono::days{days};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(end.year()),
                     static_cast<unsigned>(end.month()), static_cast<unsigned>(end.day()));
}

}  // namespace barwright::batch
