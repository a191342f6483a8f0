#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <map>

#include "oils/files/safe_file.hpp"

namespace barwright::oils {
namespace {

[[noreturn]] void fail(const std::string& path, const char* doing) {
  throw FileError(path, doing, std::strerror(errno));
}

class PosixFiles : public FileOps {
 public:
  std::optional<std::string> read(const std::string& path) override {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0) {
      if (errno == ENOENT) return std::nullopt;
      fail(path, "open it");
    }
    std::string out;
    std::array<char, 65536> buffer{};
    for (;;) {
      const ssize_t got = ::read(file, buffer.data(), buffer.size());
      if (got < 0 && errno == EINTR) continue;
      if (got < 0) {
        const int why = errno;
        ::close(file);
        errno = why;
        fail(path, "read it");
      }
      if (got == 0) break;
      out.append(buffer.data(), static_cast<std::size_t>(got));
    }
    ::close(file);
    return out;
  }

  int create(const std::string& path) override {
    // The new file takes over the permissions of the one it will replace.
    mode_t mode = 0644;
    struct stat now {};
    const std::size_t dot = path.rfind('.');
    if (dot != std::string::npos && ::stat(path.substr(0, dot).c_str(), &now) == 0)
      mode = now.st_mode & 0777U;
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, mode);
    if (file < 0) fail(path, "make it");
    paths_[file] = path;
    return file;
  }

  void write(int file, std::string_view bytes) override {
    while (!bytes.empty()) {
      const ssize_t put = ::write(file, bytes.data(), bytes.size());
      if (put < 0 && errno == EINTR) continue;
      if (put < 0) fail(paths_[file], "write it");
      bytes.remove_prefix(static_cast<std::size_t>(put));
    }
  }

  void sync(int file) override {
    if (::fsync(file) != 0) fail(paths_[file], "bring it to the disc");
  }

  void close(int file) noexcept override {
    paths_.erase(file);
    ::close(file);
  }

  void rename(const std::string& from, const std::string& to) override {
    if (::rename(from.c_str(), to.c_str()) != 0) fail(to, "put it in place");
  }

  void remove(const std::string& path) override {
    if (::unlink(path.c_str()) != 0 && errno != ENOENT) fail(path, "remove it");
  }

  void sync_folder(const std::string& folder) override {
    const int file = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0) fail(folder, "open the folder");
    const int done = ::fsync(file);
    const int why = errno;
    ::close(file);
    // Some network folders cannot be synced; there is nothing better to do there.
    if (done != 0 && why != EINVAL && why != ENOTSUP) {
      errno = why;
      fail(folder, "bring the folder to the disc");
    }
  }

 private:
  std::map<int, std::string> paths_;
};

}  // namespace

FileOps& real_files() {
  static PosixFiles files;
  return files;
}

}  // namespace barwright::oils
