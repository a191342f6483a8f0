#pragma once

#include <array>
#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

namespace barwright::tests {

/// What a command line of the program gave.
struct Ran {
  int code = 0;
  std::string out, err;
};

inline std::string slurp(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

inline Ran run_barwright(const std::string& arguments) {
  char name[] = "/tmp/barwright-test-XXXXXX";
  const int file = mkstemp(name);
  Ran ran;
  std::FILE* pipe =
      popen((std::string(BARWRIGHT_BINARY) + " " + arguments + " 2>" + name).c_str(), "r");
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    ran.out.append(buffer.data(), got);
  }
  const int status = pclose(pipe);
  ran.code = status >= 0 ? (status >> 8) & 0xff : status;
  ran.err = slurp(name);
  if (file >= 0) std::remove(name);
  return ran;
}

inline std::string towpath() {
  return std::string(BARWRIGHT_SOURCE_DIR) + "/examples/towpath-batch.yaml";
}

/// Writes the example with one text replaced and returns its path.
inline std::string changed(const std::string& name, const std::string& from,
                           const std::string& to) {
  std::string text = slurp(towpath());
  const auto at = text.find(from);
  if (at == std::string::npos) return "no such text: " + from;
  text.replace(at, from.size(), to);
  const std::string path = "/tmp/barwright-" + name + ".yaml";
  std::ofstream(path, std::ios::binary) << text;
  return path;
}

}  // namespace barwright::tests
