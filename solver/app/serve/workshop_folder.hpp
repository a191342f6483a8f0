#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "solver/app/run_files.hpp"

namespace barwright::app {

/// A file that shall be written, and what it was when it was read.
struct Saving {
  std::optional<std::string> was;    ///< mark_of what was read; nothing: there was no such file
  std::optional<std::string> shall;  ///< its new text; nothing: it shall be no more
};

/// What became of a wish to write: either all is written, or nothing is.
struct Saved {
  std::vector<std::string> changed;  ///< files that are not what was read: nothing was written
  std::map<std::string, std::string> marks;  ///< of what stands there now
};

/// The text files of a folder a maker works in (YAML, CSV and column notes), up to three folders
/// deep. Links are not followed: what they lead to may lie outside.
class WorkshopFolder {
 public:
  /// Errors: InputError when there is no such folder.
  explicit WorkshopFolder(const std::string& path);

  /// Returns the files as they stand, entries that were cut off completed first. Errors: InputError
  /// when there are more than a workshop has (2000 files, 4 MB one, 32 MB in all).
  Files read() const;
  /// Writes all of it or nothing. Errors: InputError (a path outside, a file of another kind, books
  /// in use), FileError.
  Saved save(const std::map<std::string, Saving>& files) const;

 private:
  std::string path_of(const std::string& name) const;
  void recover() const;
  void write(const std::string& folder, const std::map<std::string, Saving>& files) const;

  std::string path_;
};

}  // namespace barwright::app
