#include "solver/app/command_manual.hpp"

#include <map>
#include <memory>

#include "oils/records/library.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/options/completion.hpp"
#include "solver/app/options/manual.hpp"
#include "solver/app/version.hpp"

namespace barwright::app {

void add_manual(const CommandLine& program, Command app, Action& action) {
  Command manual = app.add_command("manual", "Print the manual page");
  manual.hide();
  manual.on_chosen([&program, &action] {
    action = [&program] {
      return Outcome{
          kFound, manual_page(program.text(), version(), oils::Library::embedded().edition()), {}};
    };
  });

  auto shell = std::make_shared<std::string>();
  Command completion = app.add_command("completion", "Print a script that completes commands");
  completion.hide();
  completion.value("shell", *shell, "bash, zsh or fish").one_of({"bash", "zsh", "fish"}).required();
  completion.footer(
      "The package installs these. Without it, for the shell that runs now:\n"
      "  source <(barwright completion bash)");
  completion.on_chosen([&program, &action, shell] {
    action = [&program, shell] {
      const auto& text = program.text();
      return Outcome{kFound,
                     *shell == "bash"  ? bash_completion(text)
                     : *shell == "zsh" ? zsh_completion(text)
                                       : fish_completion(text),
                     {}};
    };
  });
}

}  // namespace barwright::app
