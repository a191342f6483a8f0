#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace barwright::core {

/// Where something stands in a maker's file. Lines and columns count from 1; 0 = unknown.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
  bool operator==(const Place&) const = default;
};

/// What to do about an error: whole sentences, and the names in them that may have been meant.
struct Remedy {
  std::string text;
  std::vector<std::string> suggestions = {};

  Remedy(const char* words) : text(words) {}
  Remedy(std::string words, std::vector<std::string> names = {})
      : text(std::move(words)), suggestions(std::move(names)) {}
  friend Remedy operator+(Remedy remedy, const std::string& more) {
    remedy.text += more;
    return remedy;
  }
  friend Remedy operator+(const std::string& before, Remedy remedy) {
    remedy.text.insert(0, before);
    return remedy;
  }
};

/// Something a maker's file or command line says that cannot be taken. Exit code 3.
/// what() gives: "file:line:column: message", the source line and a caret when known, the remedy,
/// then the contexts, innermost first; then the same of what else is wrong with the file.
class InputError : public std::runtime_error {
 public:
  /// So many errors are spelled out; of more it is said how many they are.
  static constexpr std::size_t kShown = 10;

  InputError(Place place, std::string message, Remedy remedy, std::string source_line = {});
  const Place& place() const { return place_; }
  const std::string& message() const { return message_; }
  const std::string& remedy() const { return remedy_.text; }
  /// Names that may have been meant.
  const std::vector<std::string>& suggestions() const { return remedy_.suggestions; }
  /// What else is wrong with the same file, in its order; each alone.
  const std::vector<InputError>& also() const { return also_; }
  /// Returns it without the others.
  InputError alone() const;
  /// Takes another error to this one, and those it carries.
  void add(InputError other);
  /// Adds what was being done, e.g. "in the shelf of 'brief.yaml'"; errors gain context outward.
  void add_context(const std::string& context);
  /// Says where in the file's blocks it is, "want > hardness": the innermost context.
  void set_way(const std::string& way);
  const std::string& way() const { return way_; }
  const char* what() const noexcept override { return text_.c_str(); }

 private:
  void render();
  Place place_;
  std::string message_;
  Remedy remedy_;
  std::string source_line_, text_, way_;
  std::vector<std::string> contexts_;
  std::vector<InputError> also_;
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
