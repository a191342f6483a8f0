// Entries on bars that are made: tests, what is let go, counts and sales.
#include <fmt/format.h>

#include <algorithm>

#include "oils/books/stock.hpp"
#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils {

void Books::test(const std::string& id, std::span<const core::PartTest> tests) {
  const BatchRecord& batch = need_batch(ledger_, id, journal_.file);
  std::vector<Entry> lines;
  for (const auto& test : tests) {
    std::vector<std::string> known;
    for (const auto& part : batch.parts) known.push_back(part.part);
    if (std::find(known.begin(), known.end(), test.part) == known.end())
      throw core::InputError({journal_.file, batch.place.line, 0},
                             fmt::format("batch {} has no part '{}'", batch.id, test.part),
                             yaml::nearest_and_known(test.part, known));
    if (test.day < batch.made)
      throw core::InputError({journal_.file, batch.place.line, 0},
                             fmt::format("a test on {}, before {} was made on {}",
                                         core::text(test.day), batch.id, core::text(batch.made)),
                             "Correct the date.");
    Entry line = entry_of(test.day, Event::tested, batch.id);
    line.part = test.part;
    line.what = test.passed ? "pass" : "fail";
    line.note = test.how;
    lines.push_back(std::move(line));
  }
  record(lines, shelf_text_);
}

void Books::let_go(const std::string& id, const core::Day& date, const std::string& why) {
  const BatchRecord& batch = need_batch(ledger_, id, journal_.file);
  const core::Place place{journal_.file, batch.place.line, 0};
  if (batch.lye_heavy)
    throw core::InputError(place,
                           fmt::format("free lye can be left in {}: no word clears that", id),
                           "Keep it apart: 'barwright rescue' says what can be done.");
  if (batch.held.empty())
    throw core::InputError(place, fmt::format("nothing of {} is held for its weights", id),
                           fmt::format("What it waits for: 'barwright release {}'.", id));
  if (date < batch.made)
    throw core::InputError(place,
                           fmt::format("{} lies before {} was made on {}", core::text(date),
                                       batch.id, core::text(batch.made)),
                           "Correct the date.");
  if (yaml::trimmed_view(why).find(' ') == std::string_view::npos)
    throw core::InputError(place, fmt::format("'{}' does not say why {} may go", why, id),
                           "Say in words what you know that the weights do not tell: \"weighed "
                           "again, the olive was typed 100 g short\".");
  Entry line = entry_of(date, Event::let_go, batch.id);
  line.note = why;
  record(std::vector{line}, shelf_text_);
}

void Books::bars(const std::string& id, Event event, int count, std::optional<core::Cents> money,
                 const core::Day& date, const std::string& note) {
  const BatchRecord& batch = need_batch(ledger_, id, journal_.file);
  const core::Place place{journal_.file, batch.place.line, 0};
  if (date < batch.made)
    throw core::InputError(place,
                           fmt::format("{} lies before {} was made on {}", core::text(date),
                                       batch.id, core::text(batch.made)),
                           "Correct the date.");
  if (event != Event::bars_in && count > batch.bars_left())
    throw core::InputError(
        place,
        fmt::format("{} bars of {} are not there: {} are", count, batch.id, batch.bars_left()),
        "Correct the number, or count the bars in ('--in').");
  if (event == Event::sold) {
    const auto state = core::release(batch.release_request(), date);
    if (state.hold != core::Hold::fit_to_sell)
      throw core::InputError(
          place, fmt::format("{} is {}: {}", batch.id, core::word(state.hold), state.reasons[0]),
          state.hold == core::Hold::curing ? "Wait until the cure is over."
          : state.untested.empty()
              ? "Keep it apart: 'barwright rescue' says what can be done."
              : fmt::format("Record its tests: 'barwright release {}'.", batch.id));
  }
  Entry line = entry_of(date, event, batch.id);
  line.bars = count;
  line.money = money;
  line.note = note;
  record(std::vector{line}, shelf_text_);
}

}  // namespace barwright::oils
