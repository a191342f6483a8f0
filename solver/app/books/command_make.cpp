#include "solver/app/books/command_make.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <map>
#include <memory>

#include "core/bench/release.hpp"
#include "core/units/format.hpp"
#include "core/units/number_text.hpp"
#include "oils/text/yaml.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/books/json_shelf.hpp"
#include "solver/app/books/making.hpp"
#include "solver/app/books/text_make.hpp"
#include "solver/app/books/typed_sheet.hpp"
#include "solver/app/json.hpp"
#include "solver/app/print/workshop_words.hpp"
#include "solver/books/jars.hpp"
#include "solver/books/make_plan.hpp"

namespace barwright::app {
namespace {

using Mode = oils::Books::Mode;

struct MakeOptions : BooksOptions {
  std::string file, as;
  TypedOptions typed;
  std::vector<std::string> packed_in;
  int bars = 0;
  bool plan = false, undo = false;
};

oils::Defect typed_defect(const std::string& text) {
  const std::size_t at = text.rfind(':');
  if (at == std::string::npos) return {text, 0};
  int bars = 0;
  std::string number = text.substr(at + 1);
  number.erase(0, number.find_first_not_of(' '));
  const auto read = std::from_chars(number.data(), number.data() + number.size(), bars);
  const std::string rest = number.substr(static_cast<std::size_t>(read.ptr - number.data()));
  if (read.ec != std::errc() || bars < 0 || (!rest.empty() && rest != " bars" && rest != " bar"))
    return {text, 0};
  return {text.substr(0, at), bars};
}

std::string batch_id(const MakeOptions& options, const books::MakePlan& plan,
                     const core::Day& day) {
  if (!options.as.empty()) return oils::batch_word(options.as);
  const std::string name =
      plan.name.empty() ? std::filesystem::path(plan.file).stem().string() : plan.name;
  return fmt::format("{}-{}", oils::batch_word(name), core::text(day));
}

/// Packaging of the bars: as typed, "none" or "kraft box=1", else as the plan has it.
std::vector<std::pair<std::string, double>> packed_in(const MakeOptions& options,
                                                      const books::MakePlan& plan) {
  if (options.packed_in.empty()) return plan.packed_in;
  std::vector<std::pair<std::string, double>> out;
  for (const auto& text : options.packed_in) {
    if (text == "none") continue;
    const std::size_t at = text.rfind('=');
    double pieces = 1;
    if (at != std::string::npos) {
      const auto read = core::read_number(text.data() + at + 1, text.data() + text.size(), pieces);
      if (read.ec != std::errc() || read.ptr != text.data() + text.size() || !(pieces > 0) ||
          pieces > 1000)
        throw UsageError{fmt::format(
            "--packed-in: '{}' does not say how many a bar: write \"kraft box=1\".", text)};
    }
    out.emplace_back(text.substr(0, at), pieces);
  }
  return out;
}

Outcome undo(const MakeOptions& options) {
  std::string diagnostics;
  const core::Day day = today(options);
  std::error_code ignored;
  std::string batch = options.as;
  std::string shelf;
  if (batch.empty()) {
    batch = options.file;
    if (std::filesystem::is_regular_file(options.file, ignored)) {
      const auto named = books::shelf_named_in(options.file);
      shelf = named.value_or("");
      const auto document = oils::yaml::Document::from_file(options.file);
      for (const char* key : {"batch", "recipe", "name"}) {
        if (const auto name = document.root().get(key)) {
          batch = name->text();
          break;
        }
      }
    }
  }
  auto books = open_books(options, Mode::write, diagnostics, shelf);
  const std::string id = oils::need_batch(books.ledger(), batch, books.journal_file()).id;
  std::string note;
  for (const auto& each : options.typed.notes) note += (note.empty() ? "" : "; ") + each;
  books.undo(id, day, note);
  if (options.common.json) {
    auto object = json_head("make", "undone");
    object["batch"] = id;
    return {0, object.dump(2) + "\n", diagnostics};
  }
  return {0,
          fmt::format("Undone: {}. What it drew is back on the shelf; the journal keeps both "
                      "lines.\n",
                      id),
          diagnostics};
}

Outcome plan_only(const MakeOptions& options, oils::Books& books, const books::MakePlan& plan,
                  const core::Day& day, const std::string& diagnostics) {
  const std::string name = !options.as.empty() ? options.as
                           : plan.name.empty() ? plan.file
                                               : plan.name;
  auto wanted = wanted_of(plan, books.shelf());
  std::vector<std::string> remarks;
  plan_packaging(wanted, plan, books.shelf(), remarks);
  const auto shortages = books.shortages(wanted, name);
  books.reserve(name, wanted, day);
  if (options.common.json) {
    auto object = json_head("make", "planned");
    object["batch"] = name;
    object["remarks"] = remarks;
    object["shortages"] = json_shortages(shortages);
    return {0, object.dump(2) + "\n", diagnostics};
  }
  return {0, text_planned(name, wanted, shortages, books.shelf(), remarks), diagnostics};
}

std::string json_made(const MakeReport& report, const oils::Shelf& before) {
  auto object = json_head("make", "recorded");
  const oils::Making& making = report.making;
  object["batch"] = making.id;
  object["made"] = core::text(making.date);
  object["ready"] = core::text(making.ready);
  object["bars"] = making.bars;
  object["hold"] = "on hold";
  object["cured_bar_grams"] = report.bar_grams;
  object["drawn"] = Json::array();
  for (const auto& draw : report.drawn) {
    const oils::Lot& lot = before.lots[draw.lot];
    Json line = {{"part", making.wanted[draw.wanted].part}, {"lot", lot.lot}};
    put_what(line, lot.kind, lot.oil);
    put_amount(line, lot.kind, draw.grams);
    object["drawn"].push_back(line);
  }
  object["lye_heavy"] = Json::array();
  for (const auto& [part, why] : making.lye_heavy)
    object["lye_heavy"].push_back({{"part", part}, {"why", why}});
  object["held"] = Json::array();
  for (const auto& [part, why] : making.held)
    object["held"].push_back({{"part", part}, {"why", why}});
  object["notes"] = making.notes;
  object["changed"] = report.changed.empty() ? Json() : Json(report.changed);
  object["remarks"] = report.remarks;
  object["shortages"] = json_shortages(report.shortages);
  return object.dump(2) + "\n";
}

// An option that would change nothing was meant to change something.
void check_effect(const MakeOptions& options) {
  if (options.undo && options.plan)
    throw UsageError{
        "--undo takes back what was made; a plan is dropped with 'barwright shelf "
        "reserve --for NAME --drop'."};
  if (!options.undo && !options.plan) return;
  const bool told = !options.typed.written.empty() || !options.typed.weighed.empty() ||
                    !options.typed.lots.empty() || !options.typed.steps.empty() ||
                    !options.typed.happened.empty() || !options.typed.defects.empty() ||
                    !options.packed_in.empty();
  if (!told && !(options.plan && !options.typed.notes.empty()) &&
      !(options.undo && options.bars > 0))
    return;
  throw UsageError{
      options.undo ? "--undo takes the whole record back: it goes with --as and --note alone."
                   : "--plan only reserves what it takes: what was weighed, taken and seen is told "
                     "once it is made."};
}

Outcome make(const MakeOptions& options) {
  check_effect(options);
  if (options.undo) return undo(options);
  std::string diagnostics;
  const books::Written written = typed_sheet(options.typed);
  const core::Day day = options.date.empty() && written.date ? *written.date : today(options);
  auto books = open_books(options, Mode::write, diagnostics,
                          books::shelf_named_in(options.file).value_or(""));
  const oils::Shelf before = books.shelf();
  const books::MakePlan asked = books::make_plan(options.file, before.library, &before,
                                                 options.bars > 0 ? options.bars : written.bars);
  if (options.plan) return plan_only(options, books, asked, day, diagnostics);
  if (asked.bars < 1)
    throw UsageError{"The file does not say how many bars: give '--bars', as you cut them."};
  books::MakePlan typed = asked;
  take_weights(typed, written.weighed, before.library);

  MakeReport report;
  oils::Making& making = report.making;
  making.id = batch_id(options, asked, day);
  making.file = std::filesystem::path(asked.file).filename().string();
  making.date = day;
  making.ready = core::ready_day(day, asked.cure_hours);
  making.bars = asked.bars;
  const auto lots = take_lots(asked, written.lots, before, making.notes);
  for (const auto& [what, lot] : lots) {
    const std::string name = what.substr(what.find('/') + 1);
    if (before.library.find(name) != nullptr || before.kind_of(name)) making.lots[what] = lot;
  }
  report.remarks = books::reckon_jars(typed, before, lots);
  fill_making(making, asked, typed, before, lots, report.remarks);
  take_packaging(making, before, packed_in(options, asked), report.remarks);
  for (const auto& text : written.defects) making.defects.push_back(typed_defect(text));
  const BySheet sheet = by_sheet(written, asked, books);
  report.changed = sheet.changed;
  if (!sheet.note.empty()) making.notes.push_back(sheet.note);
  for (auto& note : written_notes(written, asked, books)) making.notes.push_back(std::move(note));
  making.notes.insert(making.notes.end(), written.notes.begin(), written.notes.end());
  report.drawn = books.make(making);
  for (const auto& draw : report.drawn) {
    const oils::Lot& lot = before.lots[draw.lot];
    if (!lot.best_before.empty() && lot.best_before < core::text(day))
      report.remarks.push_back(fmt::format("{} is past its best-before ({}): smell it.",
                                           oils::lot_words(lot.oil, lot.lot), lot.best_before));
    if (lot.lot.empty() && lot.kind != oils::StockKind::packaging)
      report.remarks.push_back(
          fmt::format("The {} has no lot number and cannot be traced.", lot.oil));
  }
  tell_levels(books, making.wanted, report.remarks);
  std::vector<std::string> once;
  for (auto& remark : report.remarks) {
    if (std::find(once.begin(), once.end(), remark) == once.end())
      once.push_back(std::move(remark));
  }
  report.remarks = std::move(once);
  report.shortages = books.shortages();
  report.bar_grams = core::cured_bar_grams(making.parts, making.bars);
  return {0, options.common.json ? json_made(report, before) : text_made(report, before),
          diagnostics};
}

}  // namespace

void add_make(Command app, Action& action) {
  auto options = std::make_shared<MakeOptions>();
  Command command =
      app.add_command("make", "Record a batch: lots used, weights, notes; draws the shelf down");
  command.value("file", options->file, "The recipe or batch; with --undo the batch's name")
      .required();
  command.value("--as", options->as, "Its name; without it the file's, and the day");
  command.values("--weighed", options->typed.weighed,
                 "A weight that came out otherwise: \"olive=1212 g\", \"topping/water=40 g\"");
  command.values("--lot", options->typed.lots, "The lot taken: \"olive=M-77\"");
  command.values("--step", options->typed.steps, "Beside a step of the sheet: \"7=9:55, 60 C\"");
  command.values(
      "--happened", options->typed.happened,
      "A box of the sheet: \"trace=10:35, 35 C\", \"topping/gel=all\", \"each=96 g\"; also "
      "poured, unmould, cut");
  command.value("--written", options->typed.written,
                "A file of all this, as the page of a sheet saves it");
  command.values("--note", options->typed.notes, "Anything to remember");
  command.values("--defect", options->typed.defects, "\"soda ash\", \"cracked: 3 bars\"");
  command.values(
      "--packed-in", options->packed_in,
      "Packaging a bar takes: \"kraft box=1\", or none; without it as the workshop's file "
      "says");
  command.value("--bars", options->bars, "Bars as cut").above_zero();
  command.flag("--plan", options->plan, "Not made yet: only reserve what it takes");
  command.flag("--undo", options->undo, "Take a record back");
  add_books(command, *options);
  command.footer(
      "Worked example: the bar that was made today, a little more olive than the sheet says.\n"
      "  barwright make my-workshop/yard-bar.yaml --bars 36 --weighed \"olive=1512 g\" \\\n"
      "      --lot \"coconut=MB-2304\" --note \"room was cold\"\n"
      "draws the shelf down, best before first, then the oldest; the batch is on hold until\n"
      "'barwright release' has a test of every part.");
  command.on_chosen([options, &action] {
    action = [options] {
      const core::ShownIn shown(units_of(options->common, options->file));
      return with_workshop(make(*options), options->common, options->file);
    };
  });
}

}  // namespace barwright::app
