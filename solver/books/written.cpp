#include "solver/books/written.hpp"

#include <fmt/format.h>

#include <array>
#include <cctype>
#include <charconv>

#include "core/units/quantity.hpp"
#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::books {
namespace {

using oils::yaml::Node;

constexpr std::array<std::string_view, 6> kBoxes = {"trace",   "poured", "gel",
                                                    "unmould", "cut",    "each"};

std::vector<Typed> typed_of(const Node& node, const std::string& key) {
  std::vector<Typed> out;
  if (!node.is_map())
    node.fail("'" + key + "' names a thing and what was written beside it",
              key == "lots" ? "Write {olive: MB-2291}." : "Write {body/olive: 1212 g}.");
  for (const auto& [name, value] : node.entries())
    out.push_back({name.text(), targets::plain_text(value), key, value.place()});
  return out;
}

std::vector<std::string> texts_of(const Node& node) {
  std::vector<std::string> out;
  for (const Node& item : targets::list_of(node)) out.push_back(targets::plain_text(item));
  return out;
}

/// Returns "9:55" of a time of day, read strictly; nothing for another text.
std::optional<std::string> time_of(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos || colon == 0 || colon > 2 || text.size() != colon + 3)
    return std::nullopt;
  int hour = 0, minute = 0;
  const char* end = text.data() + text.size();
  const auto first = std::from_chars(text.data(), text.data() + colon, hour);
  const auto second = std::from_chars(text.data() + colon + 1, end, minute);
  if (first.ec != std::errc() || first.ptr != text.data() + colon || second.ec != std::errc() ||
      second.ptr != end || hour < 0 || hour > 23 || minute < 0 || minute > 59)
    return std::nullopt;
  return fmt::format("{}:{:02}", hour, minute);
}

constexpr const char* kMomentRemedy =
    "Write a time and how warm it was, or one of them: \"9:55, 60 C\". A day goes before the time: "
    "\"2027-03-21 14:00\".";

}  // namespace

Written read_written(const std::string& path) {
  const auto document = oils::yaml::Document::from_file(path);
  targets::Block block(document.root());
  Written out;
  block.need("written", [&](const Node& node) { out.batch = targets::plain_text(node); });
  block.read("sheet", [&](const Node& node) { out.sheet = targets::plain_text(node); });
  block.read("date", [&](const Node& node) {
    out.date = core::find_day(node.text());
    if (!out.date || !core::is_plausible(*out.date))
      node.fail("'" + node.text() + "' is not a day", "Write year-month-day: 2027-03-31.");
  });
  block.read("bars",
             [&](const Node& node) { out.bars = targets::read_count(node, "bars as cut"); });
  block.read("weighed", [&](const Node& node) { out.weighed = typed_of(node, "weighed"); });
  block.read("lots", [&](const Node& node) { out.lots = typed_of(node, "lots"); });
  block.read("steps", [&](const Node& node) { out.steps = typed_of(node, "steps"); });
  block.read("happened", [&](const Node& node) { out.happened = typed_of(node, "happened"); });
  block.read("notes", [&](const Node& node) { out.notes = texts_of(node); });
  block.read("defects", [&](const Node& node) { out.defects = texts_of(node); });
  block.read("not-ticked", [&](const Node& node) { out.not_ticked = texts_of(node); });
  block.done();
  return out;
}

void refuse(const Typed& typed, const std::string& message, const core::Remedy& remedy) {
  throw core::InputError(typed.place.line > 0 ? typed.place : core::Place{typed.option, 0, 0},
                         message, remedy);
}

std::string Moment::words() const {
  std::string out = day;
  if (!time.empty()) out += (out.empty() ? "at " : " at ") + time;
  if (celsius) out += fmt::format("{}{:.4g} C", out.empty() ? "" : ", ", *celsius);
  return out;
}

Moment moment_of(const Typed& typed) {
  Moment out;
  std::string_view rest = oils::yaml::trimmed_view(typed.said);
  const auto bad = [&](const std::string& piece) {
    refuse(typed, fmt::format("'{}' is no time of day, no day and no temperature", piece),
           kMomentRemedy);
  };
  while (!rest.empty()) {
    // Pieces are parted by commas; day and time may stand side by side.
    std::size_t end = std::min(rest.find(','), rest.size());
    std::string_view piece = oils::yaml::trimmed_view(rest.substr(0, end));
    const std::size_t space = piece.find(' ');
    if (space != std::string_view::npos &&
        (core::find_day(piece.substr(0, space)) || time_of(piece.substr(0, space)))) {
      end = static_cast<std::size_t>(piece.data() - rest.data()) + space;
      piece = piece.substr(0, space);
    }
    rest = oils::yaml::trimmed_view(rest.substr(std::min(end, rest.size())));
    if (rest.starts_with(',')) rest = oils::yaml::trimmed_view(rest.substr(1));
    if (const auto time = time_of(piece); time && out.time.empty()) {
      out.time = *time;
    } else if (core::find_day(piece) && out.day.empty()) {
      out.day = std::string(piece);
    } else if (!out.celsius) {
      try {
        out.celsius = core::to_celsius(core::parse_quantity(piece));
      } catch (const core::UnitError&) {
        bad(std::string(piece));
      }
    } else {
      bad(std::string(piece));
    }
  }
  if (out.words().empty()) bad(typed.said);
  return out;
}

std::string happened_words(const Typed& typed, const std::string& box) {
  const std::string folded = oils::yaml::folded(box);
  if (folded == "gel") {
    const std::string said = oils::yaml::folded(typed.said);
    if (said == "none" || said == "no") return "no gel";
    if (said == "mid" || said == "middle") return "gel in the middle";
    if (said == "all" || said == "yes") return "gel all through";
    refuse(typed, fmt::format("'{}' does not say how far it gelled", typed.said),
           "Write none, mid or all.");
  }
  if (folded == "each") {
    try {
      const double grams = core::to_grams(core::parse_quantity(typed.said));
      if (grams > 0) return fmt::format("a bar weighs {:.4g} g", grams);
    } catch (const core::UnitError&) {
    }
    refuse(typed, fmt::format("'{}' is no weight of a bar", typed.said), "Write \"96 g\".");
  }
  for (const std::string_view each : kBoxes) {
    if (folded != each) continue;
    return std::string(folded == "unmould" ? "unmoulded" : folded) + " " + moment_of(typed).words();
  }
  refuse(typed, fmt::format("'{}' is no box of a sheet", box),
         oils::yaml::nearest_and_known(box, {kBoxes.begin(), kBoxes.end()}));
}

}  // namespace barwright::books
