#include "solver/app/oils/command_new.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "solver/app/blend/json_blend.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/embedded.hpp"
#include "solver/app/json.hpp"
#include "solver/app/output_file.hpp"
#include "solver/app/print/screen.hpp"

namespace barwright::app {
namespace {

namespace fs = std::filesystem;

// Which of the examples make up a starter folder, and under which names.
struct Starter {
  std::string_view example;
  std::string_view what;
};
constexpr Starter kStarters[] = {
    {"weighbridge-shelf.yaml", "what is on the shelf: put your own oils here"},
    {"workshop.yaml", "what the files here need not say again: scale, units, moulds"},
    {"yard-bar.yaml", "a recipe: put the bar you make now here"},
    {"firmer-bar.yaml", "a brief: what the new bar should be"},
    {"sure-bar.yaml", "the same, kept for 95 lots in 100"},
    {"yard-notes.yaml", "notes on bars poured: put what your hands say here"},
    {"spring-line.yaml", "a brief: what to buy for a new line of bars"},
    {"spring-line-prices.csv", "a supplier's price list, as it came"},
    {"butter-out.yaml", "a brief: a costly butter out, the feel stays"},
    {"fireside-bar.yaml", "the recipe it changes"},
    {"butter-out-stock.yaml", "the oils it may use, with prices"},
    {"too-hard.yaml", "a brief that cannot be kept: what is said then"},
    {"towpath-batch.yaml", "a batch of two parts, for the bench sheet"},
    {"towpath-label.yaml", "what its label says beside the oils"},
    {"yard-costs.yaml", "what it costs beside its oils, for its price"},
};

std::string_view example(std::string_view name) {
  const auto files = embedded_files();
  const auto found =
      std::find_if(files.begin(), files.end(), [&](const auto& file) { return file.name == name; });
  if (found == files.end()) throw std::logic_error("example not embedded: " + std::string(name));
  return found->text;
}

Outcome make_folder(const std::string& folder, bool json) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) throw UsageError{fmt::format("'{}' cannot be made: {}", folder, error.message())};
  for (const auto& starter : kStarters) {  // all or none
    const fs::path path = fs::path(folder) / starter.example;
    if (fs::exists(path)) {
      throw UsageError{fmt::format(
          "'{}' is there already; nothing was written. Choose another folder.", path.string())};
    }
  }
  Json files = Json::array();
  std::vector<std::vector<std::string>> rows;
  for (const auto& starter : kStarters) {
    const std::string path = (fs::path(folder) / starter.example).string();
    try {
      write_output({path, {}}, std::string(example(starter.example)));
    } catch (...) {
      for (const auto& row : rows) fs::remove(row[0], error);  // all or none
      throw;
    }
    files.push_back(path);
    rows.push_back({path, std::string(starter.what)});
  }
  if (json) {
    const Json object = {
        {"schema", kJsonSchema}, {"command", "new"}, {"status", "written"}, {"files", files}};
    return {0, object.dump(2) + "\n", {}};
  }
  Screen screen(colour_wanted());
  screen.title("A starter folder, from an invented workshop");
  screen.table("ll", rows);
  screen.heading("NEXT");
  constexpr std::pair<const char*, const char*> kTry[] = {
      {"blend", "firmer-bar.yaml"}, {"swap", "butter-out.yaml"}, {"explore", "spring-line.yaml"}};
  for (const auto& [command, file] : kTry) {
    screen.sentence(fmt::format("barwright {} {}", command, (fs::path(folder) / file).string()));
  }
  screen.sentence("Then open the files in any editor: each says what its lines mean.");
  return {0, screen.text(), {}};
}

}  // namespace

void add_new(Command app, Action& action) {
  auto common = std::make_shared<CommonOptions>();
  auto folder = std::make_shared<std::string>();
  Command command = app.add_command(
      "new", "Write a commented starter folder: shelf, recipes, briefs and a price list");
  command.value("folder", *folder, "The folder to write into; made if it is not there").required();
  add_common(command, *common);
  command.footer(
      "Worked example:\n  barwright new my-workshop\n  barwright blend "
      "my-workshop/firmer-bar.yaml\n"
      "Files that are there already are never overwritten.");
  command.on_chosen([=, &action] { action = [=] { return make_folder(*folder, common->json); }; });
}

}  // namespace barwright::app
