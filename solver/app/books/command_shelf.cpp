#include "solver/app/books/command_shelf.hpp"

#include <fmt/format.h>

#include <memory>

#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"
#include "solver/app/books/command_shelf_books.hpp"
#include "solver/app/books/command_shelf_receive.hpp"
#include "solver/app/books/json_shelf.hpp"
#include "solver/app/books/text_shelf.hpp"
#include "solver/app/json.hpp"
#include "solver/app/print/workshop_words.hpp"

namespace barwright::app {
namespace {

using Mode = oils::Books::Mode;

// 'barwright shelf my-shelf.yaml list' names it as '--shelf' does.
std::string one_shelf(const ShelfOptions& options) {
  if (!options.shelf.empty() && options.shelf != options.file)
    throw UsageError{
        fmt::format("Two shelves are named, {} and {}: name one.", options.file, options.shelf)};
  return options.file;
}

Outcome show_week(ShelfOptions options) {
  if (!options.file.empty()) options.shelf = one_shelf(options);
  std::string diagnostics;
  const auto books = open_books(options, Mode::look, diagnostics);
  const Week now = week(books, today(options));
  return {0, options.common.json ? json_week(books, now).dump(2) + "\n" : text_week(books, now),
          diagnostics};
}

Outcome list(const ShelfOptions& options) {
  std::string diagnostics;
  const auto books = open_books(options, Mode::look, diagnostics);
  return {
      0, options.common.json ? json_stock(books).dump(2) + "\n" : text_stock(books, today(options)),
      diagnostics};
}

Outcome reserve(const ShelfOptions& options) {
  const core::Day day = today(options);
  std::string diagnostics;
  auto books = open_books(options, Mode::write, diagnostics);
  if (options.drop) {
    if (!options.oil.empty() || !options.amount.empty())
      throw UsageError{"'--drop' drops all that is reserved for the batch: name no oil."};
    books.unreserve(options.batch, day);
    return recorded(options, "reserve",
                    fmt::format("Nothing is reserved for {} any more.\n", options.batch),
                    diagnostics);
  }
  if (options.oil.empty() || options.amount.empty())
    throw UsageError{
        "Name what and how much: barwright shelf reserve olive \"900 g\" --for "
        "\"spring batch\"."};
  const std::string oil = typed_thing(books.shelf(), options.oil);
  const std::vector<oils::Wanted> wanted{
      {"", oil, typed_amount(books.shelf(), oil, options.amount, "the amount"), 0}};
  const auto shortages = books.shortages(wanted, options.batch);
  books.reserve(options.batch, wanted, day);
  std::string text = fmt::format("Reserved for {}: {} of {}.\n", options.batch,
                                 amount_words(books.shelf(), oil, wanted[0].grams), oil);
  for (const auto& shortage : shortages) text += "! " + shortage_words(shortage) + "\n";
  return recorded(options, "reserve", text, diagnostics,
                  {{"shortages", json_shortages(shortages)}});
}

Json level_json(const oils::Shelf& shelf, const std::string& what, double level) {
  const auto kind = shelf.kind_of(what).value_or(oils::StockKind::oil);
  Json out = {{kind == oils::StockKind::packaging ? "level_pieces" : "level_grams", level}};
  put_what(out, kind, what);
  return out;
}

Outcome reorder(const ShelfOptions& options) {
  const core::Day day = today(options);
  std::string diagnostics;
  auto books = open_books(options, Mode::write, diagnostics);
  const std::string oil = typed_thing(books.shelf(), options.oil);
  const double level = typed_amount(books.shelf(), oil, options.amount, "the level");
  books.set_reorder_level(oil, level, day);
  return recorded(options, "reorder",
                  fmt::format("{}: reorder when less than {} is free.\n", oil,
                              amount_words(books.shelf(), oil, level)),
                  diagnostics, level_json(books.shelf(), oil, level));
}

Outcome trace(const ShelfOptions& options) {
  std::string diagnostics;
  const auto books = open_books(options, Mode::look, diagnostics);
  const auto traces = oils::trace_lot(books.ledger(), options.lot.lot);
  if (!traces.empty()) {
    return {0,
            options.common.json ? json_lot_traces(traces).dump(2) + "\n" : text_lot_traces(traces),
            diagnostics};
  }
  const oils::BatchRecord* batch = nullptr;
  try {
    batch = &oils::need_batch(books.ledger(), options.lot.lot, books.journal_file());
  } catch (const core::InputError&) {
    std::vector<std::string> known = oils::known_lots(books.ledger());
    for (const auto& each : books.ledger().batches) known.push_back(each.id);
    throw core::InputError(
        {books.journal_file(), 0, 0},
        fmt::format("the journal knows no lot and no batch '{}'", options.lot.lot),
        known.empty() ? "Nothing is recorded yet."
                      : oils::yaml::nearest_and_known(options.lot.lot, known));
  }
  const auto lots = oils::trace_batch(books.ledger(), *batch);
  return {0,
          options.common.json ? json_batch_trace(*batch, lots).dump(2) + "\n"
                              : text_batch_trace(*batch, lots),
          diagnostics};
}

Outcome bars(const ShelfOptions& options) {
  const core::Day day = today(options);
  const int asked = (options.in ? 1 : 0) + (options.sold ? 1 : 0) + (options.lost ? 1 : 0);
  if (asked != 1) throw UsageError{"Give one of --in, --sold and --lost, with the number of bars."};
  std::string diagnostics;
  auto books = open_books(options, Mode::write, diagnostics);
  const int count = options.in ? *options.in : options.sold ? *options.sold : *options.lost;
  if (count < 0 || (count == 0 && !options.in))
    throw UsageError{"The number of bars is not above zero."};
  std::optional<core::Cents> paid;
  if (!options.price.empty()) {
    if (!options.sold) throw UsageError{"'--at' is the price of a bar sold."};
    paid = typed_money(options.price, "--at") * count;
  }
  const oils::Event event = options.in     ? oils::Event::bars_in
                            : options.sold ? oils::Event::sold
                                           : oils::Event::lost;
  books.bars(options.batch, event, count, paid, day, options.note);
  const auto& batch = oils::need_batch(books.ledger(), options.batch, books.journal_file());
  const std::string text = fmt::format("{}: {} {}; {} left.\n", batch.id, bars_words(count),
                                       options.in     ? "counted in"
                                       : options.sold ? "sold"
                                                      : "taken out",
                                       batch.bars_left());
  return recorded(options, "bars", text, diagnostics,
                  {{"batch", batch.id}, {"bars_left", batch.bars_left()}});
}

using Run = Outcome (*)(const ShelfOptions&);

Command add(Command parent, const char* name, const char* help,
            const std::shared_ptr<ShelfOptions>& options, Action& action, Run run) {
  Command command = parent.add_command(name, help);
  add_books(command, *options);
  command.on_chosen([options, &action, run] {
    action = [options, run] {
      if (!options->file.empty()) options->shelf = one_shelf(*options);
      const core::ShownIn shown(units_of(options->common, options->shelf));
      return with_words(run(*options), options->common.json, shelf_words(options->shelf));
    };
  });
  return command;
}

}  // namespace

void add_shelf(Command app, Action& action) {
  auto options = std::make_shared<ShelfOptions>();
  Command shelf = app.add_command(
      "shelf", "The week at a glance: what to use up, to reorder, on hold, ready; and the stock");
  shelf.value("file", options->file, "The shelf, a YAML file");
  shelf.commands_optional();
  add_books(shelf, *options);
  shelf.footer(
      "Worked example: a lot comes in, and then the week.\n"
      "  barwright shelf receive olive \"5 kg\" --paid \"34.50 for 5 kg\" --supplier Millbank \\\n"
      "      --lot M-78 --best-before 2028-06-30\n"
      "  barwright shelf receive \"sodium hydroxide\" \"5 kg\" --purity \"99 %\" --lot N-12\n"
      "  barwright shelf\n"
      "adds the lot to the shelf file and a line to the journal beside it, and shows what to use\n"
      "up, to reorder, to test and to sell.");
  shelf.on_chosen([options, &action] {
    action = [options] {
      const core::ShownIn shown(
          units_of(options->common, options->file.empty() ? options->shelf : options->file));
      return with_words(show_week(*options), options->common.json,
                        shelf_words(options->file + options->shelf));
    };
  });

  add(shelf, "list", "Every lot, in the order to use them up", options, action, list);

  Command command =
      add(shelf, "receive", "A lot comes in, or a whole list of lots", options, action, receive);
  command.value("oil", options->oil,
                "The oil, as the library knows it; or an alkali, a scent, a colour ...");
  command.value("amount", options->amount, "\"5 kg\", \"2 x 5 L\"; packaging: 200");
  command.value("--as", options->as, "What it is, where the name alone does not say")
      .one_of(oils::stock_kind_words());
  command.value("--purity", options->lot.purity,
                "An alkali's, as its label has it: \"99 %\", or \"stated: 90 %, most: 91 %\"");
  command.value("--from", options->from,
                "Instead: a delivery note or stock sheet (CSV), one lot a row; the shelf's "
                "'lists:' say how its columns are headed");
  command.value("--shipping", options->shipping,
                "With --from: what it cost to bring, spread over the lots");
  command.value("--tax", options->tax, "With --from: tax that is one sum on the bill, spread");
  command
      .value("--spread", options->spread,
             "By weight or by value (shipping goes by weight unless stated, tax by value)")
      .one_of({"weight", "value"});
  command.flag("--skip-wrong-rows", options->skip_wrong_rows,
               "With --from: leave rows out that cannot be read; each is named");
  command.value("--paid", options->lot.paid, "\"34.50 for 5 kg\"");
  command.value("--supplier", options->lot.supplier, "Who it came from");
  command.value("--lot", options->lot.lot, "The supplier's lot number");
  command.value("--best-before", options->lot.best_before, "yyyy-mm-dd");
  command.value("--note", options->lot.note, "Anything to remember");
  command.value("--certificate", options->lot.certificate,
                "\"ref: CA-17, saponification-value: 188.4 mg KOH/g\"");

  command = add(shelf, "reserve", "Keep what a planned batch takes, or give it free again", options,
                action, reserve);
  command.value("oil", options->oil, "The oil, or what else");
  command.value("amount", options->amount, "\"900 g\"");
  command.value("--for", options->batch, "The planned batch").required();
  command.flag("--drop", options->drop, "Nothing is reserved for it any more");

  command = add(shelf, "reorder", "Set the level at which something is to be ordered", options,
                action, reorder);
  command.value("oil", options->oil, "The oil, or what else").required();
  command.value("level", options->amount, "\"2 kg\"; packaging: 50").required();

  command = add(shelf, "trace", "From a lot to its batches, or from a batch to its lots", options,
                action, trace);
  command.value("lot", options->lot.lot, "A lot number or a batch").required();

  command =
      add(shelf, "bars", "Count finished bars in, sell them, take them out", options, action, bars);
  command.value("batch", options->batch, "The batch").required();
  command.value("--in", options->in, "How many are there: counted");
  command.value("--sold", options->sold, "How many were sold");
  command.value("--at", options->price, "At what price each: 6.50");
  command.value("--lost", options->lost, "How many were given away, broken, kept");
  command.value("--note", options->note, "Anything to remember");
}

}  // namespace barwright::app
