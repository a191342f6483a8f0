#include "solver/app/books/command_release.hpp"

#include <fmt/format.h>

#include <memory>

#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/books/json_shelf.hpp"
#include "solver/app/json.hpp"
#include "solver/app/output_file.hpp"
#include "solver/app/print/ics.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/print/workshop_words.hpp"

namespace barwright::app {
namespace {

using Mode = oils::Books::Mode;

struct ReleaseOptions : BooksOptions {
  std::string batch, ics, let_go;
  std::vector<std::string> tests;
};

/// "body=pass, no zap".
core::PartTest typed_test(const std::string& text, const core::Day& day) {
  const auto [part, outcome] = split_pair(text, "--test");
  const std::size_t end = outcome.find_first_of(",;:");
  const std::string word = outcome.substr(0, end);
  core::PartTest out{part, day, word == "pass", {}};
  if (word != "pass" && word != "fail")
    throw UsageError{
        fmt::format("--test: '{}' is no outcome: write \"{}=pass, how you tested\" or "
                    "\"{}=fail, ...\".",
                    word, part, part)};
  if (end != std::string::npos) {
    out.how = outcome.substr(end + 1);
    out.how.erase(0, out.how.find_first_not_of(' '));
  }
  return out;
}

CalendarDay ready_entry(const oils::BatchRecord& batch, const core::Release& state) {
  CalendarDay out;
  out.uid = fmt::format("{}-ready@barwright.invalid",
                        oils::mark_of(batch.id + "\n" + core::text(batch.made)));
  out.day = batch.ready;
  out.stamp = batch.made;
  out.summary = fmt::format("{} cured: {}", batch.id, bars_words(batch.bars_left()));
  out.description =
      fmt::format("Made {}. Weigh some bars before labelling.", core::text(batch.made));
  if (state.hold == core::Hold::on_hold) {
    out.description += "\nOn hold:";
    for (const auto& reason : state.reasons) out.description += " " + reason;
  }
  return out;
}

constexpr std::string_view kCalendarMark = "PRODID:-//barwright//";

/// Writes the calendar. What is on record by now stays there: a second try must not add to it.
void write_calendar(const ReleaseOptions& options, const CalendarDay& day, bool recorded) {
  try {
    write_output({options.ics, kCalendarMark}, calendar(std::vector{day}));
  } catch (core::InputError& error) {
    if (recorded)
      error.add_context(
          "What was told is on record: write the calendar with --ics alone, without --test and "
          "--let-go.");
    throw;
  }
}

std::string text(const oils::BatchRecord& batch, const core::Release& state,
                 const ReleaseOptions& options, const core::Day& day) {
  Screen screen(colour_wanted());
  screen.title(batch.id, day_words(day));
  screen.heading(state.hold == core::Hold::fit_to_sell ? "FIT TO SELL"
                 : state.hold == core::Hold::curing    ? "CURING"
                                                       : "ON HOLD");
  for (const auto& reason : state.reasons) screen.sentence(reason);
  if (batch.lye_heavy) screen.danger(*batch.lye_heavy);
  if (batch.let_go) {
    for (const auto& why : batch.held) screen.sentence("Was held: " + why);
    screen.sentence(
        fmt::format("Let go by you on {}: {}.", core::text(batch.let_go->day), batch.let_go->why));
  }
  std::vector<std::vector<std::string>> rows;
  for (const auto& test : batch.tests)
    rows.push_back({core::text(test.day), test.part, test.passed ? "pass" : "fail", test.how});
  if (!rows.empty()) {
    screen.heading("TESTS");
    screen.table("llll", rows);
  }
  screen.heading("READY");
  screen.sentence(fmt::format("Cured {}, {}.", day_words(batch.ready),
                              days_words(core::days_between(day, batch.ready))));
  if (batch.bars > 0) {
    const double bar = core::cured_bar_grams(batch.parts, batch.bars);
    screen.sentence(
        fmt::format("A cured bar weighs about {} (poured {}, less the water "
                    "that leaves); weigh some before you label.",
                    mass_words(bar), mass_words(batch.poured_grams / batch.bars)));
  }
  if (!options.ics.empty()) screen.sentence(fmt::format("Calendar written: {}.", options.ics));
  screen.heading("NEXT");
  if (!state.untested.empty()) {
    screen.sentence(
        fmt::format("Test the {} and record it: --test \"{}=pass, no zap\". A tongue or "
                    "pH test finds free lye only where you touch: test several bars, ends "
                    "and pockets too.",
                    state.untested.front(), state.untested.front()));
  } else if (state.hold == core::Hold::on_hold) {
    const bool weights_alone = state.failed.empty() && !batch.lye_heavy;
    screen.sentence(
        std::string(
            "Keep these bars apart from all others. 'barwright rescue' says what can be done.") +
        (weights_alone ? " Where you know better than the weights, say why they may go: --let-go "
                         "\"weighed again, ...\"."
                       : ""));
  } else if (state.hold == core::Hold::curing) {
    screen.sentence("Let it cure; then count the bars in: barwright shelf bars " + batch.id +
                    " --in N.");
  } else {
    screen.sentence("Count the bars in and sell: barwright shelf bars " + batch.id +
                    " --sold N --at 6.50.");
  }
  return screen.text();
}

Outcome run(const ReleaseOptions& options) {
  check_outputs({{options.ics, kCalendarMark}});
  const core::Day day = today(options);
  std::vector<core::PartTest> tests;
  for (const auto& each : options.tests) tests.push_back(typed_test(each, day));
  std::string diagnostics;
  const bool looks = tests.empty() && options.let_go.empty();
  auto books = open_books(options, looks ? Mode::look : Mode::write, diagnostics);
  if (!tests.empty()) books.test(options.batch, tests);
  if (!options.let_go.empty()) books.let_go(options.batch, day, options.let_go);
  const auto& batch = oils::need_batch(books.ledger(), options.batch, books.journal_file());
  const auto state = core::release(batch.release_request(), day);
  if (!options.ics.empty()) write_calendar(options, ready_entry(batch, state), !looks);
  if (!options.common.json) return {0, text(batch, state, options, day), diagnostics};
  auto object = json_head("release", core::word(state.hold));
  object.update(json_batch(batch, state));
  if (batch.bars > 0) object["cured_bar_grams"] = core::cured_bar_grams(batch.parts, batch.bars);
  return {0, object.dump(2) + "\n", diagnostics};
}

}  // namespace

void add_release(Command app, Action& action) {
  auto options = std::make_shared<ReleaseOptions>();
  Command command = app.add_command(
      "release", "Is a batch fit to sell? Record its tests; when it is cured; a calendar entry");
  command.value("batch", options->batch, "The batch, as 'barwright make' named it").required();
  command.values("--test", options->tests, "\"body=pass, no zap\" or \"topping=fail, pH 12\"");
  command.value("--let-go", options->let_go,
                "Why what is held for its weights may go all the same, in words");
  command.value("--ics", options->ics, "Write the day it is cured as a calendar file");
  add_books(command, *options);
  command.footer(
      "Worked example: a body and a piped topping, each tested.\n"
      "  barwright release slipway --test \"body=pass, no zap\" --test \"topping=pass, no zap\" "
      "\\\n"
      "      --ics slipway.ics\n"
      "says whether it is on hold, curing or fit to sell, and why.");
  command.on_chosen([options, &action] {
    action = [options] {
      const core::ShownIn shown(units_of(options->common, options->shelf));
      return with_words(run(*options), options->common.json, shelf_words(options->shelf));
    };
  });
}

}  // namespace barwright::app
