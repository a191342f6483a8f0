#include "solver/app/options/completion.hpp"

#include <algorithm>
#include <functional>
#include <string_view>
#include <vector>

namespace barwright::app {
namespace {

/// Calls `see` for every command that is shown, with the words that lead to it: "shelf receive".
void walk(const CommandText& command, const std::string& way,
          const std::function<void(const CommandText&, const std::string&)>& see) {
  see(command, way);
  for (const auto& below : command.commands) {
    if (!below.hidden) walk(below, way.empty() ? below.name : way + " " + below.name, see);
  }
}

std::string joined(const std::vector<std::string>& words, const char* between = " ") {
  std::string out;
  for (const auto& word : words) out += (out.empty() ? "" : between) + word;
  return out;
}

std::vector<std::string> commands_below(const CommandText& command) {
  std::vector<std::string> out;
  for (const auto& below : command.commands) {
    if (!below.hidden) out.push_back(below.name);
  }
  return out;
}

/// Text with every letter of `special` escaped by a backslash.
std::string escaped(const std::string& text, std::string_view special) {
  std::string out;
  for (const char c : text) {
    if (special.find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

/// Text in single quotes, for bash and zsh.
std::string in_quotes(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

// One zsh function a command: options and positionals for _arguments, then the commands below it.
std::string zsh_function(const CommandText& command, const std::string& function) {
  std::string specs, below_functions, cases;
  int position = 0;
  for (const auto& option : command.options) {
    if (option.positional() && !command.commands.empty())
      continue;  // a command's name stands there
    const std::string values =
        option.choices.empty() ? ":_files" : ":(" + joined(option.choices) + ")";
    const std::string help = escaped(option.help, "[]:\\");
    std::string spec;
    if (option.positional())
      spec = (option.repeats ? "*" : std::to_string(++position)) + ":" + option.name + values;
    else
      spec = (option.repeats ? "*" : "") + option.name + "[" + help + "]" +
             (option.takes_value ? ":value" + values : "");
    specs += " \\\n    " + in_quotes(spec);
  }
  std::string listed;
  for (const auto& below : command.commands) {
    if (below.hidden) continue;
    const std::string name = function + "_" + below.name;
    listed += " " + in_quotes(below.name + ":" + escaped(below.help, ":\\"));
    cases += "    " + below.name + ") " + name + " ;;\n";
    below_functions += zsh_function(below, name);
  }
  std::string out = function + "() {\n";
  if (listed.empty()) {
    out += "  _arguments" + specs + "\n}\n";
  } else {
    out += "  local context state state_descr line\n  typeset -A opt_args\n  local -a commands=(" +
           listed + ")\n  _arguments -C" + specs +
           " \\\n    '1: :->command' '*:: :->rest'\n"
           "  case $state in\n"
           "  command) _describe command commands; _files ;;\n"
           "  rest)\n    case $words[1] in\n" +
           cases + "    *) _files ;;\n    esac ;;\n  esac\n}\n";
  }
  return out + below_functions;
}

}  // namespace

std::string bash_completion(const CommandText& program) {
  std::string ways, choices, words;
  const std::string files = "_" + program.name + "_files";
  walk(program, "", [&](const CommandText& command, const std::string& way) {
    const std::string before = way.substr(0, way.find_last_of(' ') + 1);
    if (!way.empty()) {
      const std::string from = before.empty() ? " " + way : way;
      ways += "      " + in_quotes(from) + ") way=" + in_quotes(way) + " ;;\n";
    }
    std::vector<std::string> all = commands_below(command), takes_file;
    for (const auto& option : command.options) {
      if (option.positional()) continue;
      all.push_back(option.name);
      if (!option.takes_value) continue;
      if (option.choices.empty())
        takes_file.push_back(in_quotes(way + " " + option.name));
      else
        choices += "    " + in_quotes(way + " " + option.name) + ") COMPREPLY=($(compgen -W " +
                   in_quotes(joined(option.choices)) + " -- \"$cur\")); return ;;\n";
    }
    if (!takes_file.empty())
      choices += "    " + joined(takes_file, "|") + ") COMPREPLY=(); " + files + "; return ;;\n";
    words += "    " + in_quotes(way) + ") words=" + in_quotes(joined(all)) + " ;;\n";
  });
  return "# bash completion for " + program.name + "\n" + files +
         "() {\n  local IFS=$'\\n'\n  COMPREPLY+=($(compgen -f -- \"$cur\"))\n}\n_" + program.name +
         "() {\n"
         "  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]}\n"
         "  local way='' words='' i\n"
         "  for ((i = 1; i < COMP_CWORD; i++)); do\n"
         "    case \"$way ${COMP_WORDS[i]}\" in\n" +
         ways +
         "    esac\n  done\n"
         "  case \"$way $prev\" in\n" +
         choices + "  esac\n  case \"$way\" in\n" + words +
         "  esac\n"
         "  COMPREPLY=($(compgen -W \"$words\" -- \"$cur\"))\n"
         "  [[ -z $way || $cur == -* ]] || " +
         files +
         "\n}\n"
         "complete -o filenames -F _" +
         program.name + " " + program.name + "\n";
}

std::string zsh_completion(const CommandText& program) {
  return "#compdef " + program.name + "\n" + zsh_function(program, "_" + program.name) +
         "\nif [ \"$funcstack[1]\" = _" + program.name + " ]; then\n  _" + program.name +
         " \"$@\"\nelse\n  compdef _" + program.name + " " + program.name + "\nfi\n";
}

std::string fish_completion(const CommandText& program) {
  std::string out = "# fish completion for " + program.name + "\n";
  walk(program, "", [&](const CommandText& command, const std::string& way) {
    // Where we are: every word of the way seen, and none of the commands below.
    std::string seen;
    for (std::size_t at = 0; at < way.size();) {
      const std::size_t end = std::min(way.find(' ', at), way.size());
      seen += (seen.empty() ? "" : "; and ") + std::string("__fish_seen_subcommand_from ") +
              way.substr(at, end - at);
      at = end + 1;
    }
    const std::string below = joined(commands_below(command));
    const std::string open =
        way.empty()
            ? "__fish_use_subcommand"
            : seen + (below.empty() ? "" : "; and not __fish_seen_subcommand_from " + below);
    const std::string start = "complete -c " + program.name + " -n '";
    for (const auto& each : command.commands) {
      if (each.hidden) continue;
      out += start + open + "' " + (way.empty() ? "-f " : "") + "-a " + each.name + " -d '" +
             escaped(each.help, "'\\") + "'\n";
    }
    for (const auto& option : command.options) {
      if (option.positional()) continue;
      out += start + open + "' -l " + option.name.substr(2);
      if (!option.choices.empty())
        out += " -x -a '" + joined(option.choices) + "'";
      else if (option.takes_value)
        out += " -r -F";
      out += " -d '" + escaped(option.help, "'\\") + "'\n";
    }
  });
  return out;
}

}  // namespace barwright::app
