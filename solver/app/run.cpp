#include "solver/app/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <new>
#include <utility>

#include "core/units/error.hpp"
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
#include "solver/app/json.hpp"
#include "solver/app/oils/command_new.hpp"
#include "solver/app/oils/command_oils.hpp"
#include "solver/app/serve/command_serve.hpp"
#include "solver/app/sheet/command_rescue.hpp"
#include "solver/app/sheet/command_sheet.hpp"
#include "solver/app/sheet/command_weigh.hpp"
#include "solver/app/swap/command_swap.hpp"
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
             const Json& error) {
  Reply out{code, {}, text.ends_with('\n') ? text : text + '\n'};
  if (json) {
    Json object = {{"schema", 1}, {"status", status}, {"exit_code", code}, {"error", text}};
    object["errors"].push_back(error);
    out.text = object.dump(2) + '\n';
  }
  return out;
}

}  // namespace

const Surroundings& surroundings() {
  static constexpr Surroundings nowhere;
  return present != nullptr ? *present : nowhere;
}

Reply run(const std::vector<std::string>& args, const Surroundings& where) {
  const Present scope(where);
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
  add_edit(app, action);
  add_serve(app, action);
  add_manual(app, app, action);

  const bool json = std::find(args.begin(), args.end(), "--json") != args.end();
  std::vector<const char*> words = {"barwright"};
  for (const auto& arg : args) words.push_back(arg.c_str());
  try {
    if (auto shown = app.parse(static_cast<int>(words.size()), words.data()))
      return {kFound, std::move(*shown), {}};
    Outcome outcome = action();
    return {outcome.exit_code, std::move(outcome.text), std::move(outcome.diagnostics)};
  } catch (const UsageError& error) {
    return failed(json, kWrongUsage, "wrong-usage", error.message, error_json(error.message, ""));
  } catch (const core::InputError& error) {
    return failed(json, kBadInput, "bad-input", error.what(), error_json(error));
  } catch (const core::Refusal& refusal) {
    return failed(json, kBadInput, "refused",
                  fmt::format("Refused: {}\n{}", refusal.reason(), refusal.remedy()),
                  error_json(refusal.reason(), refusal.remedy()));
  } catch (const std::bad_alloc&) {
    const std::string text =
        "This question needs more memory than there is. Nothing was written. Ask it with fewer "
        "oils, or in larger steps.";
    return failed(json, kOurFault, "out-of-memory", text, error_json(text, ""));
  } catch (const std::exception& error) {
    const std::string text = fmt::format(
        "A fault of barwright's, not yours: {}\nNothing was written. Please report it "
        "with the files and this line.",
        error.what());
    return failed(json, kOurFault, "fault", text, error_json(text, ""));
  }
}

}  // namespace barwright::app
