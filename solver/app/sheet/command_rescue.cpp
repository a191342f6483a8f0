#include "solver/app/sheet/command_rescue.hpp"

#include <memory>

#include "solver/app/common_options.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/app/sheet/json_sheet.hpp"
#include "solver/app/sheet/sheet_job.hpp"
#include "solver/app/sheet/text_rescue.hpp"

namespace barwright::app {
namespace {

struct RescueOptions {
  CommonOptions common;
  std::string batch, part;
  std::vector<std::string> forgot, too_much, too_little, swapped, strength;
};

std::vector<batch::Slip> slips_of(const RescueOptions& options) {
  std::vector<batch::Slip> slips;
  const auto add = [&](const std::vector<std::string>& said,
                       batch::Slip (*read)(const std::string&)) {
    for (const auto& words : said) {
      slips.push_back(read(words));
      slips.back().part = options.part;
    }
  };
  add(options.strength, batch::other_strength);
  add(options.swapped, batch::swapped);
  add(options.forgot, batch::forgotten);
  add(options.too_much, batch::too_much);
  add(options.too_little, batch::too_little);
  if (slips.empty()) {
    throw UsageError{
        "Say one thing that happened, or several: --forgot \"castor\", --too-much \"NaOH 20 g\", "
        "--too-little \"olive 50 g\", --swapped \"olive for coconut\" or --strength \"NaOH 97 "
        "%\"."};
  }
  return slips;
}

}  // namespace

void add_rescue(Command app, Action& action) {
  auto options = std::make_shared<RescueOptions>();
  Command command = app.add_command(
      "rescue", "Something went wrong at the bench: is it safe, what to add, or hold it");
  command.value("batch", options->batch, "The batch, a YAML file").required();
  command.one_each("--forgot", options->forgot, "A line left out, e.g. \"castor\"");
  command.one_each("--too-much", options->too_much, "Too much of a line, e.g. \"NaOH 20 g\"");
  command.one_each(
      "--too-little", options->too_little,
      "Too little of a line, e.g. \"olive 50 g\"; 'lye' is the solution, 'NaOH' is dry");
  command.one_each(
      "--swapped", options->swapped,
      "\"olive for coconut\": olive went in where coconut belongs; \"olive and coconut\": "
      "each with the other's weight. A fat with a fat, like with like");
  command.one_each("--strength", options->strength,
                   "The alkali's jar is this strong, not what the batch says, e.g. \"NaOH 97 %\"");
  command.value("--part", options->part, "The part it happened in, e.g. topping");
  add_common(command, options->common);
  add_units(command, options->common);
  command.footer(
      "Worked example: 20 g too much sodium hydroxide in the lye pot.\n"
      "  barwright rescue my-workshop/towpath-batch.yaml --too-much \"NaOH 20 g\"\n"
      "says whether it is safe and what mends it: in the lye pot, in the batter, or set.\n"
      "Two slips at once are judged together: give both options, or one of them twice.\n"
      "The status in --json is safe, mend or hold.");
  command.on_chosen([options, &action] {
    action = [options] {
      try {
        const core::ShownIn shown(units_of(options->common, options->batch));
        const auto slips = slips_of(*options);
        const auto plan = load_batch(options->batch, options->common);
        const batch::Rescue rescue = batch::rescue(plan, slips);
        return with_workshop({0,
                              options->common.json ? json_rescue(plan, rescue)
                                                   : text_rescue(plan, rescue, colour_wanted()),
                              {}},
                             options->common, options->batch);
      } catch (const batch::SlipError& error) {
        throw UsageError{error.message};
      }
    };
  });
}

}  // namespace barwright::app
