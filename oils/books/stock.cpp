#include "oils/books/stock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <set>

#include "core/units/quantity.hpp"
#include "oils/books/shelf_reader.hpp"
#include "oils/files/safe_file_posix.hpp"
#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::oils {
namespace {

namespace fs = std::filesystem;

std::string beside(const std::string& shelf_path, const char* before, const char* after) {
  const fs::path path(shelf_path);
  return (path.parent_path() / (before + path.stem().string() + after)).string();
}

// A shelf renamed while an entry of it waits to be completed would lose that entry.
void check_notes(const std::string& shelf_path) {
  constexpr std::string_view kEnd = "-unfinished";
  const fs::path folder = folder_of(shelf_path);
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(folder, none)) {
    const std::string name = entry.path().filename().string();
    if (!name.starts_with('.') || !name.ends_with(kEnd) || name == ".workbench-unfinished")
      continue;
    const std::string stem = name.substr(1, name.size() - 1 - kEnd.size());
    if (fs::exists(folder / (stem + ".yaml"), none) || fs::exists(folder / (stem + ".yml"), none))
      continue;
    throw core::InputError(
        {entry.path().string(), 0, 0},
        fmt::format("an entry of the shelf {}.yaml was cut off half way, and that shelf is no "
                    "longer here",
                    stem),
        fmt::format("Nothing was written. Call the shelf and its journal {0}.yaml and "
                    "{0}-journal.csv again and run the command: it completes the entry first. Then "
                    "rename both.",
                    stem));
  }
}

void put_amount(Entry& line, StockKind kind, double amount) {
  if (kind == StockKind::packaging)
    line.bars = static_cast<int>(std::lround(amount));
  else
    line.grams = amount;
}

void check_day(const core::Day& day) {
  if (core::is_plausible(day)) return;
  throw core::InputError({},
                         fmt::format("{} lies outside the years {} to {}", core::text(day),
                                     core::kFirstYear, core::kLastYear),
                         "Correct the year.");
}

}  // namespace

std::string journal_path(const std::string& shelf_path) {
  return beside(shelf_path, "", "-journal.csv");
}
std::string note_path(const std::string& shelf_path) {
  return beside(shelf_path, ".", "-unfinished");
}
std::string lock_path(const std::string& shelf_path) { return beside(shelf_path, ".", "-lock"); }

Books::Books(FileOps& files, const std::string& shelf_path)
    : files_(&files), shelf_path_(shelf_path), writer_(files, note_path(shelf_path)) {}

Books Books::open(const std::string& named, const Library& library, Mode mode,
                  std::chrono::milliseconds patience) {
  // The shelf that a link leads to is the shelf: one lock, one journal, whatever it is called by.
  const std::string shelf_path = followed(named);
  std::error_code ignored;
  if (!fs::is_regular_file(shelf_path, ignored))
    throw core::InputError({shelf_path, 0, 0}, "there is no such shelf file",
                           "Name it ('--shelf FILE'), or begin one: 'barwright new DIR' writes an "
                           "example.");
  FileLock lock(lock_path(shelf_path),
                mode == Mode::write ? FileLock::Kind::exclusive : FileLock::Kind::shared, patience,
                shelf_path);
  check_notes(shelf_path);
  if (mode == Mode::write) {  // what a program that was ended half way left lying
    for (const auto& path : {shelf_path, journal_path(shelf_path), note_path(shelf_path)})
      real_files().remove(temporary_of(followed(path)));
  }
  Books out = open_with(real_files(), shelf_path, library, mode);
  if (mode == Mode::write) out.lock_.emplace(std::move(lock));
  return out;
}

Books Books::open_with(FileOps& files, const std::string& shelf_path, const Library& library,
                       Mode mode) {
  Books out(files, shelf_path);
  out.writing_ = mode == Mode::write;
  if (out.writing_) out.recovered_ = out.writer_.recover();
  out.read(library);
  return out;
}

