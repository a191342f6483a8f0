#include "oils/records/figure_reader.hpp"

#include <fmt/format.h>

#include "oils/records/oil.hpp"
#include "oils/text/names.hpp"

namespace barwright::oils {

using core::Figure;
using core::Mark;
using yaml::Node;

namespace {

constexpr double kRounding = 1e-9;  // figures are typed decimals: only their binary form is off

double within(const Node& node, double least, double most) {
  const double value = node.number();
  if (value < least || value > most)
    node.fail(fmt::format("{} cannot be: it must lie between {} and {}", value, least, most),
              "Check the figure and its unit against the source.");
  return value;
}

/// May one figure stand without low and high? A lot's certificate and the trade's practice give
/// one figure only.
bool may_stand_alone(Mark mark) { return mark == Mark::certificate || mark == Mark::practice; }

}  // namespace

FigureReader::FigureReader(const Library& library, const std::vector<Source>& own) {
  for (const auto& [key, source] : library.sources()) known_.emplace(key, true);
  for (const Source& source : own) known_.emplace(source.key, true);
}

std::string FigureReader::source(const Node& node) const {
  std::string key = node.text();
  if (known_.contains(key)) return key;
  std::vector<std::string> keys;
  for (const auto& [name, unused] : known_) keys.push_back(name);
  const std::string near = yaml::nearest_name(key, keys);
  node.fail(
      fmt::format("no source is called '{}'", key),
      yaml::did_you_mean(
          near, "Name a key of sources.yaml, or add the work under 'sources:' in this file."));
}

Mark FigureReader::mark(const Node& node) const {
  const std::string text = node.text();
  if (const auto mark = find_mark(text)) return *mark;
  const std::string near = yaml::nearest_name(
      text, {"certificate", "read", "computed", "practice", "recalled", "judgement"});
  node.fail(fmt::format("'{}' does not say how the figure was come by", text),
            yaml::did_you_mean(
                near, "Write certificate, read, computed, practice, recalled or judgement."));
}

Provenance FigureReader::provenance(const Node& block) const {
  Provenance out;
  out.source = source(block.need("source"));
  out.mark = mark(block.need("mark"));
  out.range_source = out.source;
  out.range_mark = out.mark;
  if (const auto node = block.get("range-source")) {
    out.range_source = source(*node);
    out.range_mark = mark(block.need("range-mark"));
  } else if (const auto lonely = block.get("range-mark")) {
    lonely->fail("'range-mark' stands without 'range-source'", "Name the source of the range.");
  }
  return out;
}

Figure FigureReader::figure(const Node& block, double least, double most,
                            const std::optional<Provenance>& inherited,
                            std::initializer_list<std::string_view> extra) const {
  std::vector<std::string> allowed{"typical", "low",          "high",      "source",
                                   "mark",    "range-source", "range-mark"};
  allowed.insert(allowed.end(), extra.begin(), extra.end());
  block.only(allowed);

  Provenance from;
  if (inherited) {
    from = *inherited;
    if (const auto node = block.get("source")) {
      from.source = source(*node);
      from.mark = mark(block.need("mark"));
    } else if (const auto lonely = block.get("mark")) {
      lonely->fail("'mark' stands without 'source'", "Name the source of this figure too.");
    }
    if (const auto node = block.get("range-source")) {
      from.range_source = source(*node);
      from.range_mark = mark(block.need("range-mark"));
    } else if (const auto lonely = block.get("range-mark")) {
      lonely->fail("'range-mark' stands without 'range-source'", "Name the source of the range.");
    }
  } else {
    from = provenance(block);
  }

  Figure out;
  out.source = from.source;
  out.mark = from.mark;
  out.range_source = from.range_source;
  out.range_mark = from.range_mark;
  const Node typical = block.need("typical");
  out.span.typical = within(typical, least, most);
  const auto low = block.get("low");
  const auto high = block.get("high");
  if (low.has_value() != high.has_value()) block.need(low ? "high" : "low");
  if (!low) {
    if (!may_stand_alone(out.mark))
      block.fail("missing keys 'low' and 'high'",
                 "Give the range lots are published to keep; only a certificate's figure or one "
                 "of common practice may stand alone.");
    out.span.low = out.span.high = out.span.typical;
    out.range_source = out.source;
    out.range_mark = out.mark;
    return out;
  }
  out.span.low = within(*low, least, most);
  out.span.high = within(*high, least, most);
  if (out.span.low > out.span.high)
    low->fail(fmt::format("low {} is above high {}", out.span.low, out.span.high),
              "Swap the two, or correct one.");
  if (out.span.typical < out.span.low - kRounding || out.span.typical > out.span.high + kRounding)
    typical.fail(fmt::format("typical {} is outside its range, {} to {}", out.span.typical,
                             out.span.low, out.span.high),
                 "Correct the figure, or the range and its source.");
  return out;
}

}  // namespace barwright::oils
