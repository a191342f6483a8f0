#include "solver/app/options/command_line.hpp"

#include <CLI/CLI.hpp>
#include <sstream>
#include <utility>

#include "oils/text/names.hpp"

namespace barwright::app {
namespace {

constexpr std::size_t kHelpColumn = 34;

void add_help(CommandText& command) {
  command.options.push_back(
      {"--help", "Print this help message and exit", false, false, false, {}});
}

}  // namespace

Option& Option::required() {
  option_->required();
  text_->required = true;
  return *this;
}

Option& Option::between(int least, int most) {
  option_->check(CLI::Range(least, most));
  return *this;
}

Option& Option::above_zero() {
  option_->check(CLI::PositiveNumber);
  return *this;
}

Option& Option::not_negative() {
  option_->check(CLI::NonNegativeNumber);
  return *this;
}

Option& Option::one_of(const std::vector<std::string>& choices) {
  option_->check(CLI::IsMember(choices));
  text_->choices = choices;
  return *this;
}

template <typename Value>
Option Command::add(const std::string& name, Value& into, const std::string& help) {
  auto& text = text_->options.emplace_back();
  text.name = name;
  text.help = help;
  return {*app_->add_option(name, into, help), text};
}

Command Command::add_command(const std::string& name, const std::string& help) {
  auto& text = text_->commands.emplace_back();
  text.name = name;
  text.help = help;
  add_help(text);
  return {*app_->add_subcommand(name, help), text};
}

Option Command::value(const std::string& name, std::string& into, const std::string& help) {
  return add(name, into, help);
}

Option Command::value(const std::string& name, int& into, const std::string& help) {
  return add(name, into, help);
}

Option Command::value(const std::string& name, double& into, const std::string& help) {
  return add(name, into, help);
}

Option Command::value(const std::string& name, std::uint64_t& into, const std::string& help) {
  return add(name, into, help);
}

Option Command::value(const std::string& name, std::optional<int>& into, const std::string& help) {
  return add(name, into, help);
}

Option Command::values(const std::string& name, std::vector<std::string>& into,
                       const std::string& help) {
  const Option option = add(name, into, help);
  text_->options.back().repeats = true;
  return option;
}

Option Command::one_each(const std::string& name, std::vector<std::string>& into,
                         const std::string& help) {
  auto& text = text_->options.emplace_back();
  text.name = name;
  text.help = help;
  text.repeats = true;
  return {*app_->add_option(name, into, help)->allow_extra_args(false), text};
}

void Command::flag(const std::string& name, bool& into, const std::string& help) {
  app_->add_flag(name, into, help);
  text_->options.push_back({name, help, false, false, false, {}});
}

void Command::footer(const std::string& text) {
  app_->footer(text);
  text_->footer = text;
}

void Command::hide() {
  app_->group("");
  text_->hidden = true;
}

void Command::commands_optional() { app_->require_subcommand(0, 1); }

void Command::on_chosen(const std::function<void()>& call) {
  CLI::App* app = app_;
  app->callback([app, call] {
    if (app->get_subcommands().empty()) call();
  });
}

CommandLine::CommandLine(std::shared_ptr<CLI::App> app, std::shared_ptr<CommandText> text)
    : Command(*app, *text), root_(std::move(app)), root_text_(std::move(text)) {}

CommandLine::CommandLine(const std::string& name, const std::string& help)
    : CommandLine(std::make_shared<CLI::App>(help, name), std::make_shared<CommandText>()) {
  text_->name = name;
  text_->help = help;
  add_help(*text_);
  app_->require_subcommand(1);
  app_->get_formatter()->column_width(kHelpColumn);
}

void CommandLine::version(const std::function<std::string()>& text) {
  app_->set_version_flag("--version", text);
  text_->options.push_back(
      {"--version", "Display program version information and exit", false, false, false, {}});
}

std::optional<std::string> CommandLine::parse(int argc, const char* const* argv) {
  try {
    app_->parse(argc, argv);
    return std::nullopt;
  } catch (const CLI::Success& done) {
    std::ostringstream out;
    app_->exit(done, out, out);
    return out.str();
  } catch (const CLI::ParseError& error) {
    throw UsageError{std::string(error.what()) + "\nSee 'barwright --help'."};
  }
}

}  // namespace barwright::app
