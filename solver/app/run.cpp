#include "solver/app/program.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <exception>

#include "core/units/error.hpp"
#include "solver/app/command.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {
namespace {

void put(std::FILE* stream, const std::string& text) {
  (void)std::fwrite(text.data(), 1, text.size(), stream);
  (void)std::fflush(stream);
}

// With --json a caller reads stdout: it gets the error there too, in the same envelope.
int fail(bool json, int code, const std::string& status, const std::string& text) {
  put(stderr, text.ends_with('\n') ? text : text + '\n');
  if (json) {
    const Json object = {{"schema", 1}, {"status", status}, {"exit_code", code}, {"error", text}};
    put(stdout, object.dump(2) + '\n');
  }
  return code;
}

bool asks_json(int argc, char** argv) {
  for (int i = 1; i < argc; ++i) {
    if (std::string_view(argv[i]) == "--json") return true;
  }
  return false;
}

}  // namespace

void add_common(Command command, CommonOptions& options) {
  command.flag("--json", options.json, "Print one JSON object instead of text");
  command.value("--library", options.library_folder,
                "Folder of oil records (*.yaml) that add to the built-in library or replace in it");
}

int run(int argc, char** argv) {
  CommandLine app("barwright",
                  "barwright: from the bar you want to the blend, the lye and the bench sheet.");
  app.version(version_text);
  app.footer(
      "Start here:\n  barwright new my-workshop\n  barwright blend my-workshop/firmer-bar.yaml\n"
      "'barwright COMMAND --help' shows a worked example of each command.\n"
      "Exit codes: 0 answer found; 2 wrong usage; 3 a file cannot be taken or its recipe is "
      "unsafe;\n"
      "4 proved that no blend fits; 5 stopped before a proof; 70 a fault of the program.");
  Action action;
  add_blend(app, action);
  add_swap(app, action);
  add_explore(app, action);
  add_weigh(app, action);
  add_oils(app, action);
  add_new(app, action);
  add_sheet(app, action);
  add_rescue(app, action);
  add_shelf(app, action);
  add_make(app, action);
  add_release(app, action);
  add_label(app, action);
  add_price(app, action);
  add_manual(app, app, action);

  const bool json = asks_json(argc, argv);
  try {
    if (const auto shown = app.parse(argc, argv)) {
      put(stdout, *shown);
      return kFound;
    }
    const Outcome outcome = action();
    if (!outcome.diagnostics.empty()) put(stderr, outcome.diagnostics);
    put(stdout, outcome.text);
    return outcome.exit_code;
  } catch (const UsageError& error) {
    return fail(json, kWrongUsage, "wrong-usage", error.message);
  } catch (const core::InputError& error) {
    return fail(json, kBadInput, "bad-input", error.what());
  } catch (const core::Refusal& refusal) {
    return fail(json, kBadInput, "refused",
                fmt::format("Refused: {}\n{}", refusal.reason(), refusal.remedy()));
  } catch (const std::exception& error) {
    return fail(json, kOurFault, "fault",
                fmt::format("A fault of barwright's, not yours: {}\nNothing was written. Please "
                            "report it with the files and this line.",
                            error.what()));
  }
}

}  // namespace barwright::app
