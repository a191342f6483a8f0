// libFuzzer over one reader, READER=recipe in the environment; see run.sh.
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "tests/fuzz/readers.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const auto* reader = [] {
    const char* name = std::getenv("READER");
    for (const auto& each : barwright::fuzz::readers())
      if (name != nullptr && std::string(name) == each.name) return &each;
    std::fputs("READER=NAME; known are:", stderr);
    for (const auto& each : barwright::fuzz::readers()) std::fprintf(stderr, " %s", each.name);
    std::fputs("\n", stderr);
    std::exit(2);
  }();
  reader->read(std::string(reinterpret_cast<const char*>(data), size));
  return 0;
}
