#include "solver/app/explore/command_explore.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

#include "oils/books/shelf_reader.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/explore/csv_explore.hpp"
#include "solver/app/explore/json_explore.hpp"
#include "solver/app/explore/page_explore.hpp"
#include "solver/app/explore/text_explore.hpp"
#include "solver/app/interrupt.hpp"
#include "solver/app/library.hpp"
#include "solver/app/output_file.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/print/tuned_words.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/app/progress.hpp"
#include "solver/app/time_limit.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/explore/explore_job.hpp"

namespace barwright::app {
namespace {

struct ExploreOptions {
  CommonOptions common;
  std::string brief;
  std::string shelf;
  TunedOptions tuned;
  std::string page;
  std::vector<std::string> curves;
  bool csv = false;
  std::string within;
  bool skip_wrong_rows = false;
  int points = 9;
};

Outcome explore(const ExploreOptions& options) {
  check_outputs({{options.page, {}}});
  optimise::SearchOptions search;
  search.stop = stop_on_interrupt();
  const auto progress = progress_line();
  search.watch = progress.get();
  optimise::Allowance allowance;
  set_limit(options.within, allowance, search);
  const oils::Library base = load_library(options.common);
  std::optional<oils::Shelf> shelf;
  if (options.shelf.empty()) {
    shelf = jobs::shelf_of_brief(options.brief, base);
  } else {
    shelf = oils::read_shelf(options.shelf, base);
  }
  const oils::Library& library = shelf ? shelf->library : base;
  if (options.csv && options.common.json) {
    throw UsageError{"--csv and --json: one of the two."};
  }
  jobs::ExploreJob job = jobs::explore_job(targets::read_explore_brief(options.brief, library),
                                           library, shelf, options.skip_wrong_rows);
  const std::string beside =
      options.shelf.empty() ? jobs::shelf_file_of_brief(options.brief) : options.shelf;
  const TunedModel tuned = tuned_model_for(options.tuned, beside, library);
  for (auto& bar : job.bars) bar.job.model = tuned.model;
  for (const auto& text : options.curves) {
    const auto trade = jobs::find_trade(text);
    if (!trade) {
      throw UsageError{fmt::format("--curve '{}': {}", text, jobs::trades_known())};
    }
    job.trades.push_back(*trade);
  }
  const jobs::Explored seen = jobs::explore(job, options.points, search);
  std::string notes;
  for (const auto& row : job.skipped) {
    notes += fmt::format("left out: {}:{}: {}\n", row.place.file, row.place.line, row.why);
  }
  for (const auto& left : job.candidates().left_out) {
    notes += fmt::format("left out: {} ({})\n", left.oil, left.why);
  }
  int code = kLimitReached;
  if (seen.plan) {
    if (seen.plan->proved()) code = seen.plan->found ? kFound : kNothingFits;
  } else {
    const bool proved = std::any_of(seen.bars.begin(), seen.bars.end(), [](const auto& bar) {
      return bar.found.answer.status == optimise::Status::infeasible;
    });
    if (proved) code = kNothingFits;
  }
  Outcome outcome{code,
                  options.common.json ? json_explore(job, seen)
                  : options.csv       ? csv_explore(job, seen)
                                      : text_explore(job, seen, colour_wanted()),
                  notes};
  if (!options.page.empty()) write_beside(outcome, {options.page, {}}, page_explore(job, seen));
  if (!options.csv) return with_tuned(std::move(outcome), options.common, tuned);
  if (!tuned.words.empty()) outcome.diagnostics += tuned.words + "\n";
  return outcome;
}

}  // namespace

void add_explore(Command app, Action& action) {
  auto options = std::make_shared<ExploreOptions>();
  Command command =
      app.add_command("explore", "Look around before buying: bars, prices and what to order");
  command.value("brief", options->brief, "The explore brief, a YAML file").required();
  command.value("--shelf", options->shelf, "Shelf file with what is there");
  command.value("--points", options->points, "Points of each curve").between(2, 51);
  command.values("--curve", options->curves,
                 "Also trace two against each other: \"cost against hardness\"; may repeat");
  command.flag("--csv", options->csv, "Print one table instead of text");
  command.value("--page", options->page, "Also write a page to this new .html file");
  command.flag("--skip-wrong-rows", options->skip_wrong_rows,
               "Leave rows of a price list out that cannot be read; each is named");
  command.value("--within", options->within,
                "Stop after this time with the best so far: 5s, 500ms, 1min (unless stated, "
                "after work of about ten seconds)");
  add_tuned(command, options->tuned);
  add_common(command, options->common);
  add_units(command, options->common);
  command.footer(
      "Worked example: two bars for the spring, priced before anything is bought.\n"
      "  barwright new my-workshop\n"
      "  barwright explore my-workshop/spring-line.yaml --page look.html\n"
      "prints which packs to buy for least cash, the last day to order, each bar's cost against\n"
      "its feel, how far each price may rise, and what oils you do not have are worth.");
  command.on_chosen([options, &action] {
    action = [options] {
      const core::ShownIn shown(units_of(options->common, options->brief));
      return with_workshop(explore(*options), options->common, options->brief);
    };
  });
}

}  // namespace barwright::app
