#include "solver/app/edit/command_edit.hpp"

#include <fmt/format.h>

#include <chrono>
#include <filesystem>
#include <memory>
#include <optional>

#include "oils/books/stock.hpp"
#include "oils/files/file_lock.hpp"
#include "oils/files/safe_file.hpp"
#include "oils/files/safe_file_posix.hpp"
#include "oils/text/yaml_edit.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {
namespace {

constexpr auto kPatience = std::chrono::seconds(2);

struct EditOptions {
  std::string file, path;
  std::string value;  // empty: none
  bool remove = false, json = false;
};

// A shelf with books is written by one program at a time.
std::optional<oils::FileLock> books_lock(const std::string& file) {
  std::error_code ignored;
  if (!std::filesystem::exists(oils::journal_path(file), ignored)) return std::nullopt;
  return oils::FileLock(oils::lock_path(file), oils::FileLock::Kind::exclusive, kPatience, file);
}

std::string words(const EditOptions& options, const oils::yaml::Edited& edited) {
  const std::string was = edited.was ? fmt::format(" (was: {})", *edited.was) : std::string();
  if (options.remove)
    return fmt::format("{}: {} is taken out{}.\n", options.file, options.path, was);
  return fmt::format("{}: {} is {}{}.\n", options.file, options.path, options.value, was);
}

Outcome edit(const EditOptions& given) {
  EditOptions options = given;
  options.file = oils::followed(given.file);
  if (options.remove == !options.value.empty())
    throw UsageError{"edit: give either the new value, or --remove."};
  const auto lock = books_lock(options.file);
  auto& files = oils::real_files();
  const auto text = files.read(options.file);
  if (!text)
    throw core::InputError({options.file, 0, 0}, "there is no such file",
                           "Check the name and the folder.");
  const auto edited =
      options.remove ? oils::yaml::without_value(*text, options.file, options.path)
                     : oils::yaml::with_value(*text, options.file, options.path, options.value);
  oils::SafeWriter(files, oils::note_path(options.file))
      .commit({{options.file, text, edited.text}});
  if (!options.json) return {kFound, words(options, edited), {}};
  Json out = {{"schema", 1}, {"status", "written"}, {"file", options.file}, {"path", options.path}};
  out["was"] = edited.was ? Json(*edited.was) : Json();
  out["value"] = options.remove ? Json() : Json(options.value);
  return {kFound, out.dump(2) + "\n", {}};
}

}  // namespace

void add_edit(Command app, Action& action) {
  auto options = std::make_shared<EditOptions>();
  Command command = app.add_command("edit", "Change one value of a file, and nothing else in it");
  command.value("file", options->file, "A brief, a recipe, a shelf: any YAML file").required();
  command
      .value("path", options->path,
             "The value's place: its keys from the outside in, want.hardness; entries of a list by "
             "number from 0, stock.0.have")
      .required();
  command.value("value", options->value, "The new value; a key that is not there is added");
  command.flag("--remove", options->remove, "Take the key out instead");
  command.flag("--json", options->json, "Print one JSON object instead of text");
  command.footer(
      "Worked example: a wish made stronger, the comments beside it kept.\n"
      "  barwright new my-workshop\n"
      "  barwright edit my-workshop/firmer-bar.yaml want.hardness 'at least 7 above'\n"
      "  barwright edit my-workshop/firmer-bar.yaml limits.coconut '{most: 25 %}'\n"
      "  barwright edit my-workshop/firmer-bar.yaml want.thrift --remove\n"
      "The file is read back before it is written. Whether its words make sense is told by the "
      "command\nthat reads it.");
  command.on_chosen([options, &action] { action = [options] { return edit(*options); }; });
}

}  // namespace barwright::app
