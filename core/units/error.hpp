#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace barwright::core {

/// Where something stands in a maker's file. Lines and columns count from 1; 0 = unknown.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
  bool operator==(const Place&) const = default;
};

/// Something a maker's file or command line says that cannot be taken. Exit code 3.
/// what() gives: "file:line:column: message", the source line and a caret when known, the remedy,
/// then the contexts, innermost first.
class InputError : public std::runtime_error {
 public:
  InputError(Place place, std::string message, std::string remedy, std::string source_line = {});
  const Place& place() const { return place_; }
  const std::string& message() const { return message_; }
  const std::string& remedy() const { return remedy_; }
  /// Adds what was being done, e.g. "in the shelf of 'brief.yaml'"; errors gain context outward.
  void add_context(const std::string& context);
  /// Says where in the file's blocks it is, "want > hardness": the innermost context.
  void set_way(const std::string& way);
  const std::string& way() const { return way_; }
  const char* what() const noexcept override { return text_.c_str(); }

 private:
  void render();
  Place place_;
  std::string message_, remedy_, source_line_, text_, way_;
  std::vector<std::string> contexts_;
};

/// A recipe that must not be made: reason and remedy, both whole sentences. Exit code 3.
class Refusal : public std::runtime_error {
 public:
  Refusal(std::string reason, std::string remedy);
  const std::string& reason() const { return reason_; }
  const std::string& remedy() const { return remedy_; }

 private:
  std::string reason_, remedy_;
};

}  // namespace barwright::core
