#include <fcntl.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

#include "solver/app/exit_code.hpp"
#include "solver/app/run.hpp"

namespace {

bool put(std::FILE* stream, const std::string& text) {
  const bool all = std::fwrite(text.data(), 1, text.size(), stream) == text.size();
  return std::fflush(stream) == 0 && all;
}

// A program may be started with these closed; the next file it opens would then stand in their
// place, and what is printed would be written into it.
void hold_standard_streams() {
  for (int file = 0; file < 3; ++file) {
    if (::fcntl(file, F_GETFD) != -1 || errno != EBADF) continue;
    if (::open("/dev/null", O_RDONLY) != file) return;  // writing to it fails, and is told
  }
}

}  // namespace

int main(int argc, char** argv) {
  hold_standard_streams();
  const barwright::app::Reply reply =
      barwright::app::run({argv + (argc > 0 ? 1 : 0), argv + argc}, {true, nullptr});
  if (!reply.error.empty()) (void)put(stderr, reply.error);
  if (reply.text.empty() || put(stdout, reply.text)) return reply.exit_code;
  const std::string why = std::strerror(errno);
  (void)put(stderr, "The answer could not be written: " + why +
                        ".\n  What the command was to record or to write to a file is done: look "
                        "at it before you run the command again.\n");
  return barwright::app::kBadInput;
}
