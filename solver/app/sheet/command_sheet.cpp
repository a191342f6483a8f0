#include "solver/app/sheet/command_sheet.hpp"

#include <filesystem>
#include <memory>

#include "oils/files/safe_file.hpp"
#include "oils/files/safe_file_posix.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/output_file.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/app/sheet/json_sheet.hpp"
#include "solver/app/sheet/page_sheet.hpp"
#include "solver/app/sheet/sheet_job.hpp"
#include "solver/app/sheet/sheet_lines.hpp"
#include "solver/app/sheet/text_sheet.hpp"

namespace barwright::app {
namespace {

struct SheetOptions {
  CommonOptions common;
  std::string batch;
  std::string page;
};

/// The number of the sheet a page holds; empty where there is no page, or one without.
std::string sheet_of_page(const std::string& path) {
  if (!std::filesystem::is_regular_file(path)) return {};
  const std::string text = oils::real_files().read(path).value_or("");
  const std::string sign = "data-sheet=\"";
  const auto at = text.find(sign);
  if (at == std::string::npos) return {};
  const auto from = at + sign.size();
  return text.substr(from, text.find('"', from) - from);
}

std::string written_words(const std::string& path, const std::string& before,
                          const std::string& now) {
  std::string out = "Page written to " + path + "\n";
  if (!before.empty() && before != now) {
    out += "The recipe changed since sheet " + before + ", which stood there, to sheet " + now +
           ": finish a batch by the sheet it was begun with\n";
  }
  return out;
}

}  // namespace

void add_sheet(Command app, Action& action) {
  auto options = std::make_shared<SheetOptions>();
  Command command =
      app.add_command("sheet", "The bench sheet of a batch: order of work, weights, cautions");
  command.value("batch", options->batch, "The batch, a YAML file").required();
  command.value("--page", options->page,
                "Also write the sheet as one HTML page to print, or to tick on a tablet");
  add_common(command, options->common);
  add_units(command, options->common);
  command.footer(
      "Worked example: a body in two colours under a piped topping.\n"
      "  barwright sheet my-workshop/towpath-batch.yaml --page towpath.html\n"
      "prints what must start first, every weight with running totals, and the cautions;\n"
      "open towpath.html in a browser and print it on A4 or Letter.");
  command.on_chosen([options, &action] {
    action = [options] {
      const OutputFile page{options->page, kPageMark};
      check_outputs({page});
      const core::ShownIn shown(units_of(options->common, options->batch));
      const auto plan = load_batch(options->batch, options->common);
      const auto times = batch::times_of(plan);
      Sheet sheet = sheet_of(plan, times);
      std::string before, json;
      if (options->common.json || !options->page.empty()) json = json_sheet(plan, times);
      if (!options->page.empty()) {
        sheet.mark = oils::mark_of(json).substr(0, 8);
        before = sheet_of_page(options->page);
        write_output(page, page_sheet(sheet));
      }
      return Outcome{0, options->common.json ? json : text_sheet(sheet, colour_wanted()),
                     options->page.empty() ? "" : written_words(options->page, before, sheet.mark)};
    };
  });
}

}  // namespace barwright::app
