#pragma once

#include <string>
#include <vector>

namespace barwright::fuzz {

/// A reader of what makers write, for any bytes: it takes them or says what is wrong. Anything else
/// that leaves it is a fault.
struct Reader {
  const char* name;
  void (*read)(const std::string& bytes);
};

/// Returns every reader of files and phrases; "program" runs a whole command over a file.
const std::vector<Reader>& readers();

}  // namespace barwright::fuzz
