#include "solver/app/tune/command_tune.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "oils/files/safe_file.hpp"
#include "oils/files/safe_file_posix.hpp"
#include "oils/files/text_file.hpp"
#include "oils/text/yaml_text.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/interrupt.hpp"
#include "solver/app/library.hpp"
#include "solver/app/output_file.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/progress.hpp"
#include "solver/app/tune/text_tune.hpp"
#include "solver/app/version.hpp"
#include "solver/jobs/blend_job_reader.hpp"
#include "solver/tune/tuned_file.hpp"

namespace barwright::app {
namespace {

namespace fs = std::filesystem;

constexpr const char* kYamlMark = "# What 'barwright tune' learned";
constexpr const char* kDrawsMark = "barwright readings";

struct TuneOptions {
  CommonOptions common;
  std::string notes;
};

std::string yaml_text(const TuneReport& report, const tune::Tuned& tuned) {
  std::string out = fmt::format(
      "{} from {}. To read only: the program takes {}.\n"
      "# To undo it, delete both files.\nmark: {}\nsettled: {}\nnotes: {}\npours: {}\n",
      kYamlMark, tuned.from.notes_file, fs::path(report.draws).filename().string(), report.mark,
      report.settled ? "yes" : "no", report.sayings, report.noted_pours);
  out += fmt::format("of: {{model: {}, oils: {}, notes: {}, program: \"{}\"}}\n", tuned.from.model,
                     tuned.from.oils, tuned.from.notes, tuned.from.program);
  out += "changes:\n";
  for (const auto& change : report.told.changes)
    out += "  - " + oils::yaml::quoted(sentence_of(change)) + "\n";
  return out;
}

Outcome nothing_learned(const TuneOptions& options, const targets::MakerNotes& notes) {
  Screen screen(false);
  screen.sentence(fmt::format(
      "There is no note yet on {} {}: nothing was learned and nothing is written. Answers rest on "
      "print alone, as before.",
      notes.pours.size(), notes.pours.size() == 1 ? "pour" : "pours"));
  if (!options.common.json) return {kFound, screen.text(), {}};
  const Json object = {
      {"schema", 1}, {"command", "tune"}, {"status", "no-notes"}, {"pours", notes.pours.size()}};
  return {kFound, object.dump(2) + "\n", {}};
}

// Both files or neither.
void write_both(const TuneReport& report, const std::string& yaml, const std::string& draws) {
  auto& files = oils::real_files();
  const std::string note = (fs::path(report.yaml).parent_path() / ".tuned-unfinished").string();
  oils::SafeWriter writer(files, note);
  writer.recover();
  writer.commit({{report.draws, files.read(report.draws), draws},
                 {report.yaml, files.read(report.yaml), yaml}});
}

Outcome tune_by(const TuneOptions& options) {
  const fs::path folder = fs::path(options.notes).parent_path();
  TuneReport report;
  report.yaml = (folder / "tuned.yaml").string();
  report.draws = (folder / "tuned.draws").string();
  check_outputs({{report.yaml, kYamlMark}, {report.draws, kDrawsMark}});
  const oils::Library library = load_library(options.common);
  const auto shelf = jobs::shelf_of_brief(options.notes, library);
  const oils::Library& known = shelf ? shelf->library : library;
  const std::string text = oils::read_text_file(options.notes);
  targets::MakerNotes notes = targets::read_notes_text(text, options.notes, folder.string(), known);
  const tune::NotesModel model(std::move(notes), known, targets::PropertyModel::embedded());
  if (model.sayings().empty()) return nothing_learned(options, model.notes());

  tune::LearnOptions how;
  how.readings = targets::PropertyModel::kReadings;
  how.stop = stop_on_interrupt();
  const auto progress = progress_line();
  how.seen = [&](double share) {
    if (progress)
      progress->say(fmt::format("learning, {:.0f} % of the longest it takes", 100 * share),
                    "leaves what was learned before");
  };
  const tune::Learned learned = tune::learn(model, how);
  if (learned.stopped)
    return {
        kLimitReached, {}, "Stopped: nothing was written, and what was learned before stands.\n"};

  tune::Provenance from;
  from.notes = oils::mark_of(text);
  from.program = version();
  from.notes_file = fs::path(options.notes).filename().string();
  const tune::Tuned tuned = tune::tuned_of(model, learned, from);
  report.told =
      tune::told(model, learned, tune::tuned_model(tuned, known, version(), report.draws));
  report.sayings = model.sayings().size();
  report.pours = model.notes().pours.size();
  report.noted_pours = tuned.pours.size();
  report.bars = model.bars().size();
  report.settled = learned.settled;
  report.mark = tune::mark(tuned);
  write_both(report, yaml_text(report, tuned), tune::draws_text(tuned));
  return {
      kFound,
      options.common.json ? json_tune(report).dump(2) + "\n" : text_tune(report, colour_wanted()),
      {}};
}

}  // namespace

void add_tune(Command app, Action& action) {
  auto options = std::make_shared<TuneOptions>();
  Command command = app.add_command("tune", "Learn from your notes on bars you have poured");
  command.value("notes", options->notes, "The notes, a YAML file").required();
  add_common(command, options->common);
  command.footer(
      "Worked example: notes on two bars, side by side after six weeks.\n"
      "  pours:\n"
      "    yard, 4 January: {recipe: yard-bar.yaml, made: 2027-01-04}\n"
      "    pomace, 5 January: {recipe: {blend: {olive pomace: 75 %, coconut: 25 %}}, made: "
      "2027-01-05}\n"
      "  notes:\n"
      "    - {compare: \"pomace, 5 January\", against: \"yard, 4 January\", judged: 2027-02-20,\n"
      "       blind: yes, hardness: a little softer, lather: no difference}\n"
      "  barwright tune my-workshop/yard-notes.yaml\n"
      "prints what the notes change, what doubt is left and which notes to look at again, and\n"
      "writes tuned.yaml and tuned.draws beside them. No lye figure rests on them.");
  command.on_chosen([options, &action] { action = [options] { return tune_by(*options); }; });
}

}  // namespace barwright::app
