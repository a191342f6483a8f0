#include "solver/app/program.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <nlohmann/json.hpp>

#include "core/units/error.hpp"
#include "solver/app/command.hpp"
#include "solver/app/exit_code.hpp"

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
    const nlohmann::ordered_json object = {
        {"schema", 1}, {"status", status}, {"exit_code", code}, {"error", text}};
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

void add_common(CLI::App& command, CommonOptions& options) {
  command.add_flag("--json", options.json, "Print one JSON object instead of text");
  command.add_option(
      "--library", options.library_folder,
      "Folder of oil records (*.yaml) that add to the built-in library or replace in it");
}

int run(int argc, char** argv) {
  CLI::App app("barwright: from the bar you want to the blend, the lye and the bench sheet.",
               "barwright");
  app.set_version_flag("--version", std::string("barwright ") + BARWRIGHT_VERSION);
  app.require_subcommand(1);
  app.get_formatter()->column_width(34);
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

  const bool json = asks_json(argc, argv);
  try {
    app.parse(argc, argv);
    const Outcome outcome = action();
    if (!outcome.diagnostics.empty()) put(stderr, outcome.diagnostics);
    put(stdout, outcome.text);
    return outcome.exit_code;
  } catch (const CLI::Success& done) {  // --help, --version
    return app.exit(done);
  } catch (const CLI::ParseError& error) {
    return fail(json, kWrongUsage, "wrong-usage",
                fmt::format("{}\nSee 'barwright --help'.", error.what()));
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
