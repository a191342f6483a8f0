#pragma once

#include <chrono>
#include <string>

namespace barwright::oils {

/// Keeps a second program out of the same books (flock on a file of its own beside them; the lock
/// goes when the program ends, however it ends).
class FileLock {
 public:
  enum class Kind { shared, exclusive };
  /// Waits up to `patience`. Errors: InputError that says who holds the books. A shared lock is
  /// silently none where no lock file can be made (a folder that cannot be written to).
  /// The lock file may be used by whoever may use `beside`, the file it stands for.
  FileLock(const std::string& path, Kind kind, std::chrono::milliseconds patience,
           const std::string& beside = {});
  ~FileLock();
  FileLock(FileLock&& other) noexcept;
  FileLock& operator=(FileLock&&) = delete;
  FileLock(const FileLock&) = delete;

 private:
  int file_ = -1;
};

}  // namespace barwright::oils
