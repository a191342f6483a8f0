#include "oils/books/ledger.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>

#include "oils/text/journal_csv.hpp"
#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils {
namespace {

class Replay {
 public:
  explicit Replay(const Journal& journal) : journal_(journal) {}

  Ledger run() {
    for (const Entry& entry : journal_.entries) take(entry);
    for (auto& [batch, each] : reserved_) ledger_.reserved.push_back(std::move(each));
    std::sort(ledger_.reserved.begin(), ledger_.reserved.end(),
              [](const auto& a, const auto& b) { return a.place.line < b.place.line; });
    return std::move(ledger_);
  }

 private:
  [[noreturn]] void fail(const Entry& at, const std::string& message,
                         const core::Remedy& remedy) const {
    read_table(journal_.text, journal_.file).fail(at.place, message, remedy);
  }

  /// Grams, or pieces of packaging: the reader has seen to it that one of them stands there.
  static double amount(const Entry& entry) {
    return entry.grams ? *entry.grams : static_cast<double>(*entry.bars);
  }

  BatchRecord& batch(const Entry& entry) {
    if (const auto at = batch_at_.find(entry.batch); at != batch_at_.end()) {
      BatchRecord& each = ledger_.batches[at->second];
      if (entry.date < each.made)
        fail(entry,
             fmt::format("'{}' of {} on {}, before it was made on {}", word(entry.event), each.id,
                         core::text(entry.date), core::text(each.made)),
             "Correct one of the dates.");
      return each;
    }
    std::vector<std::string> known;
    for (const BatchRecord& each : ledger_.batches) known.push_back(each.id);
    const std::string near = yaml::nearest_name(entry.batch, known);
    fail(entry,
         fmt::format("'{}' of a batch '{}' that no line before says was made", word(entry.event),
                     entry.batch),
         near.empty() ? "Correct the batch's name, or put its 'made' line back."
                      : yaml::did_you_mean(near));
  }

  void check_part(const Entry& entry, const BatchRecord& record) const {
    std::vector<std::string> known;
    for (const auto& part : record.parts) {
      if (part.part == entry.part) return;
      known.push_back(part.part);
    }
    fail(entry, fmt::format("batch {} has no part '{}'", record.id, entry.part),
         known.empty() ? "Its 'poured' lines are missing."
                       : yaml::nearest_and_known(entry.part, known));
  }

  void made(const Entry& entry) {
    const auto [at, fresh] = batch_at_.emplace(entry.batch, ledger_.batches.size());
    if (!fresh)
      fail(entry,
           fmt::format("batch '{}' is recorded twice: first on line {}", entry.batch,
                       ledger_.batches[at->second].place.line),
           "Take one of them out with all its lines, or give it a name of its own.");
    BatchRecord out;
    out.id = entry.batch;
    out.file = entry.note;
    out.made = entry.date;
    out.ready = *entry.until;
    out.bars = *entry.bars;
    out.poured_grams = *entry.grams;
    out.place = entry.place;
    for (SheetGiven& sheet : ledger_.sheets) sheet.made = sheet.made || sheet.file == out.file;
    ledger_.batches.push_back(std::move(out));
    // A plan goes by the batch's name, with the day or without.
    drop_reserved(entry.batch);
    const std::string day = "-" + core::text(entry.date);
    if (!entry.batch.ends_with(day)) return;
    const std::string name = entry.batch.substr(0, entry.batch.size() - day.size());
    const auto named = reserved_as_.find(name);
    if (named == reserved_as_.end()) return;
    const auto as = named->second;
    for (const auto& each : as) drop_reserved(each);
  }

  void undone(const Entry& entry) {
    const BatchRecord& record = batch(entry);
    if (record.sold > 0)
      fail(entry, fmt::format("batch {} is undone, but bars of it were sold", record.id),
           "Take this line out, or the 'sold' lines.");
    ledger_.undone.push_back(record);
    const std::size_t gone = batch_at_.at(entry.batch);
    ledger_.batches.erase(ledger_.batches.begin() + static_cast<std::ptrdiff_t>(gone));
    batch_at_.erase(entry.batch);
    for (auto& [id, at] : batch_at_) at -= at > gone ? 1 : 0;
  }

  void reserved(const Entry& entry) {
    const auto [at, fresh] = reserved_.try_emplace(entry.batch);
    if (fresh) {
      at->second = {entry.batch, entry.date, {}, entry.place};
      reserved_as_[batch_word(entry.batch)].insert(entry.batch);
    }
    at->second.grams[entry.what] += amount(entry);
  }

  void drop_reserved(const std::string& batch) {
    if (reserved_.erase(batch) == 0) return;
    const auto as = reserved_as_.find(batch_word(batch));
    as->second.erase(batch);
    if (as->second.empty()) reserved_as_.erase(as);
  }

  void check_bars(const Entry& entry, const BatchRecord& record) const {
    if (*entry.bars > record.bars_left())
      fail(entry,
           fmt::format("{} bars of {} are '{}', but only {} are there", *entry.bars, record.id,
                       word(entry.event), record.bars_left()),
           "Correct the number, or count the bars in ('bars-in').");
  }

  void sold(const Entry& entry) {
    BatchRecord& record = batch(entry);
    check_bars(entry, record);
    const auto state = core::release(record.release_request(), entry.date);
    if (state.hold == core::Hold::on_hold)
      fail(entry,
           fmt::format("bars of {} are sold while it is on hold: {}", record.id, state.reasons[0]),
           "Record its tests first, or take the line out.");
    record.sold += *entry.bars;
    record.earned += entry.money.value_or(0);
  }

