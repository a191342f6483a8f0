#include "oils/files/file_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
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

}  // namespace

FileLock::FileLock(const std::string& path, Kind kind, std::chrono::milliseconds patience) {
  file_ = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
  if (file_ < 0) {
    if (kind == Kind::shared) return;
    throw FileError(path, "make the lock of the books", std::strerror(errno));
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
