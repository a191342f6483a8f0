#include "solver/app/sheet/command_sheet.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "oils/books/stock.hpp"
#include "oils/files/safe_file.hpp"
#include "oils/files/safe_file_posix.hpp"
#include "solver/app/common_options.hpp"
#include "solver/app/library.hpp"
#include "solver/app/output_file.hpp"
#include "solver/app/print/screen.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/app/sheet/json_sheet.hpp"
#include "solver/app/sheet/page_sheet.hpp"
#include "solver/app/sheet/sheet_job.hpp"
#include "solver/app/sheet/sheet_lines.hpp"
#include "solver/app/sheet/sheet_mark.hpp"
#include "solver/app/sheet/text_sheet.hpp"
#include "solver/books/make_plan.hpp"

namespace barwright::app {
namespace {

struct SheetOptions {
  CommonOptions common;
  std::string batch;
  std::string page;
};

/// The mark of the recipe of a page's sheet; empty where there is no page, or one without.
std::string mark_of_page(const std::string& path) {
  if (!std::filesystem::is_regular_file(path)) return {};
  const std::string text = oils::real_files().read(path).value_or("");
  const std::string sign = "data-sheet=\"";
  const auto at = text.find(sign);
  if (at == std::string::npos) return {};
  const auto from = at + sign.size();
  return text.substr(from, text.find('"', from) - from);
}

/// What the books say of this sheet: its number, or why it has none, and whether one was given out
/// before the recipe changed. `give`: it is printed or ticked, so it takes a number.
void number_it(Sheet& sheet, const SheetOptions& options, bool give) {
  const auto shelf = books::shelf_named_in(options.batch);
  if (!shelf) {
    sheet.number = "no running number: the file names no shelf whose books would count";
    return;
  }
  const std::string file = std::filesystem::path(options.batch).filename().string();
  try {
    auto books = oils::Books::open(*shelf, load_library(options.common),
                                   give ? oils::Books::Mode::write : oils::Books::Mode::look);
    const oils::SheetGiven* open = books.ledger().open_sheet(file);
    if (open != nullptr && open->mark != sheet.mark)
      sheet.changed = fmt::format(
          "The recipe changed since sheet {} ({}) was given out on {}: it is {} now. Finish a "
          "batch by the sheet it was begun with.",
          open->number, open->mark, core::text(open->date), sheet.mark);
    const bool same = open != nullptr && open->mark == sheet.mark;
    if (give) {
      sheet.number = fmt::format(
          "sheet {}", books.give_sheet(sheet.title, file, sheet.mark, core::system_day()));
    } else {
      sheet.number = same ? fmt::format("sheet {}", open->number)
                          : "no running number yet: '--page' gives it one";
    }
  } catch (const oils::FileError&) {
    sheet.number = "no running number: the books cannot be opened just now";
  }
}

std::string written_words(const std::string& path, const Sheet& sheet, const std::string& before) {
  std::string out = "Page written to " + path + ": " + sheet.number + "\n";
  if (!sheet.changed.empty()) {
    out += sheet.changed + "\n";
  } else if (!before.empty() && before != sheet.mark) {
    out += "The recipe changed since sheet " + before + ", which stood there, to " + sheet.mark +
           ": finish a batch by the sheet it was begun with\n";
  }
  return out;
}

}  // namespace

void add_sheet(Command app, Action& action) {
  auto options = std::make_shared<SheetOptions>();
  Command command =
      app.add_command("sheet", "The bench sheet of a batch: order of work, weights, cautions");
  command.value("batch", options->batch, "The batch, or a plain recipe: a YAML file").required();
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
      const bool to_page = !options->page.empty();
      std::string before;
      sheet.mark = sheet_mark(plan, times);
      sheet.file = std::filesystem::path(options->batch).filename().string();
      if (to_page || !options->common.json) number_it(sheet, *options, to_page);
      if (to_page) {
        before = mark_of_page(options->page);
        write_output(page, page_sheet(sheet));
      }
      return Outcome{
          0, options->common.json ? json_sheet(plan, times) : text_sheet(sheet, colour_wanted()),
          to_page ? written_words(options->page, sheet, before) : ""};
    };
  });
}

}  // namespace barwright::app
