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
Reply failed(bool json, int code, const std::string& status, const std::string& text, Json errors) {
  Reply out{code, {}, text.ends_with('\n') ? text : text + '\n'};
  if (json) {
    Json object = {{"schema", 1}, {"status", status}, {"exit_code", code}, {"error", text}};
    if (errors.is_array())
      object["errors"] = std::move(errors);
    else
      object["errors"].push_back(std::move(errors));
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
  return failed(json, kWrongUsage, "wrong-usage", text, error_json(text, "", suggestions));
}

// What no argument may hold: it would end in a journal, or on a page.
std::optional<core::InputError> unfit_argument(const std::vector<std::string>& args) {
  for (std::size_t i = 0; i < args.size(); ++i) {
    const auto unfit = core::first_unfit(args[i]);
    if (!unfit) continue;
    std::string message = unfit->message;
    for (const std::string_view of_a_file : {"the line", "this is"}) {
      if (message.starts_with(of_a_file)) message.replace(0, of_a_file.size(), "it");
    }
    if (message.starts_with("it text")) message.replace(0, 2, "it is");
    return core::InputError({fmt::format("argument {}", i + 1), 1, static_cast<int>(unfit->at) + 1},
                            message, "Type it again, in plain letters (UTF-8).", args[i]);
  }
  return std::nullopt;
}

// The last door: what a file or a folder's listing brought in is shown by a terminal and not
// obeyed. Our own colours pass.
std::string harmless(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t escape = text.find("\x1b[", at);
    const std::size_t end = escape == std::string_view::npos
                                ? escape
                                : text.find_first_not_of("0123456789;", escape + 2);
    const bool colour = end != std::string_view::npos && text[end] == 'm';
    const std::size_t upto = escape == std::string_view::npos ? text.size()
                             : colour                         ? escape
                                                              : escape + 2;
    out += core::visible(text.substr(at, upto - at));
    at = upto;
    if (!colour) continue;
    out += text.substr(escape, end + 1 - escape);
    at = end + 1;
  }
  return out;
}

// The same for JSON, where a sign inside a text is written "\u001b".
std::string harmless_json(std::string_view text) {
  std::string out;
  while (const auto unfit = core::first_unfit(text)) {
    out += text.substr(0, unfit->at);
    std::string sign = core::visible(text.substr(unfit->at, unfit->size));
    if (sign.starts_with("\\x")) sign.replace(0, 2, "\\u00");
    out += sign;
    text.remove_prefix(unfit->at + unfit->size);
  }
  return out + std::string(text);
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
                  error_json(refusal.reason(), refusal.remedy()));
  } catch (const std::bad_alloc&) {
    const std::string text = "This question needs more memory than there is. " +
                             written_words(before) + " Ask it with fewer oils, or in larger steps.";
    return failed(json, kOurFault, "out-of-memory", text, error_json(text, ""));
  } catch (const std::exception& error) {
    const std::string text = fmt::format(
        "A fault of barwright's, not yours: {}\n{} Please report it "
        "with the files and this line.",
        core::visible(error.what()), written_words(before));
    return failed(json, kOurFault, "fault", text, error_json(text, ""));
  }
}

}  // namespace

Reply run(const std::vector<std::string>& args, const Surroundings& where) {
  const Present scope(where);
  const bool json = std::find(args.begin(), args.end(), "--json") != args.end();
  if (const auto unfit = unfit_argument(args))
    return failed(json, kWrongUsage, "wrong-usage", unfit->what(), error_json(*unfit));
  Reply out = run_line(args, json);
  out.text = json ? harmless_json(out.text) : harmless(out.text);
  out.error = harmless(out.error);
  return out;
}

}  // namespace barwright::app
