#include "solver/app/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <new>
#include <optional>
#include <string_view>
#include <utility>

#include "core/units/error.hpp"
#include "core/units/plain_text.hpp"
#include "oils/files/safe_file.hpp"
#include "solver/app/blend/command_blend.hpp"
#include "solver/app/books/command_label.hpp"
#include "solver/app/books/command_make.hpp"
#include "solver/app/books/command_price.hpp"
#include "solver/app/books/command_release.hpp"
#include "solver/app/books/command_shelf.hpp"
#include "solver/app/command_manual.hpp"
#include "solver/app/edit/command_edit.hpp"
#include "solver/app/error_json.hpp"
#include "solver/app/exit_code.hpp"
#include "solver/app/explore/command_explore.hpp"
#include "solver/app/harmless.hpp"
#include "solver/app/json.hpp"
#include "solver/app/oils/command_new.hpp"
#include "solver/app/oils/command_oils.hpp"
#include "solver/app/serve/command_serve.hpp"
#include "solver/app/sheet/command_rescue.hpp"
#include "solver/app/sheet/command_sheet.hpp"
#include "solver/app/sheet/command_weigh.hpp"
#include "solver/app/swap/command_swap.hpp"
#include "solver/app/tune/command_tune.hpp"
#include "solver/app/version.hpp"

namespace barwright::app {
namespace {

thread_local const Surroundings* present = nullptr;

// Holds for the length of one run.
class Present {
 public:
  explicit Present(const Surroundings& where) : before_(std::exchange(present, &where)) {}
  ~Present() { present = before_; }
  Present(const Present&) = delete;
  Present& operator=(const Present&) = delete;

 private:
  const Surroundings* before_;
};

// With --json a caller reads stdout: it gets the error there too, in the same envelope.
Reply failed(bool json, int code, const std::string& status, const std::string& text,
             const Json& errors) {
  Reply out{code, {}, text.ends_with('\n') ? text : text + '\n'};
  if (json) {
    Json object = {{"schema", 1}, {"status", status}, {"exit_code", code}, {"error", text}};
    object["errors"] = errors;
    out.text = object.dump(2) + '\n';
  }
  return out;
}

// Said of a run that ended half way.
std::string written_words(std::size_t before) {
  return oils::files_written() == before
             ? "Nothing was written."
             : "Files were written before it: look at them before you run the command again.";
}

Reply misused(bool json, const std::string& message,
              const std::vector<std::string>& suggestions = {}) {
  constexpr std::size_t kLongest = 6000;
  const std::string text = core::shortened(core::visible(message), kLongest);
  return failed(json, kWrongUsage, "wrong-usage", text, errors_json(text, "", suggestions));
}

}  // namespace

const Surroundings& surroundings() {
  static constexpr Surroundings nowhere;
  return present != nullptr ? *present : nowhere;
}

namespace {

Reply run_line(const std::vector<std::string>& args, bool json) {
  const std::size_t before = oils::files_written();
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
  add_tune(app, action);
  add_edit(app, action);
  add_serve(app, action);
  add_manual(app, app, action);

  std::vector<const char*> words = {"barwright"};
  for (const auto& arg : args) words.push_back(arg.c_str());
  try {
    if (auto shown = app.parse(static_cast<int>(words.size()), words.data()))
      return {kFound, std::move(*shown), {}};
    Outcome outcome = action();
    return {outcome.exit_code, std::move(outcome.text), std::move(outcome.diagnostics)};
  } catch (const UsageError& error) {
    return misused(json, error.message, error.suggestions);
  } catch (const core::InputError& error) {
    return failed(json, kBadInput, "bad-input", error.what(), errors_json(error));
  } catch (const core::Refusal& refusal) {
    return failed(json, kBadInput, "refused",
                  fmt::format("Refused: {}\n{}", refusal.reason(), refusal.remedy()),
                  errors_json(refusal.reason(), refusal.remedy()));
  } catch (const std::bad_alloc&) {
    const std::string text = "This question needs more memory than there is. " +
                             written_words(before) + " Ask it with fewer oils, or in larger steps.";
    return failed(json, kOurFault, "out-of-memory", text, errors_json(text, ""));
  } catch (const std::exception& error) {
    const std::string text = fmt::format(
        "A fault of barwright's, not yours: {}\n{} Please report it "
        "with the files and this line.",
        core::visible(error.what()), written_words(before));
    return failed(json, kOurFault, "fault", text, errors_json(text, ""));
  }
}

}  // namespace

Reply run(const std::vector<std::string>& args, const Surroundings& where) {
  const Present scope(where);
  const bool json = std::find(args.begin(), args.end(), "--json") != args.end();
  if (const auto unfit = unfit_argument(args))
    return failed(json, kWrongUsage, "wrong-usage", unfit->what(), errors_json(*unfit));
  Reply out = run_line(args, json);
  out.text = json ? harmless_json(out.text) : harmless(out.text);
  out.error = harmless(out.error);
  return out;
}

}  // namespace barwright::app
