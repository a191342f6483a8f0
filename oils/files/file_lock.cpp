#include "oils/files/file_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <string_view>
#include <thread>
#include <utility>

#include "core/units/error.hpp"
#include "oils/files/safe_file.hpp"

namespace barwright::oils {
namespace {

std::string holder(int file) {
  std::array<char, 32> text{};
  const ssize_t got = ::pread(file, text.data(), text.size() - 1, 0);
  std::string out(text.data(), got > 0 ? static_cast<std::size_t>(got) : 0);
  out.erase(std::min(out.size(), out.find('\n')));
  if (out.empty() || out.find_first_not_of("0123456789") != std::string::npos) return {};
  return " (process " + out + ")";
}

// Links are not followed and nothing is waited for: what stands there may be anybody's doing.
int opened(const std::string& path, const std::string& beside) {
  constexpr int kHow = O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK;
  for (int tries = 0; tries < 2; ++tries) {
    int file = ::open(path.c_str(), O_RDWR | kHow);
    // Another's lock file can be held without being written to.
    if (file < 0 && errno == EACCES) file = ::open(path.c_str(), O_RDONLY | kHow);
    if (file >= 0 || errno != ENOENT) return file;
    file = ::open(path.c_str(), O_RDWR | O_CREAT | O_EXCL | kHow, 0600);
    if (file < 0 && errno == EEXIST) continue;  // another was quicker
    if (file < 0) return file;
    struct stat like {};
    mode_t mode = 0644;
    if (!beside.empty() && ::stat(beside.c_str(), &like) == 0) {
      mode = like.st_mode & 0666U;
      struct stat now {};
      if (::fstat(file, &now) == 0 && now.st_gid != like.st_gid &&
          ::fchown(file, static_cast<uid_t>(-1), like.st_gid) != 0)
        mode &= ~static_cast<mode_t>(070U);
    }
    if (::fchmod(file, mode) != 0) {  // a file system without permissions
    }
    return file;
  }
  return -1;
}

}  // namespace

FileLock::FileLock(const std::string& path, Kind kind, std::chrono::milliseconds patience,
                   const std::string& beside) {
  file_ = opened(path, beside);
  if (file_ < 0) {
    if (kind == Kind::shared) return;
    const int why = errno;
    FileError error(path, "make the lock of the books", std::strerror(why));
    if (why == ELOOP)
      error.add_context("A link stands in its place, and it is not followed: take the link out.");
    if (why == EACCES || why == EPERM)
      error.add_context(
          "Books that several people write in want a folder of their group: chgrp GROUP FOLDER, "
          "chmod g+ws FOLDER, and chmod g+rw for the files in it.");
    throw error;
  }
  const auto until = std::chrono::steady_clock::now() + patience;
  const int how = (kind == Kind::shared ? LOCK_SH : LOCK_EX) | LOCK_NB;
  while (::flock(file_, how) != 0) {
    if (errno != EWOULDBLOCK && errno != EINTR) {
      const int why = errno;
      ::close(std::exchange(file_, -1));
      if (kind == Kind::shared) return;
      throw FileError(path, "lock the books", std::strerror(why));
    }
    if (std::chrono::steady_clock::now() >= until) {
      const std::string who = holder(file_);
      ::close(std::exchange(file_, -1));
      throw core::InputError({path, 0, 0}, "another barwright is writing in these books" + who,
                             "Nothing was changed. Wait until it is done, then run the command "
                             "again.");
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  if (kind == Kind::exclusive) {
    const std::string pid = std::to_string(::getpid()) + "\n";
    if (::ftruncate(file_, 0) == 0) {
      [[maybe_unused]] const ssize_t put = ::pwrite(file_, pid.data(), pid.size(), 0);
    }
  }
}

FileLock::FileLock(FileLock&& other) noexcept : file_(std::exchange(other.file_, -1)) {}

FileLock::~FileLock() {
  if (file_ >= 0) ::close(file_);
}

}  // namespace barwright::oils
