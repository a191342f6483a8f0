#include "solver/app/output_file.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>
#include <set>

#include "core/units/error.hpp"
#include "oils/files/safe_file.hpp"
#include "oils/files/safe_file_posix.hpp"
#include "oils/files/text_file.hpp"
#include "solver/app/error_json.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {
namespace {

namespace fs = std::filesystem;

bool is_ours(const OutputFile& file) {
  std::error_code none;
  if (file.mark.empty() || !fs::is_regular_file(file.path, none)) return false;
  const auto text = oils::find_text_file(file.path, oils::kMostBookBytes);
  return text && text->find(file.mark) != std::string::npos;
}

void check(const OutputFile& file) {
  std::error_code none;
  // A link that leads nowhere is somebody's, too.
  if (fs::exists(fs::symlink_status(file.path, none)) && !is_ours(file))
    throw UsageError{
        fmt::format("'{}' is there already and is left alone. Choose another name.", file.path)};
  const std::string folder = oils::folder_of(file.path);
  if (!fs::is_directory(folder, none))
    throw UsageError{
        fmt::format("'{}' cannot be written: there is no folder '{}'.", file.path, folder)};
  if (fs::path(file.path).filename().empty() || ::access(folder.c_str(), W_OK) != 0)
    throw UsageError{fmt::format("'{}' cannot be written: the folder '{}' may not be written to.",
                                 file.path, folder)};
}

void fail(Outcome& outcome, int code, const std::string& text, const Json& error) {
  outcome.exit_code = code;
  outcome.diagnostics += text + "\n";
  auto object = Json::parse(outcome.text);
  if (!object || !object->is_object()) return;
  (*object)["exit_code"] = code;
  (*object)["errors"].push_back(error);
  outcome.text = object->dump(2) + "\n";
}

}  // namespace

void check_outputs(const std::vector<OutputFile>& files) {
  std::set<std::string> names;
  for (const auto& file : files) {
    if (file.path.empty()) continue;
    check(file);
    if (!names.insert(fs::path(file.path).lexically_normal().string()).second)
      throw UsageError{fmt::format("'{}' is named for two files. Give each its own.", file.path)};
  }
}

void write_output(const OutputFile& file, const std::string& text) {
  check(file);
  auto& files = oils::real_files();
  const auto was = files.read(file.path);
  // One file is one rename: the note's name is never used.
  try {
    oils::SafeWriter(files, file.path).commit({{file.path, was, text}});
  } catch (oils::FileError& error) {
    error.add_context(error.after_commit ? "It stands there, if the power holds."
                                         : fmt::format("'{}' was not written.", file.path));
    throw;
  }
}

void write_beside(Outcome& outcome, const OutputFile& file, const std::string& text) {
  try {
    write_output(file, text);
  } catch (const UsageError& error) {
    fail(outcome, kWrongUsage, error.message, error_json(error.message, ""));
  } catch (const core::InputError& error) {
    fail(outcome, kBadInput, error.what(), error_json(error));
  }
}

}  // namespace barwright::app
