#include "solver/app/serve/command_serve.hpp"

#include <memory>

#include "solver/app/exit_code.hpp"
#include "solver/app/run.hpp"
#include "solver/app/serve/serve.hpp"

namespace barwright::app {
namespace {

struct ServeOptions {
  std::string folder = ".";
  int port = 0;
};

}  // namespace

void add_serve(Command app, Action& action) {
  auto options = std::make_shared<ServeOptions>();
  Command command = app.add_command("serve", "Open the workbench, a page in the browser");
  command.value("folder", options->folder,
                "The folder with the briefs and the shelf (the present one unless stated)");
  command.value("--port", options->port, "The port on 127.0.0.1 (any that is free unless stated)")
      .between(0, 65535);
  command.footer(
      "Worked example: the invented workshop as a page.\n"
      "  barwright new my-workshop\n"
      "  barwright serve my-workshop\n"
      "prints an address for the browser of this computer; no other can reach it. The page changes "
      "no\nfile before you save, and never one that was changed meanwhile.");
  command.on_chosen([options, &action] {
    action = [options]() -> Outcome {
      if (!surroundings().terminal)
        throw UsageError{"serve: opens a page from a terminal; here there is one already."};
      serve(options->folder, options->port);
      return {kFound, "\n", {}};
    };
  });
}

}  // namespace barwright::app
