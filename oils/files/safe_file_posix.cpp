#include "oils/files/safe_file_posix.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <map>

#include "oils/files/safe_file.hpp"
#include "oils/files/text_file.hpp"

namespace barwright::oils {
namespace {

[[noreturn]] void fail(const std::string& path, const char* doing) {
  throw FileError(path, doing, std::strerror(errno));
}

/// Who may do what with a file.
struct Face {
  uid_t owner = 0;
  gid_t group = 0;
  mode_t mode = 0;
};

// Owner and group of the first, and what all of them allow; nothing where none is there.
std::optional<Face> face_of(const std::vector<std::string>& files) {
  std::optional<Face> out;
  for (const auto& file : files) {
    struct stat found {};
    if (::stat(file.c_str(), &found) != 0) continue;
    if (!out) out = Face{found.st_uid, found.st_gid, 0777U};
    out->mode &= found.st_mode;
  }
  return out;
}

// A group that cannot be kept (the writer is not in it) may not come to be another's.
void put_on(int file, const Face& face) {
  struct stat now {};
  mode_t mode = face.mode & 0777U;
  if (::fstat(file, &now) == 0 && now.st_uid != face.owner)
    if (::fchown(file, face.owner, face.group) != 0) {  // only root may; the group is tried alone
    }
  if (::fstat(file, &now) == 0 && now.st_gid != face.group &&
      ::fchown(file, static_cast<uid_t>(-1), face.group) != 0)
    mode &= ~static_cast<mode_t>(070U) | ((mode & 07U) << 3U);
  if (::fchmod(file, mode) != 0) {  // a file system without permissions: nothing to keep
  }
}

class PosixFiles : public FileOps {
 public:
  std::optional<std::string> read(const std::string& path) override {
    return find_text_file(path, kMostBookBytes);
  }

  std::string target(const std::string& path) override { return followed(path); }

  int create(const std::string& path, const std::vector<std::string>& like) override {
    remove(path);  // left by a program that was ended half way
    const auto face = face_of(like);
    // Never open to more readers than it will be, not for a moment.
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC,
                            face ? face->mode & 0600U : 0666U);
    if (file < 0) fail(path, "make it");
    if (face) put_on(file, *face);
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

  void rename_new(const std::string& from, const std::string& to) override {
#ifdef RENAME_NOREPLACE
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return;
    if (errno == EEXIST) fail(to, "put it in place");
#endif
    rename(from, to);  // a file system that cannot tell
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
