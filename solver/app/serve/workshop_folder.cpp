#include "solver/app/serve/workshop_folder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <filesystem>
#include <memory>

#include "oils/books/stock.hpp"
#include "oils/files/file_lock.hpp"
#include "oils/files/safe_file.hpp"
#include "oils/files/safe_file_posix.hpp"

namespace barwright::app {
namespace {

namespace fs = std::filesystem;

constexpr int kDeepest = 3;
constexpr std::size_t kMostFiles = 2000;
constexpr std::uintmax_t kLargest = 4U << 20U;
constexpr std::uintmax_t kMostBytes = 32U << 20U;
constexpr auto kPatience = std::chrono::seconds(2);
constexpr std::string_view kJournal = "-journal.csv";

bool is_ours(const fs::path& path) {
  static constexpr std::array<std::string_view, 4> kinds = {".yaml", ".yml", ".csv", ".columns"};
  const std::string name = path.filename().string();
  return !name.starts_with('.') &&
         std::find(kinds.begin(), kinds.end(), path.extension().string()) != kinds.end();
}

[[noreturn]] void too_much(const std::string& folder) {
  throw core::InputError({folder, 0, 0}, "this folder holds more files than a workshop's",
                         "Name the folder in which the briefs and the shelf lie.");
}

// Calls `found` for each regular file, links left out, hidden folders too.
template <typename Found>
void walk(const fs::path& root, const Found& found) {
  std::error_code error;
  auto at =
      fs::recursive_directory_iterator(root, fs::directory_options::skip_permission_denied, error);
  std::size_t seen = 0;
  for (; !error && at != fs::recursive_directory_iterator(); at.increment(error)) {
    if (++seen > 20 * kMostFiles) too_much(root.string());
    const bool link = at->is_symlink(error);
    if (at->is_directory(error) &&
        (link || at.depth() >= kDeepest || at->path().filename().string().starts_with('.')))
      at.disable_recursion_pending();
    if (!link && at->is_regular_file(error)) found(at->path());
  }
}

}  // namespace

WorkshopFolder::WorkshopFolder(const std::string& path) {
  std::error_code error;
  const fs::path whole = fs::canonical(path, error);
  if (error || !fs::is_directory(whole, error))
    throw core::InputError({path, 0, 0}, "there is no such folder",
                           "Make one with the invented workshop in it: barwright new " + path);
  path_ = whole.string();
}

// Every folder on the way must be one, not a link to one.
std::string WorkshopFolder::path_of(const std::string& name) const {
  if (!stays_within(name) || !is_ours(name))
    throw core::InputError({name, 0, 0}, "no file of this workshop can have this name",
                           "Name a .yaml or .csv file inside the folder.");
  fs::path at = path_;
  std::error_code ignored;
  for (const auto& part : fs::path(name)) {
    at /= part;
    if (part.string().starts_with('.') || fs::is_symlink(fs::symlink_status(at, ignored)))
      throw core::InputError({name, 0, 0}, "this name is hidden, or a link",
                             "Links are not followed: what they lead to may lie outside.");
  }
  return at.string();
}

void WorkshopFolder::recover() const {
  std::vector<fs::path> notes;
  walk(path_, [&](const fs::path& file) {
    const std::string name = file.filename().string();
    if (name.starts_with('.') && name.ends_with("-unfinished")) notes.push_back(file);
  });
  for (const auto& note : notes) {
    const std::string name = note.filename().string();
    const std::string stem = name.substr(0, name.size() - std::string("-unfinished").size());
    const oils::FileLock lock((note.parent_path() / (stem + "-lock")).string(),
                              oils::FileLock::Kind::exclusive, kPatience);
    oils::SafeWriter(oils::real_files(), note.string()).recover();
  }
}

Files WorkshopFolder::read() const {
  recover();
  Files out;
  std::uintmax_t bytes = 0;
  walk(path_, [&](const fs::path& file) {
    std::error_code gone;
    const auto size = fs::file_size(file, gone);
    if (!is_ours(file) || gone || size > kLargest) return;
    bytes += size;
    if (bytes > kMostBytes || out.size() >= kMostFiles) too_much(path_);
    if (auto text = oils::real_files().read(file.string()))
      out.emplace(file.lexically_relative(path_).generic_string(), std::move(*text));
  });
  return out;
}

Saved WorkshopFolder::save(const std::map<std::string, Saving>& files) const {
  Saved out;
  std::map<std::string, std::map<std::string, Saving>> by_folder;
  for (const auto& [name, saving] : files) {
    const std::string path = path_of(name);
    const auto now = oils::real_files().read(path);
    if (oils::mark_of(now) != saving.was.value_or("none")) out.changed.push_back(name);
    by_folder[oils::folder_of(path)].emplace(path, saving);
  }
  if (!out.changed.empty()) return out;
  for (const auto& [folder, each] : by_folder) write(folder, each);
  for (const auto& [name, saving] : files)
    out.marks[name] = oils::mark_of(oils::real_files().read(path_of(name)));
  return out;
}

// Files of one folder go together. Where a shelf's books are among them, their own note and lock
// are used, so that every command completes what a power cut leaves.
void WorkshopFolder::write(const std::string& folder,
                           const std::map<std::string, Saving>& files) const {
  fs::create_directories(folder);
  std::string note = folder + "/.workbench-unfinished";
  std::vector<std::string> locks = {folder + "/.workbench-lock"};
  for (const auto& [path, saving] : files) {
    const bool journal = path.ends_with(kJournal);
    const std::string shelf =
        journal ? path.substr(0, path.size() - kJournal.size()) + ".yaml" : path;
    std::error_code ignored;
    if (!journal && !fs::exists(oils::journal_path(path), ignored)) continue;
    locks.push_back(oils::lock_path(shelf));
    note = oils::note_path(shelf);
  }
  std::sort(locks.begin(), locks.end());  // two servers take them in the same order
  locks.erase(std::unique(locks.begin(), locks.end()), locks.end());
  std::vector<oils::FileLock> held;
  for (const auto& lock : locks)
    held.emplace_back(lock, oils::FileLock::Kind::exclusive, kPatience);
  std::vector<oils::FileChange> changes;
  std::vector<std::string> leaving;
  for (const auto& [path, saving] : files) {
    auto now = oils::real_files().read(path);
    if (oils::mark_of(now) != saving.was.value_or("none"))
      throw core::InputError({path, 0, 0}, "the file was changed while it was being saved",
                             "Nothing was written to it. Look at it, then save again.");
    if (saving.shall)
      changes.push_back({path, std::move(now), *saving.shall});
    else
      leaving.push_back(path);
  }
  oils::SafeWriter(oils::real_files(), note).commit(changes);
  for (const auto& path : leaving) oils::real_files().remove(path);
}

}  // namespace barwright::app