void Books::read(const Library& library) {
  const auto text = writer_.read(shelf_path_);
  if (!text)
    throw core::InputError({shelf_path_, 0, 0}, "there is no such shelf file",
                           "Name it with '--shelf FILE'.");
  shelf_text_ = *text;
  shelf_ = read_shelf_text(shelf_text_, shelf_path_, fs::path(shelf_path_).parent_path().string(),
                           library);
  check_days(shelf_text_, shelf_);
  if (writing_) check_lots_apart(shelf_text_, shelf_);
  journal_text_ = writer_.read(journal_path(shelf_path_));
  journal_ = read_journal(journal_text_.value_or(""), journal_path(shelf_path_));
  ledger_ = ledger_of(journal_);
}

void Books::record(std::span<const Entry> entries, const std::string& shelf_text) {
  for (const Entry& each : entries) {
    check_day(each.date);
    if (each.until) check_day(*each.until);
  }
  const std::string text = appended(journal_, entries);
  // What is about to be written must read back: nothing goes to disk that could not be opened.
  Journal after = read_journal(text, journal_.file);
  Ledger ledger = ledger_of(after);
  Shelf shelf = read_shelf_text(shelf_text, shelf_path_,
                                fs::path(shelf_path_).parent_path().string(), shelf_.library);
  try {
    // The journal goes first: a lone journal line is told by the note, a lone shelf line is not.
    writer_.commit({{journal_.file, journal_text_, text}, {shelf_path_, shelf_text_, shelf_text}});
  } catch (FileError& error) {
    error.add_context(
        error.after_commit
            ? "The entry is on record; it is completed the next time a command writes "
              "in these books."
            : "Nothing was recorded: the books are as they were.");
    throw;
  }
  journal_ = std::move(after);
  journal_text_ = text;
  ledger_ = std::move(ledger);
  shelf_text_ = shelf_text;
  shelf_ = std::move(shelf);
}

Shelf Books::free_shelf(std::string_view but) const {
  Shelf out = shelf_;
  for (const Holding& holding : shelf_.holdings()) {
    double open = ledger_.reserved_grams(holding.oil, but);
    for (const std::size_t i : holding.lots) {
      Lot& lot = out.lots[i];
      const double take = std::min(open, lot.grams - lot.keep_grams);
      lot.keep_grams += take;
      open -= take;
    }
  }
  return out;
}

std::vector<Shortage> Books::shortages(std::span<const Wanted> wanted,
                                       const std::string& id) const {
  std::map<std::string, double> own;
  for (const Wanted& each : wanted) own[each.oil] += each.grams;
  std::set<std::string> names;
  for (const auto& [oil, grams] : own) names.insert(oil);
  if (wanted.empty()) {
    for (const Reservation& each : ledger_.reserved) {
      for (const auto& [oil, grams] : each.grams) names.insert(oil);
    }
  }
  std::vector<Shortage> out;
  for (const std::string& oil : names) {
    Shortage shortage;
    shortage.oil = oil;
    shortage.kind = shelf_.kind_of(oil).value_or(StockKind::oil);
    shortage.there = shelf_.usable_grams(oil);
    shortage.reserved = ledger_.reserved_grams(oil, id);
    shortage.wanted = own.contains(oil) ? own[oil] : 0;
    if (shortage.reserved + shortage.wanted <= shortage.there + 0.005) continue;
    for (const Reservation& each : ledger_.reserved) {
      if (each.batch != id && each.grams.contains(oil)) shortage.batches.push_back(each.batch);
    }
    out.push_back(std::move(shortage));
  }
  return out;
}

void Books::receive(const Arrival& arrival) { receive(std::span(&arrival, 1)); }

