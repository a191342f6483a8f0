#include "running.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace barwright::tests {
namespace fs = std::filesystem;

std::string fresh_folder(const std::string& name) {
  const fs::path path =
      fs::temp_directory_path() / ("barwright-" + name + "-" + std::to_string(getpid()));
  fs::remove_all(path);
  fs::create_directories(path);
  return path.string();
}

std::string slurp(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  INFO("reading " << path);
  REQUIRE(file.good());
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

void spill(const std::string& path, const std::string& text) {
  std::ofstream file(path, std::ios::binary);
  file << text;
  file.close();
  INFO("writing " << path);
  REQUIRE(file.good());
}

Ran run(const std::string& command, const std::string& folder) {
  const std::string scratch = fresh_folder("run");
  // A function, so that the command line reads as a maker types it.
  const std::string line = "cd '" + folder +
                           "' && barwright() { '" BARWRIGHT_BINARY "' \"$@\"; } && { " + command +
                           "; } >'" + scratch + "/out' 2>'" + scratch + "/err' </dev/null";
  REQUIRE(setenv("NO_COLOR", "1", 1) == 0);
  const int status = std::system(line.c_str());
  Ran ran;
  ran.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  ran.out = slurp(scratch + "/out");
  ran.err = slurp(scratch + "/err");
  fs::remove_all(scratch);
  return ran;
}

}  // namespace barwright::tests
