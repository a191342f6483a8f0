#include "solver/app/tune/text_tune.hpp"

#include <fmt/format.h>

#include <cmath>

#include "solver/app/print/screen.hpp"
#include "targets/model/words.hpp"

namespace barwright::app {
namespace {

std::string side(targets::Property property, double value) {
  const auto& words = targets::words(property);
  return value >= 0 ? words.more : words.less;
}

std::string size_of(double steps) {
  const double size = std::abs(steps);
  return size >= 2 ? "much" : size >= 1 ? "clearly" : "a little";
}

// "clearly firmer", or that nobody would notice.
std::string felt(targets::Property property, double points) {
  const double steps = points / targets::noticeable(property);
  if (std::abs(steps) < 0.5) return "no difference to notice";
  return size_of(steps) + " " + side(property, points);
}

std::string band(const targets::Difference& difference) {
  return fmt::format("{} points, {} to {}", signed_points(difference.value),
                     signed_points(difference.low), signed_points(difference.high));
}

std::string own_words(const tune::Own& own) {
  return fmt::format("{}: {} than print says, by itself ({}).", own.name,
                     size_of(own.steps) + " " + side(own.property, own.steps),
                     targets::name(own.property));
}

std::string doubt_words(double left) {
  if (left > 1.05) return "more doubt is left than before";
  if (left > 0.95) return "as much doubt is left as before";
  return fmt::format("{} of the doubt is left", percent(left, 0));
}

Json change_json(const tune::Change& change) {
  const auto figures = [](const targets::Difference& d) {
    return Json{{"value", d.value}, {"low", d.low}, {"high", d.high}};
  };
  return {{"property", targets::name(change.asked.property)},
          {"bar", change.bar},
          {"against", change.against},
          {"print", figures(change.print)},
          {"tuned", figures(change.tuned)},
          {"doubt_left", change.doubt_left},
          {"sure", change.tuned.sure},
          {"too_few_pours", change.tuned.too_few_pours},
          {"sentence", sentence_of(change)}};
}

}  // namespace

std::string sentence_of(const tune::Change& change) {
  const auto property = change.asked.property;
  const std::string verdict = change.tuned.sure            ? "; sure"
                              : change.tuned.too_few_pours ? "; too few pours to tell for sure"
                                                           : "";
  return fmt::format("{}, {} beside {}: {} ({}); print says {} ({}); {}{}.",
                     targets::name(property), change.bar, change.against,
                     felt(property, change.tuned.value), band(change.tuned),
                     felt(property, change.print.value), band(change.print),
                     doubt_words(change.doubt_left), verdict);
}

std::string text_tune(const TuneReport& report, bool colour) {
  Screen screen(colour);
  const tune::Told& told = report.told;
  screen.title("what your notes say",
               fmt::format("{} {}, {} pours of {} bars", report.sayings,
                           report.sayings == 1 ? "note" : "notes", report.pours, report.bars));
  if (!report.settled)
    screen.danger(
        "This has not settled: the readings below still move from run to run. Take the bands as "
        "wider than they look, and tune again with more notes of the same bars.");
  screen.heading("WHAT THEY CHANGE", "points; the band holds 90 % of the doubt");
  for (const auto& change : told.changes) screen.sentence(sentence_of(change), "-");
  if (!told.oils.empty()) {
    screen.heading("WHAT ONE OIL DOES");
    for (const auto& own : told.oils) screen.sentence(own_words(own), "-");
  }
  if (!told.pours.empty()) {
    screen.heading("WHAT ONE POUR DID");
    for (const auto& own : told.pours) screen.sentence(own_words(own), "-");
  }
  if (!told.doubted.empty()) {
    screen.heading("LOOK AGAIN AT", "the other notes speak against these; none is left out");
    for (const auto& one : told.doubted)
      screen.sentence(fmt::format("{}:{}: {}", one.place.file, one.place.line, one.words), "-");
  }
  if (!told.at_limit.empty()) {
    screen.heading("AT THE EDGE OF WHAT PRINT ALLOWS");
    for (const auto& about : told.at_limit) screen.sentence(about + ".", "-");
  }
  if (!told.without_note.empty()) {
    std::string names;
    for (const auto& name : told.without_note) names += (names.empty() ? "" : "; ") + name;
    screen.heading("NO NOTE YET");
    screen.sentence(fmt::format("{} of {} pours have no note: {}.", told.without_note.size(),
                                report.pours, names));
  }
  screen.heading("NEXT");
  screen.sentence(fmt::format(
      "Written: {} to read, {} for the program (mark {}). No lye figure rests on them. To undo it, "
      "delete both.",
      report.yaml, report.draws, report.mark));
  return screen.text();
}

Json json_tune(const TuneReport& report) {
  Json changes = Json::array(), oils = Json::array(), pours = Json::array(),
       doubted = Json::array();
  for (const auto& change : report.told.changes) changes.push_back(change_json(change));
  const auto own = [](const tune::Own& one) {
    return Json{{"name", one.name},
                {"property", targets::name(one.property)},
                {"steps", one.steps},
                {"sentence", own_words(one)}};
  };
  for (const auto& one : report.told.oils) oils.push_back(own(one));
  for (const auto& one : report.told.pours) pours.push_back(own(one));
  for (const auto& one : report.told.doubted)
    doubted.push_back(Json{{"file", one.place.file},
                           {"line", one.place.line},
                           {"words", one.words},
                           {"share", one.share}});
  return {{"schema", 1},
          {"command", "tune"},
          {"status", report.settled ? "settled" : "not-settled"},
          {"notes", report.sayings},
          {"pours", report.pours},
          {"noted_pours", report.noted_pours},
          {"changes", changes},
          {"oils", oils},
          {"by_pour", pours},
          {"doubted", doubted},
          {"at_limit", report.told.at_limit},
          {"without_note", report.told.without_note},
          {"mark", report.mark},
          {"files", Json{{"tuned", report.yaml}, {"draws", report.draws}}}};
}

}  // namespace barwright::app