void Books::receive(std::span<const Arrival> arrivals) {
  std::map<std::pair<std::string, std::string>, core::Place> there;
  for (const Lot& lot : shelf_.lots) there.emplace(std::pair(lot.oil, lot.lot), lot.place);
  std::vector<NewLot> lots;
  for (const Arrival& arrival : arrivals) {
    const NewLot& lot = arrival.lot;
    const auto [other, fresh] = there.emplace(std::pair(lot.oil, lot.lot), core::Place());
    if (!fresh)
      throw core::InputError(
          other->second, fmt::format("{} is on the shelf already", lot_words(lot.oil, lot.lot)),
          lot.lot.empty()
              ? "Give the new one its lot number ('--lot'): the journal must tell them apart."
              : fmt::format("A second pail of it: '--lot {}/2'. Counted again: correct 'have'.",
                            lot.lot));
    lots.push_back(lot);
  }
  auto [text, shelf] = with_lots(shelf_text_, shelf_, lots);
  std::vector<Entry> lines;
  for (std::size_t i = 0; i < arrivals.size(); ++i) {
    const Lot& lot = shelf.lots[shelf_.lots.size() + i];
    Entry line = entry_of(arrivals[i].date, Event::received);
    line.what = lot.oil;
    line.lot = lot.lot;
    put_amount(line, lot.kind, lot.grams);
    if (lot.price_per_kg) line.money = core::cents(*lot.price_per_kg * lot.grams / 1000);
    if (!lot.best_before.empty()) line.until = core::find_day(lot.best_before);
    line.note = lot.supplier;
    lines.push_back(std::move(line));
  }
  record(lines, text);
}

int Books::give_sheet(const std::string& batch, const std::string& file, const std::string& mark,
                      const core::Day& date) {
  if (const SheetGiven* open = ledger_.open_sheet(file); open != nullptr && open->mark == mark)
    return open->number;
  Entry line = entry_of(date, Event::sheet, batch);
  line.what = mark;
  line.bars = ledger_.sheets.empty() ? 1 : ledger_.sheets.back().number + 1;
  line.note = file;
  record(std::vector{line}, shelf_text_);
  return *line.bars;
}

void Books::reserve(const std::string& batch, std::span<const Wanted> wanted,
                    const core::Day& date) {
  if (const BatchRecord* made = ledger_.find(batch))
    throw core::InputError({journal_.file, made->place.line, 0},
                           fmt::format("batch '{}' is made already", batch),
                           "Plan under another name.");
  for (const Reservation& each : ledger_.reserved) {
    for (const Wanted& want : wanted) {
      if (each.batch == batch && each.grams.contains(want.oil))
        throw core::InputError(
            {journal_.file, each.place.line, 0},
            fmt::format("{} g of {} are reserved for '{}' already",
                        written_grams(each.grams.at(want.oil)), want.oil, batch),
            fmt::format("Drop that first: 'barwright shelf reserve --for \"{}\" --drop'.", batch));
    }
  }
  std::vector<Entry> lines;
  std::map<std::string, double> sums;
  std::vector<std::string> order;
  for (const Wanted& want : wanted) {
    if (!sums.contains(want.oil)) order.push_back(want.oil);
    sums[want.oil] += want.grams;
  }
  for (const std::string& oil : order) {
    Entry line = entry_of(date, Event::reserved, batch);
    line.what = oil;
    put_amount(line, shelf_.kind_of(oil).value_or(StockKind::oil), sums[oil]);
    lines.push_back(std::move(line));
  }
  record(lines, shelf_text_);
}

void Books::unreserve(const std::string& batch, const core::Day& date) {
  std::vector<std::string> known;
  for (const Reservation& each : ledger_.reserved) {
    if (each.batch == batch) {
      record(std::vector{entry_of(date, Event::unreserved, batch)}, shelf_text_);
      return;
    }
    known.push_back(each.batch);
  }
  throw core::InputError(
      {journal_.file, 0, 0}, fmt::format("nothing is reserved for '{}'", batch),
      known.empty() ? "Nothing is reserved at all." : yaml::nearest_and_known(batch, known));
}

double Books::free_amount(const std::string& what) const {
  return std::max(0.0, shelf_.usable_grams(what) - ledger_.reserved_grams(what));
}

void Books::set_reorder_level(const std::string& oil, double grams, const core::Day& date) {
  Entry line = entry_of(date, Event::reorder_level);
  line.what = oil;
  put_amount(line, shelf_.kind_of(oil).value_or(StockKind::oil), grams);
  record(std::vector{line}, shelf_text_);
}

