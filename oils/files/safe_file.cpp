#include "oils/files/safe_file.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cstdint>
#include <filesystem>

#include "core/units/seeded.hpp"

namespace barwright::oils {
namespace {

constexpr std::string_view kHead = "barwright unfinished entry 1\n";

thread_local std::size_t written = 0;

/// Takes one line, without its end, off the front.
std::optional<std::string_view> take_line(std::string_view& rest) {
  const std::size_t end = rest.find('\n');
  if (end == std::string_view::npos) return std::nullopt;
  const std::string_view line = rest.substr(0, end);
  rest.remove_prefix(end + 1);
  return line;
}

bool read_count(std::string_view text, std::size_t& into) {
  const auto read = std::from_chars(text.data(), text.data() + text.size(), into);
  return read.ec == std::errc() && read.ptr == text.data() + text.size();
}

core::InputError changed_meanwhile(const std::string& path) {
  return {{path, 0, 0},
          "the file was changed while barwright worked on it",
          "Nothing was written. Save it in your editor, then run the command again."};
}

core::InputError changed_half_way(const std::string& path, const std::string& note) {
  return {{path, 0, 0},
          "the file was changed by hand while an entry was cut off half way",
          fmt::format("Nothing was overwritten. What the entry wanted in it stands in {}: put both "
                      "together by hand, then remove that note.",
                      note)};
}

/// The note keeps bare names: a workshop's folder may be moved or copied as a whole.
std::string name_of(const std::string& path) {
  return std::filesystem::path(path).filename().string();
}

}  // namespace

FileError::FileError(const std::string& path, const std::string& doing, const std::string& why)
    : core::InputError({path, 0, 0}, fmt::format("could not {}: {}", doing, why), "") {}

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

std::string mark_of(const std::optional<std::string>& bytes) {
  if (!bytes) return "none";
  return fmt::format("{:016x}", core::hash_of(*bytes));
}

SafeWriter::SafeWriter(FileOps& files, std::string note_path)
    : files_(files), note_path_(std::move(note_path)) {}

std::string followed(const std::string& path) {
  constexpr int kMostLinks = 40;
  std::error_code none;
  std::filesystem::path at = path;
  for (int i = 0; i < kMostLinks && std::filesystem::is_symlink(at, none); ++i) {
    const auto next = std::filesystem::read_symlink(at, none);
    if (none) return path;
    at = next.is_absolute() ? next : at.parent_path() / next;
  }
  return std::filesystem::exists(at, none) ? at.string() : path;
}

std::string temporary_of(const std::string& path) {
  const std::filesystem::path file(path);
  return (file.parent_path() / ("." + file.filename().string() + ".part")).string();
}

std::size_t files_written() { return written; }

// Returns whether the file still was as its mark says (empty: whatever it was) until the moment it
// is replaced; where it was not, nothing is.
bool SafeWriter::put_in_place(const std::string& name, const std::string& bytes,
                              const std::string& was_mark, const std::vector<std::string>& like) {
  const std::string path = files_.target(name);
  const std::string temporary = temporary_of(path);
  const int file = files_.create(temporary, like);
  const auto take_back = [&] {
    try {
      files_.remove(temporary);
    } catch (const FileError&) {  // the first error is the one to tell
    }
  };
  try {
    files_.write(file, bytes);
    files_.sync(file);
  } catch (...) {
    files_.close(file);
    take_back();
    throw;
  }
  files_.close(file);
  try {
    if (!was_mark.empty() && mark_of(files_.read(name)) != was_mark) {
      take_back();
      return false;
    }
    if (was_mark == mark_of(std::nullopt))
      files_.rename_new(temporary, path);
    else
      files_.rename(temporary, path);
  } catch (const FileError&) {
    take_back();
    throw;
  }
  ++written;
  try {
    files_.sync_folder(folder_of(path));
  } catch (FileError& error) {
    error.after_commit = true;  // the new state is there, if the power holds
    throw;
  }
  return true;
}

void SafeWriter::commit(const std::vector<FileChange>& changes) {
  std::vector<Step> steps;
  std::vector<std::string> there;  // what is new is as private as what stands beside it
  std::string note(kHead);
  for (const auto& change : changes)
    if (change.was) there.push_back(change.path);
  for (const auto& change : changes) {
    const auto now = files_.read(change.path);
    if (now != change.was) {
      throw changed_meanwhile(change.path);
    }
    if (now && *now == change.shall) continue;
    steps.push_back({change.path, change.shall, mark_of(change.was)});
    note += fmt::format("{}\n{}\n{}\n{}\n", name_of(change.path), steps.back().was_mark,
                        change.shall.size(), change.shall);
  }
  if (steps.empty()) return;
  if (steps.size() == 1) {  // one rename is whole by itself
    const Step& only = steps.front();
    const bool fresh = only.was_mark == mark_of(std::nullopt);
    if (!put_in_place(only.path, only.shall, only.was_mark, fresh ? there : std::vector{only.path}))
      throw changed_meanwhile(only.path);
    return;
  }
  note += mark_of(note) + "\n";
  put_in_place(note_path_, note, {}, there);
  try {
    apply(steps);
  } catch (FileError& error) {
    error.after_commit = true;
    throw;
  }
}

void SafeWriter::apply(const std::vector<Step>& steps) {
  // All are looked at before any is touched.
  std::vector<const Step*> open;
  std::vector<std::string> there;
  for (const auto& step : steps) {
    const auto now = files_.read(step.path);
    if (now) there.push_back(step.path);
    if (now && *now == step.shall) continue;
    if (mark_of(now) != step.was_mark) throw changed_half_way(step.path, note_path_);
    open.push_back(&step);
  }
  for (const Step* step : open) {
    const bool fresh = step->was_mark == mark_of(std::nullopt);
    if (!put_in_place(step->path, step->shall, step->was_mark,
                      fresh ? there : std::vector{step->path}))
      throw changed_half_way(step->path, note_path_);
  }
  files_.remove(note_path_);
  files_.sync_folder(folder_of(note_path_));
}

std::optional<std::vector<SafeWriter::Step>> SafeWriter::note() {
  const auto text = files_.read(note_path_);
  if (!text) return std::nullopt;
  const auto broken = [&]() -> core::InputError {
    return {{note_path_, 0, 0},
            "the note of an unfinished entry was changed by hand and cannot be read",
            "Nothing was overwritten. Look into it for what was to be written, then remove it."};
  };
  std::string_view rest = *text;
  if (!rest.starts_with(kHead) || rest.size() < kHead.size() + 17) throw broken();
  const std::string_view body = rest.substr(0, rest.size() - 17);
  if (rest.substr(rest.size() - 17) != mark_of(std::string(body)) + "\n") throw broken();
  rest = body.substr(kHead.size());
  std::vector<Step> steps;
  while (!rest.empty()) {
    const auto name = take_line(rest);
    const auto mark = take_line(rest);
    const auto size = take_line(rest);
    std::size_t count = 0;
    if (!name || !mark || !size || !read_count(*size, count) || rest.size() < count + 1)
      throw broken();
    const auto folder = std::filesystem::path(note_path_).parent_path();
    steps.push_back({(folder / std::string(*name)).string(), std::string(rest.substr(0, count)),
                     std::string(*mark)});
    rest.remove_prefix(count + 1);
  }
  return steps;
}

bool SafeWriter::recover() {
  const auto steps = note();
  if (!steps) return false;
  apply(*steps);
  return true;
}

std::optional<std::string> SafeWriter::read(const std::string& path) {
  if (const auto steps = note()) {
    for (const auto& step : *steps) {
      if (name_of(step.path) == name_of(path)) return step.shall;
    }
  }
  return files_.read(path);
}

}  // namespace barwright::oils
