#include "solver/app/options/manual.hpp"

#include <cctype>

namespace barwright::app {
namespace {

/// Text as roff prints it letter by letter: no line of it can be taken for a request.
std::string plain(const std::string& text) {
  std::string out;
  bool line_starts = true;
  for (const char c : text) {
    if (line_starts && (c == '.' || c == '\'')) out += "\\&";
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else if (c == '\'')
      out += "\\(aq";
    else
      out += c;
    line_starts = c == '\n';
  }
  return out;
}

std::string bold(const std::string& text) { return "\\fB" + plain(text) + "\\fR"; }
std::string italic(const std::string& text) { return "\\fI" + plain(text) + "\\fR"; }

std::string upper(std::string text) {
  for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return text;
}

std::string value_of(const OptionText& option) {
  if (option.choices.empty()) return italic("VALUE");
  std::string out;
  for (const auto& choice : option.choices) out += (out.empty() ? "" : "|") + plain(choice);
  return out;
}

std::string example(const std::string& text) {
  return text.empty() ? "" : ".PP\n.nf\n" + plain(text) + "\n.fi\n";
}

std::string options_of(const CommandText& command) {
  std::string out;
  for (const auto& option : command.options) {
    std::string name = option.positional() ? italic(option.name) : bold(option.name);
    if (!option.positional() && option.takes_value) name += " " + value_of(option);
    std::string help = plain(option.help);
    if (option.repeats && help.find("may repeat") == std::string::npos) help += "; may repeat";
    out += ".TP\n" + name + "\n" + help + "\n";
  }
  return out;
}

std::string command_of(const CommandText& command, const std::string& before) {
  const std::string name = before + " " + command.name;
  std::string synopsis = name;
  for (const auto& option : command.options) {
    if (!option.positional()) continue;
    synopsis += option.required ? " " + option.name : " [" + option.name + "]";
  }
  std::string out = ".SS \"" + plain(synopsis) + "\"\n" + plain(command.help) + ".\n";
  out += options_of(command) + example(command.footer);
  for (const auto& below : command.commands) {
    if (!below.hidden) out += command_of(below, name);
  }
  return out;
}

}  // namespace

std::string manual_page(const CommandText& program, const std::string& version,
                        const std::string& date) {
  std::string what = program.help;
  if (what.starts_with(program.name + ": ")) what.erase(0, program.name.size() + 2);
  if (what.ends_with('.')) what.pop_back();
  std::string out = ".TH " + upper(program.name) + " 1 " + date + " \"" + program.name + " " +
                    version + "\" \"User Commands\"\n";
  out += ".SH NAME\n" + program.name + " \\- " + plain(what) + "\n";
  out += ".SH SYNOPSIS\n" + bold(program.name) + " " + italic("COMMAND") + " [" +
         italic("OPTIONS") + "]\n";
  out += ".SH OPTIONS\n" + options_of(program);
  out += ".SH COMMANDS\n";
  for (const auto& command : program.commands) {
    if (!command.hidden) out += command_of(command, program.name);
  }
  out += ".SH FIRST STEPS\n" + example(program.footer);
  return out;
}

}  // namespace barwright::app