std::string Books::with_taken(std::span<const Draw> taken, double sign) const {
  std::map<std::size_t, double> sums;
  for (const Draw& draw : taken) sums[draw.lot] += journal_grams(draw.grams);
  std::vector<LotGrams> changes;
  for (const auto& [lot, grams] : sums) {
    const double left = shelf_.lots[lot].grams + sign * grams;
    changes.push_back({lot, std::max(0.0, left)});
  }
  return with_grams(shelf_text_, shelf_, changes);
}

std::vector<Draw> Books::make(const Making& making) {
  if (const BatchRecord* before = ledger_.find(making.id))
    throw core::InputError(
        {journal_.file, before->place.line, 0},
        fmt::format("batch '{}' is recorded already, made on {}", making.id,
                    core::text(before->made)),
        "A second one on that day needs a name of its own ('--as'); a wrong record is taken back "
        "with '--undo'.");
  auto taken = draws(shelf_, making.wanted, making.lots);
  std::vector<Entry> lines;
  Entry made = entry_of(making.date, Event::made, making.id);
  made.grams = 0;
  for (const auto& part : making.parts) *made.grams += part.poured;
  made.bars = making.bars;
  made.until = making.ready;
  made.note = making.file;
  lines.push_back(made);
  for (const auto& part : making.parts) {
    Entry line = entry_of(making.date, Event::poured, making.id);
    line.part = part.part;
    line.grams = part.poured;
    line.asked = part.cured;
    lines.push_back(std::move(line));
  }
  for (const Draw& draw : taken) {
    const Wanted& want = making.wanted[draw.wanted];
    const Lot& lot = shelf_.lots[draw.lot];
    Entry line = entry_of(making.date, Event::drawn, making.id);
    line.part = want.part;
    line.what = lot.oil;
    line.lot = lot.lot;
    put_amount(line, lot.kind, draw.grams);
    if (std::abs(want.asked - want.grams) >= 0.005) line.asked = want.asked;
    lines.push_back(std::move(line));
  }
  for (const Use& use : making.others) {
    Entry line = entry_of(making.date, Event::used, making.id);
    line.part = use.part;
    line.what = use.what;
    line.lot = use.lot;
    line.grams = use.grams;
    line.asked = use.asked;
    lines.push_back(std::move(line));
  }
  for (const auto& [part, why] : making.lye_heavy) {
    Entry line = entry_of(making.date, Event::lye_heavy, making.id);
    line.part = part;
    line.note = why;
    lines.push_back(std::move(line));
  }
  for (const auto& [part, why] : making.held) {
    Entry line = entry_of(making.date, Event::held, making.id);
    line.part = part;
    line.note = why;
    lines.push_back(std::move(line));
  }
  for (const Defect& defect : making.defects) {
    Entry line = entry_of(making.date, Event::defect, making.id);
    line.bars = defect.bars;
    line.note = defect.what;
    lines.push_back(std::move(line));
  }
  for (const std::string& note : making.notes) {
    Entry line = entry_of(making.date, Event::noted, making.id);
    line.note = note;
    lines.push_back(std::move(line));
  }
  record(lines, with_taken(taken, -1));
  return taken;
}

void Books::undo(const std::string& id, const core::Day& date, const std::string& note) {
  const BatchRecord batch = need_batch(ledger_, id, journal_.file);
  std::vector<Draw> back;
  for (const Use& use : batch.uses) {
    if (!use.from_shelf) continue;
    const auto lot = std::find_if(shelf_.lots.begin(), shelf_.lots.end(), [&](const Lot& each) {
      return each.oil == use.what && each.lot == use.lot;
    });
    if (lot == shelf_.lots.end())
      throw core::InputError(
          {shelf_path_, 0, 0},
          fmt::format("{}, from which {} took {} g, no longer stands in the shelf",
                      lot_words(use.what, use.lot), batch.id, written_grams(use.grams)),
          "Write it back with 'have: 0 g', then undo again.");
    back.push_back({static_cast<std::size_t>(lot - shelf_.lots.begin()), 0, use.grams});
  }
  Entry line = entry_of(date, Event::undone, batch.id);
  line.note = note;
  record(std::vector{line}, with_taken(back, +1));
}

}  // namespace barwright::oils
