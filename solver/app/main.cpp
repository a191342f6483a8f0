#include <cstdio>

#include "solver/app/run.hpp"

namespace {

void put(std::FILE* stream, const std::string& text) {
  (void)std::fwrite(text.data(), 1, text.size(), stream);
  (void)std::fflush(stream);
}

}  // namespace

int main(int argc, char** argv) {
  const barwright::app::Reply reply =
      barwright::app::run({argv + (argc > 0 ? 1 : 0), argv + argc}, {true, nullptr});
  if (!reply.error.empty()) put(stderr, reply.error);
  put(stdout, reply.text);
  return reply.exit_code;
}
