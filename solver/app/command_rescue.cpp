#include <CLI/CLI.hpp>
#include <memory>

#include "solver/app/command.hpp"
#include "solver/app/json_sheet.hpp"
#include "solver/app/screen.hpp"
#include "solver/app/sheet_job.hpp"
#include "solver/app/text_rescue.hpp"

namespace barwright::app {
namespace {

struct RescueOptions {
  CommonOptions common;
  std::string batch, forgot, too_much, too_little, swapped, part;
};

solver::Slip slip_of(const RescueOptions& options) {
  const int said = !options.forgot.empty() + !options.too_much.empty() +
                   !options.too_little.empty() + !options.swapped.empty();
  if (said != 1) {
    throw UsageError{
        "Say one thing that happened: --forgot \"castor\", --too-much \"NaOH 20 g\", --too-little "
        "\"olive 50 g\" or --swapped \"olive for coconut\"."};
  }
  solver::Slip slip = !options.forgot.empty()       ? solver::forgotten(options.forgot)
                      : !options.too_much.empty()   ? solver::too_much(options.too_much)
                      : !options.too_little.empty() ? solver::too_little(options.too_little)
                                                    : solver::swapped(options.swapped);
  slip.part = options.part;
  return slip;
}

}  // namespace

void add_rescue(CLI::App& app, Action& action) {
  auto options = std::make_shared<RescueOptions>();
  CLI::App* command = app.add_subcommand(
      "rescue", "Something went wrong at the bench: is it safe, what to add, or hold it");
  command->add_option("batch", options->batch, "The batch, a YAML file")->required();
  command->add_option("--forgot", options->forgot, "A line left out, e.g. \"castor\"");
  command->add_option("--too-much", options->too_much, "Too much of a line, e.g. \"NaOH 20 g\"");
  command->add_option("--too-little", options->too_little,
                      "Too little of a line, e.g. \"olive 50 g\"");
  command->add_option("--swapped", options->swapped,
                      "\"olive for coconut\": olive went in where coconut belongs; \"olive and "
                      "coconut\": each with the other's weight");
  command->add_option("--part", options->part, "The part it happened in, e.g. topping");
  add_common(*command, options->common);
  command->footer(
      "Worked example: 20 g too much sodium hydroxide in the lye pot.\n"
      "  barwright rescue my-workshop/towpath-batch.yaml --too-much \"NaOH 20 g\"\n"
      "says whether it is safe and what mends it: in the lye pot, in the batter, or set.\n"
      "The status in --json is safe, mend or hold.");
  command->callback([options, &action] {
    action = [options] {
      try {
        const solver::Slip slip = slip_of(*options);
        const auto plan = load_batch(options->batch, options->common);
        const solver::Rescue rescue = solver::rescue(plan, slip);
        return Outcome{0,
                       options->common.json ? json_rescue(plan, rescue)
                                            : text_rescue(plan, rescue, colour_wanted()),
                       {}};
      } catch (const solver::SlipError& error) {
        throw UsageError{error.message};
      }
    };
  });
}

}  // namespace barwright::app
