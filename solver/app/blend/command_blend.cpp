#include "solver/app/blend/command_blend.hpp"

#include <fmt/format.h>

#include <chrono>
#include <memory>
#include <optional>

#include "oils/books/shelf_reader.hpp"
#include "solver/app/blend/brief_hash.hpp"
#include "solver/app/blend/json_blend.hpp"
#include "solver/app/blend/quick_brief.hpp"
#include "solver/app/blend/recipe_yaml.hpp"
#include "solver/app/blend/text_blend.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/interrupt.hpp"
#include "solver/app/library.hpp"
#include "solver/app/output_file.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/print/tuned_words.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/app/progress.hpp"
#include "solver/app/time_limit.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/jobs/lp_question.hpp"

namespace barwright::app {
namespace {

// The rows that manners add are counted as work in full, though most of them are idle: a brief with
// them gets as many seconds by so much more of it.
constexpr std::uint64_t kMannersWork = 4 * kUsualWork;

struct BlendOptions {
  CommonOptions common;
  std::string brief;
  QuickWish quick;
  std::string save_brief;
  std::string within;
  std::string save;
  std::string lp;
  int try_lots = 0;
  std::optional<int> seed;
  std::string lots;
  std::string oil;
  int answers = 1;
  std::string apart;
  bool draft = false, reach = false;
  TunedOptions tuned;
};

double share(const std::string& option, const std::string& text) {
  try {
    const double value = core::to_fraction(core::parse_quantity(text));
    if (value > 0 && value <= 1) return value;
  } catch (const core::UnitError&) {  // falls through
  }
  throw UsageError{fmt::format("{} {}: write a share such as 10 %", option, text)};
}

int exit_code(const optimise::Answer& answer) {
  switch (answer.status) {
    case optimise::Status::optimal:
      return kFound;
    case optimise::Status::infeasible:
      return kNothingFits;
    case optimise::Status::feasible:
    case optimise::Status::undecided:
      break;
  }
  return kLimitReached;
}

std::string diagnostics(const jobs::BlendJob& job) {
  std::string out;
  for (const auto& left : job.candidates.left_out) {
    out += fmt::format("left out: {} ({})\n", left.oil, left.why);
  }
  return out;
}

oils::MeasuredLots measured_lots(const BlendOptions& options, const jobs::BlendJob& job,
                                 const oils::Library& library) {
  if (options.oil.empty()) {
    throw UsageError{"--lots needs --oil: which oil these lots are of, e.g. --oil olive"};
  }
  for (const auto& candidate : job.candidates.oils) {
    if (candidate.oil.name == options.oil) return oils::read_lots(options.lots, candidate.oil);
  }
  const oils::Oil* oil = library.find(options.oil);
  if (oil == nullptr) {
    throw UsageError{fmt::format("--oil {}: no oil we know. ", options.oil) +
                     library.remedy_for(options.oil)};
  }
  return oils::read_lots(options.lots, *oil);
}

// A question of a brief file, or of the command line alone.
struct Question {
  jobs::BlendJob job;
  std::string brief;  ///< as YAML, where no file stands behind it
  TunedModel tuned;
};

Question question_of(const BlendOptions& options, const oils::Library& library) {
  if (options.quick.from.empty()) {
    if (options.brief.empty())
      throw UsageError{"blend: name a brief, or say which bar with --from and what with --want."};
    if (!options.quick.want.empty() || !options.quick.using_oils.empty() ||
        !options.save_brief.empty())
      throw UsageError{"--want, --using and --save-brief go with --from; a brief says it itself."};
    const auto shelf = jobs::shelf_of_brief(options.brief, library);
    const oils::Library& known = shelf ? shelf->library : library;
    Question out{jobs::read_blend_job(options.brief, library),
                 {},
                 tuned_model_for(options.tuned, jobs::shelf_file_of_brief(options.brief), known)};
    out.job.model = out.tuned.model;
    return out;
  }
  if (!options.brief.empty())
    throw UsageError{"--from stands in the place of a brief: leave one of the two out."};
  std::optional<oils::Shelf> shelf;
  if (const std::string path = shelf_of(options.quick); !path.empty())
    shelf = oils::read_shelf(path, library);
  const oils::Library& known = shelf ? shelf->library : library;
  std::string text = quick_brief(options.quick, known);
  Question out{
      jobs::blend_job_of(targets::read_brief_text(text, "--want", "", known), known, shelf), text,
      tuned_model_for(options.tuned, shelf_of(options.quick), known)};
  out.job.model = out.tuned.model;
  return out;
}

// How to keep a question that no file holds.
std::string keep_words(const std::string& brief) {
  if (brief.empty()) return {};
  Screen screen(false);
  screen.sentence("To keep what you asked as a brief: add --save-brief my-brief.yaml.");
  return screen.text();
}

jobs::Depth depth_of(const BlendOptions& options) {
  if (!options.draft && !options.reach) return jobs::Depth::full;
  if (options.draft && options.reach)
    throw UsageError{"--draft and --reach: ask one after the other."};
  if (!options.common.json || !options.save.empty() || !options.lp.empty() ||
      options.try_lots > 0 || !options.lots.empty() || options.answers > 1)
    throw UsageError{fmt::format("{}: goes with --json alone; nothing is weighed out by it.",
                                 options.draft ? "--draft" : "--reach")};
  return options.draft ? jobs::Depth::draft : jobs::Depth::reach;
}

// An option that would change nothing was meant to change something.
void check_effect(const BlendOptions& options) {
  if (!options.oil.empty() && options.lots.empty())
    throw UsageError{"--oil says which oil the lots of --lots are of: name that file too."};
  if (options.seed && options.try_lots == 0)
    throw UsageError{"--seed says which lots --try-lots draws: say how many, too."};
  if (!options.apart.empty() && options.answers < 2)
    throw UsageError{"--apart says how far --answers lie apart: ask for two answers or more."};
}

Outcome blend(const BlendOptions& options) {
  check_effect(options);
  const jobs::Depth depth = depth_of(options);
  check_outputs({{options.save_brief, {}}, {options.lp, {}}, {options.save, {}}});
  jobs::ReportOptions how;
  how.answers = options.answers;
  how.apart = share("--apart", options.apart.empty() ? "10 %" : options.apart);
  how.search.stop = stop_on_interrupt();
  const auto progress = progress_line();
  how.search.watch = progress.get();
  optimise::Allowance allowance;
  set_limit(options.within, allowance, how.search);
  how.depth = depth;
  if (options.within.empty()) allowance.most = kMannersWork;
  const oils::Library library = load_library(options.common);
  const Question question = question_of(options, library);
  const jobs::BlendJob& job = question.job;
  how.try_lots = options.try_lots;
  how.seed = static_cast<std::uint64_t>(options.seed.value_or(1));
  if (!options.lots.empty()) how.measured = measured_lots(options, job, library);
  how.measured_file = options.lots;
  jobs::BlendReport report = jobs::report_blend(job, library, how);
  if (options.common.json)
    report.brief_hash = brief_hash(job.brief, question.brief, options.common.library_folder);
  Outcome outcome{exit_code(report.result.answer),
                  options.common.json
                      ? json_blend(report).dump(2) + "\n"
                      : text_blend(report, colour_wanted()) + keep_words(question.brief),
                  diagnostics(job)};
  if (!options.save_brief.empty()) write_beside(outcome, {options.save_brief, {}}, question.brief);
  if (!options.lp.empty()) {
    const optimise::LpText lp = jobs::lp_of(*report.job, report.result);
    for (const auto& what : lp.left_out) {
      outcome.diagnostics += fmt::format("--lp: not linear, so not in {}: {}\n", options.lp, what);
    }
    write_beside(outcome, {options.lp, {}}, lp.text);
  }
  if (!options.save.empty() && report.result.has_blend()) {
    write_beside(outcome, {options.save, {}},
                 recipe_yaml(*report.job, report.result, options.save, report.manners.manners));
  }
  return with_tuned(std::move(outcome), options.common, question.tuned);
}

}  // namespace

void add_blend(Command app, Action& action) {
  auto options = std::make_shared<BlendOptions>();
  Command command = app.add_command("blend", "Find the blend a brief asks for, and weigh it out");
  command.value("brief", options->brief, "The brief, a YAML file");
  command.value("--from", options->quick.from,
                "Without a brief: the bar in the hand, e.g. olive:40,coconut:30,palm:30");
  command.value("--want", options->quick.want,
                "With --from: what it should be, e.g. 'harder, lather no less'");
  command.values("--using", options->quick.using_oils,
                 "With --from: which oils, a shelf file, library or an oil's name; may repeat "
                 "(unless stated those of that bar, then more of the library)");
  command.value("--save-brief", options->save_brief,
                "With --from: also write it as a brief to this new file");
  command.value("--within", options->within,
                "Stop searching after this time, e.g. 2s, and print the best so far (unless "
                "stated, after work of about ten seconds)");
  command.value("--answers", options->answers, "How many different blends to print").between(1, 20);
  command.value("--apart", options->apart,
                "Least share moved between any two of them (10 % unless stated)");
  command.value("--save", options->save, "Also write the recipe to this new file");
  command
      .value("--try-lots", options->try_lots,
             "Make the recipe from so many drawn lots and count how often each wish holds")
      .between(1, 10000000);
  command.value("--seed", options->seed, "Which lots are drawn (1 unless stated)").not_negative();
  command.value("--lots", options->lots,
                "A CSV file of fatty-acid analyses, tried as the lots of --oil");
  command.value("--oil", options->oil, "Which oil the lots in --lots are of");
  command.value("--lp", options->lp,
                "Also write the question in LP format to this new file, for other solvers");
  command.flag("--draft", options->draft,
               "With --json: the blend and what it is like, quickly; nothing weighed out");
  command.flag("--reach", options->reach,
               "With --json: that, and how far each figure goes with all other wishes kept");
  add_tuned(command, options->tuned);
  add_common(command, options->common);
  add_units(command, options->common);
  command.footer(
      "Worked example: a firmer bar than the one on sale, from what is on the shelf.\n"
      "  barwright new my-workshop\n"
      "  barwright blend my-workshop/firmer-bar.yaml\n"
      "or, without any file:\n"
      "  barwright blend --from olive:40,coconut:30,palm:25,castor:5 --want 'harder, lather no "
      "less'\n"
      "prints the blend in percent and grams, the lye and water, how the bar differs from yours,\n"
      "what it costs, and what to do next. When nothing fits it says which wishes collide.");
  command.on_chosen([options, &action] {
    action = [options] {
      const core::ShownIn shown(units_of(options->common, options->brief));
      return with_workshop(blend(*options), options->common, options->brief);
    };
  });
}

}  // namespace barwright::app
