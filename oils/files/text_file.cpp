#include "oils/files/text_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>

#include "core/units/error.hpp"

namespace barwright::oils {
namespace {

[[noreturn]] void refuse(const std::string& path, const std::string& message,
                         const std::string& remedy) {
  throw core::InputError({path, 0, 0}, message, remedy);
}

// Closed however the reading ends.
class OpenFile {
 public:
  explicit OpenFile(int file) : file_(file) {}
  ~OpenFile() {
    if (file_ >= 0) ::close(file_);
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  int number() const { return file_; }

 private:
  int file_;
};

void check_kind(const std::string& path, const struct stat& found, std::size_t most) {
  if (S_ISDIR(found.st_mode))
    refuse(path, "this is a folder, not a file", "Name a file inside it.");
  if (!S_ISREG(found.st_mode))
    refuse(path, "this is no file but a pipe or a device", "Name a text file.");
  if (static_cast<std::size_t>(found.st_size) > most)
    refuse(path, fmt::format("the file is larger than {} MB", most >> 20U), "Name a text file.");
}

}  // namespace

std::optional<std::string> find_text_file(const std::string& path, std::size_t most) {
  // Without waiting: a pipe would else be opened only once somebody writes to it.
  const OpenFile file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.number() < 0) {
    if (errno == ENOENT || errno == ENOTDIR) return std::nullopt;
    if (errno == ENXIO) refuse(path, "this is no file but a socket", "Name a text file.");
    refuse(path, fmt::format("the file cannot be opened: {}", std::strerror(errno)),
           "Check who may read it.");
  }
  struct stat found {};
  if (::fstat(file.number(), &found) != 0)
    refuse(path, fmt::format("the file cannot be read: {}", std::strerror(errno)),
           "Check the disk it is on.");
  check_kind(path, found, most);
  std::string out;
  std::array<char, 65536> buffer{};
  for (;;) {
    const ssize_t got = ::read(file.number(), buffer.data(), buffer.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0)
      refuse(path, fmt::format("the file cannot be read to its end: {}", std::strerror(errno)),
             "Check the disk it is on.");
    if (got == 0) return out;
    out.append(buffer.data(), static_cast<std::size_t>(got));
    if (out.size() > most)
      refuse(path, fmt::format("the file is larger than {} MB", most >> 20U), "Name a text file.");
  }
}

std::string read_text_file(const std::string& path, std::size_t most) {
  auto text = find_text_file(path, most);
  if (!text) refuse(path, "there is no such file", "Check the name and the folder.");
  return std::move(*text);
}

}  // namespace barwright::oils
