#include "solver/app/serve/serve.hpp"

#include <fmt/format.h>

#include <csignal>
#include <cstdio>
#include <thread>

#include "solver/app/print/screen.hpp"
#include "solver/app/serve/page.hpp"
#include "solver/app/serve/server.hpp"

namespace barwright::app {
namespace {

// Printed before the program listens, not when it ends.
void say_address(const Server& server, const std::string& folder) {
  Screen screen(colour_wanted());
  screen.title("The workbench is open");
  screen.sentence(fmt::format("over the files of {}. Open this address in a browser:", folder));
  screen.blank();
  const std::string text = screen.text() + fmt::format("  {}\n\n", server.address()) +
                           "  It is good until this program ends: Ctrl-C.\n";
  (void)std::fwrite(text.data(), 1, text.size(), stdout);
  (void)std::fflush(stdout);
}

}  // namespace

void serve(const std::string& folder, int port) {
  // Blocked before any thread starts: the signals wait for sigwait below.
  sigset_t ending;
  sigemptyset(&ending);
  sigaddset(&ending, SIGINT);
  sigaddset(&ending, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &ending, nullptr);
  Server server(folder, workbench_page(), port);
  say_address(server, folder);
  std::thread listening([&server] { server.listen(); });
  int signal = 0;
  sigwait(&ending, &signal);
  server.stop();
  listening.join();
}

}  // namespace barwright::app
