#include "solver/app/print/tuned_words.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "oils/files/safe_file.hpp"
#include "oils/files/text_file.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/app/version.hpp"
#include "solver/tune/tuned_file.hpp"

namespace barwright::app {
namespace {

namespace fs = std::filesystem;

void check_notes(const tune::Tuned& tuned, const fs::path& file) {
  const std::string notes = (file.parent_path() / tuned.from.notes_file).string();
  const auto text = oils::find_text_file(notes, oils::kMostTextBytes);
  if (!text || oils::mark_of(*text) == tuned.from.notes) return;
  throw core::InputError(
      {notes, 0, 0}, "these notes were changed after they were learned from",
      "Tune again: barwright tune " + notes + ". Or answer from print alone with --untuned.");
}

}  // namespace

void add_tuned(Command command, TunedOptions& options) {
  command.value("--tuned", options.file,
                "What 'tune' learned from your notes (unless stated, tuned.yaml beside the shelf)");
  command.flag("--untuned", options.untuned, "From print alone, whatever your notes say");
}

TunedModel tuned_model_for(const TunedOptions& options, const std::string& beside,
                           const oils::Library& library) {
  TunedModel out{targets::PropertyModel::embedded(), {}, {}};
  if (options.untuned) {
    if (!options.file.empty())
      throw UsageError{"--tuned and --untuned cannot both hold: leave one of the two out."};
    return out;
  }
  fs::path yaml = options.file;
  std::error_code none;
  if (yaml.empty()) {
    if (beside.empty()) return out;
    yaml = fs::path(beside).parent_path() / "tuned.yaml";
    if (!fs::exists(yaml, none)) return out;
  }
  const fs::path draws = fs::path(yaml).replace_extension(".draws");
  for (const fs::path& file : {yaml, draws})
    if (!fs::is_regular_file(file, none))
      throw UsageError{fmt::format(
          "there is no file '{}'. 'barwright tune NOTES' writes it; --untuned does without.",
          file.string())};
  const tune::Tuned tuned = tune::read_draws(oils::read_text_file(draws.string()), draws.string());
  check_notes(tuned, draws);
  out.model = tune::tuned_model(tuned, library, version(), draws.string());
  out.mark = tune::mark(tuned);
  out.words = fmt::format(
      "Reckoned with your own notes: {} (mark {}, {} pours){}. --untuned: print alone.",
      yaml.string(), out.mark, tuned.pours.size(), tuned.settled ? "" : ", which had not settled");
  return out;
}

Outcome with_tuned(Outcome answer, const CommonOptions& options, const TunedModel& model) {
  return with_sentence(std::move(answer), options.json, model.words, "tuned",
                       Json{{"mark", model.mark}, {"words", model.words}});
}

}  // namespace barwright::app
