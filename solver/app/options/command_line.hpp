#pragma once

#include <cstdint>
#include <functional>
#include <list>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "oils/text/names.hpp"
#include "solver/app/options/usage_error.hpp"

namespace CLI {
class App;
class Option;
}  // namespace CLI

// The command line as the program declares it. The library that reads it is included in one source
// only: its headers take longer to compile than most of our commands.
namespace barwright::app {

/// An option or positional as declared: what manual and completion say of it.
struct OptionText {
  std::string name;  ///< "--within", or "brief" for a positional
  std::string help;
  bool takes_value = true;
  bool required = false;
  bool repeats = false;              ///< may be given several times
  std::vector<std::string> choices;  ///< empty: any value

  bool positional() const { return !name.starts_with("-"); }
};

/// A command as declared, with the commands below it.
struct CommandText {
  std::string name;
  std::string help;
  std::string footer;
  bool hidden = false;  ///< not listed in the help of what it belongs to
  std::list<OptionText> options;
  std::list<CommandText> commands;
};

/// Narrows what an option takes. A handle; valid while the CommandLine lives.
class Option {
 public:
  Option(CLI::Option& option, OptionText& text) : option_(&option), text_(&text) {}

  Option& required();
  Option& between(int least, int most);
  Option& above_zero();
  Option& not_negative();
  Option& one_of(const std::vector<std::string>& choices);

 private:
  CLI::Option* option_;
  OptionText* text_;
};

/// A command while it is declared. A handle, as Option is. What an option writes into must outlive
/// the parsing.
class Command {
 public:
  Command(CLI::App& app, CommandText& text) : app_(&app), text_(&text) {}

  /// Adds a command below this one.
  Command add_command(const std::string& name, const std::string& help);

  /// Adds an option with a value ("--within"), or a positional (a name without dashes).
  Option value(const std::string& name, std::string& into, const std::string& help);
  Option value(const std::string& name, int& into, const std::string& help);
  Option value(const std::string& name, double& into, const std::string& help);
  Option value(const std::string& name, std::uint64_t& into, const std::string& help);
  Option value(const std::string& name, std::optional<int>& into, const std::string& help);
  /// Adds an option that may be given several times, each time with one value or more.
  Option values(const std::string& name, std::vector<std::string>& into, const std::string& help);
  /// The same, each time with one value.
  Option one_each(const std::string& name, std::vector<std::string>& into, const std::string& help);
  /// Adds an option without a value.
  void flag(const std::string& name, bool& into, const std::string& help);

  /// Text below the help; commands added afterwards show it too unless they have their own.
  void footer(const std::string& text);
  /// Leaves the command out of the help of what it belongs to.
  void hide();
  /// One of the commands below this one may be named, or none.
  void commands_optional();
  /// Called by parse when this command was named, and none below it.
  void on_chosen(const std::function<void()>& call);

 protected:
  CLI::App* app_;
  CommandText* text_;

 private:
  template <typename Value>
  Option add(const std::string& name, Value& into, const std::string& help);
};

/// The program's whole command line. One of its commands must be named.
class CommandLine : public Command {
 public:
  CommandLine(const std::string& name, const std::string& help);

  /// Adds --version, which shows what `text` returns.
  void version(const std::function<std::string()>& text);

  /// Reads the arguments, fills what the options write into and calls what was chosen. Returns the
  /// text to show instead of running (--help, --version), or nothing. Errors: UsageError.
  std::optional<std::string> parse(int argc, const char* const* argv);

  /// Returns all that was declared.
  const CommandText& text() const { return *text_; }

 private:
  CommandLine(std::shared_ptr<CLI::App> app, std::shared_ptr<CommandText> text);

  std::shared_ptr<CLI::App> root_;
  std::shared_ptr<CommandText> root_text_;
};

}  // namespace barwright::app