  void sheet(const Entry& entry) {
    if (!ledger_.sheets.empty() && *entry.bars <= ledger_.sheets.back().number)
      fail(entry,
           fmt::format("sheet {} does not come after sheet {} on line {}", *entry.bars,
                       ledger_.sheets.back().number, ledger_.sheets.back().place.line),
           "Each sheet has a number of its own, higher than those before: correct it.");
    ledger_.sheets.push_back(
        {*entry.bars, entry.date, entry.batch, entry.note, entry.what, false, entry.place});
  }

  void take(const Entry& entry) {
    switch (entry.event) {
      case Event::sheet:
        sheet(entry);
        break;
      case Event::received:
        ledger_.receipts.push_back({entry.date, entry.what, entry.lot, entry.note, amount(entry),
                                    entry.money, entry.until, entry.place, !entry.grams});
        break;
      case Event::reorder_level:
        ledger_.reorder[entry.what] = amount(entry);
        break;
      case Event::reserved:
        reserved(entry);
        break;
      case Event::unreserved:
        drop_reserved(entry.batch);
        break;
      case Event::made:
        made(entry);
        break;
      case Event::poured:
        batch(entry).parts.push_back({entry.part, *entry.grams, *entry.asked});
        break;
      case Event::drawn:
      case Event::used:
        batch(entry).uses.push_back({entry.part, entry.what, entry.lot, amount(entry), entry.asked,
                                     entry.event == Event::drawn, !entry.grams});
        break;
      case Event::lye_heavy:
        batch(entry).lye_heavy = entry.note;
        break;
      case Event::held:
        batch(entry).held.push_back(entry.note);
        break;
      case Event::let_go:
        batch(entry).let_go = core::LetGo{entry.date, entry.note};
        break;
      case Event::defect:
        batch(entry).defects.push_back({entry.note, entry.bars.value_or(0)});
        break;
      case Event::noted:
        batch(entry).notes.push_back(entry.note);
        break;
      case Event::undone:
        undone(entry);
        break;
      case Event::tested: {
        BatchRecord& record = batch(entry);
        check_part(entry, record);
        record.tests.push_back({entry.part, entry.date, entry.what == "pass", entry.note});
        break;
      }
      case Event::bars_in:
        batch(entry).counted = *entry.bars + batch(entry).sold + batch(entry).lost;
        break;
      case Event::sold:
        sold(entry);
        break;
      case Event::lost: {
        BatchRecord& record = batch(entry);
        check_bars(entry, record);
        record.lost += *entry.bars;
        break;
      }
    }
  }

  const Journal& journal_;
  Ledger ledger_;
  std::unordered_map<std::string, std::size_t> batch_at_;
  std::map<std::string, Reservation> reserved_;               // still open, by batch
  std::map<std::string, std::set<std::string>> reserved_as_;  // by the batch's word
};

}  // namespace

int BatchRecord::spoilt() const {
  int out = 0;
  for (const auto& defect : defects) out += defect.bars;
  return out;
}

int BatchRecord::bars_left() const {
  return std::max(0, counted.value_or(bars - spoilt()) - sold - lost);
}

core::ReleaseRequest BatchRecord::release_request() const {
  core::ReleaseRequest out;
  for (const auto& part : parts) out.parts.push_back(part.part);
  out.tests = tests;
  out.made = made;
  out.ready = ready;
  out.lye_heavy = lye_heavy.has_value();
  out.held = held;
  out.let_go = let_go;
  return out;
}

const BatchRecord* Ledger::find(std::string_view id) const {
  for (const BatchRecord& each : batches) {
    if (each.id == id) return &each;
  }
  return nullptr;
}

const SheetGiven* Ledger::open_sheet(std::string_view file) const {
  const auto last = std::find_if(sheets.rbegin(), sheets.rend(),
                                 [&](const SheetGiven& each) { return each.file == file; });
  return last == sheets.rend() || last->made ? nullptr : &*last;
}

double Ledger::reserved_grams(const std::string& oil, std::string_view but) const {
  double out = 0;
  for (const Reservation& each : reserved) {
    const auto found = each.grams.find(oil);
    if (each.batch != but && found != each.grams.end()) out += found->second;
  }
  return out;
}

Ledger ledger_of(const Journal& journal) { return Replay(journal).run(); }

std::string batch_word(std::string_view name) {
  std::string out(yaml::trimmed_view(name));
  for (char& c : out) {
    if (c == ' ' || c == '\t' || c == '"' || c == '\'') c = '-';
  }
  return out;
}

const BatchRecord& need_batch(const Ledger& ledger, const std::string& id,
                              const std::string& journal_file) {
  if (const BatchRecord* found = ledger.find(id)) return *found;
  if (const BatchRecord* found = ledger.find(batch_word(id))) return *found;
  // A name alone is the id without its day, "-yyyy-mm-dd".
  std::vector<const BatchRecord*> named;
  std::vector<std::string> known;
  for (const BatchRecord& each : ledger.batches) {
    known.push_back(each.id);
    if (each.id == batch_word(id) + "-" + core::text(each.made)) named.push_back(&each);
  }
  if (named.size() == 1) return *named.front();
  const core::Place place{journal_file, 0, 0};
  if (named.size() > 1) {
    std::vector<std::string> ids;
    for (const auto* each : named) ids.push_back("'" + each->id + "'");
    throw core::InputError(place, fmt::format("'{}' was made more than once", id),
                           "Say which: " + yaml::one_of(ids) + ".");
  }
  throw core::InputError(place, fmt::format("no batch '{}' is recorded", id),
                         known.empty() ? "None is recorded yet: 'barwright make FILE' does it."
                                       : yaml::nearest_and_known(id, known));
}

}  // namespace barwright::oils
