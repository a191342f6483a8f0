#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/units/error.hpp"

namespace barwright::oils {

/// A file operation that failed, with what was being done. The state on disk is the old one unless
/// `after_commit`: then the entry is on record and is completed the next time the books are opened.
class FileError : public core::InputError {
 public:
  FileError(const std::string& path, const std::string& doing, const std::string& why);
  bool after_commit = false;
};

/// What safe writing asks of a file system. The seam where tests cut the power.
class FileOps {
 public:
  virtual ~FileOps() = default;
  /// Returns the bytes of a file, nothing when there is none. Errors: FileError.
  virtual std::optional<std::string> read(const std::string& path) = 0;
  /// Returns the file a name leads to, through links; the name itself where it is none.
  virtual std::string target(const std::string& path) { return path; }
  /// Makes a file anew and returns a handle to write to; what stood under this name goes, no link
  /// is followed. It takes over owner and group of the first of `like`, and lets nobody read or
  /// write it whom one of them keeps out. Errors: FileError.
  virtual int create(const std::string& path, const std::vector<std::string>& like) = 0;
  /// Writes all bytes. Errors: FileError (disc full, ...).
  virtual void write(int file, std::string_view bytes) = 0;
  /// Returns once the bytes are on the disc. Errors: FileError.
  virtual void sync(int file) = 0;
  virtual void close(int file) noexcept = 0;
  virtual void rename(const std::string& from, const std::string& to) = 0;
  /// The same where nothing may stand yet. Errors: FileError, also when something does.
  virtual void rename_new(const std::string& from, const std::string& to) { rename(from, to); }
  virtual void remove(const std::string& path) = 0;
  /// Returns once names in this folder are on the disc. Errors: FileError.
  virtual void sync_folder(const std::string& folder) = 0;
};

/// Returns the file that a path names: what a link leads to, link by link; the path itself where it
/// is none or leads nowhere.
std::string followed(const std::string& path);
/// Returns where a file is written before it is put in place.
std::string temporary_of(const std::string& path);
/// Returns how many files this thread has put in place so far.
std::size_t files_written();

/// A file as it was read and as it shall be.
struct FileChange {
  std::string path;
  std::optional<std::string> was;  ///< nothing: there was no such file
  std::string shall;
};

/// Files that change together or not at all, by a redo note: the new contents are first written to
/// `note_path` (written beside, synced, renamed: this is the moment the entry counts), then into
/// place one by one, then the note is removed. Every step is a whole-file rename.
class SafeWriter {
 public:
  SafeWriter(FileOps& files, std::string note_path);

  /// Makes all changes. Errors: FileError; InputError when a file is no longer as it was read, in
  /// which case nothing is written.
  void commit(const std::vector<FileChange>& changes);
  /// Completes an entry that was cut off. Returns whether there was one. Errors: FileError;
  /// InputError when the note or a file it names was changed by hand: nothing is overwritten.
  bool recover();
  /// Returns the file as it is, or as a cut-off entry will have it.
  std::optional<std::string> read(const std::string& path);

 private:
  struct Step {
    std::string path, shall, was_mark;
  };
  bool put_in_place(const std::string& path, const std::string& bytes, const std::string& was_mark,
                    const std::vector<std::string>& like);
  std::optional<std::vector<Step>> note();
  void apply(const std::vector<Step>& steps);

  FileOps& files_;
  std::string note_path_;
};

/// Returns the folder of a path, "." for a bare name.
std::string folder_of(const std::string& path);
/// Returns a mark of these bytes (64-bit FNV-1a, 16 hex digits), "none" for no file. Tells whether
/// a file was changed; no guard against ill will.
std::string mark_of(const std::optional<std::string>& bytes);

}  // namespace barwright::oils
