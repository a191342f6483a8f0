#include "targets/files/make_size_reader.hpp"

#include <fmt/format.h>

#include "oils/text/yaml_text.hpp"
#include "targets/files/workshop.hpp"
#include "targets/text/brief_phrase.hpp"

namespace barwright::targets {

using oils::yaml::Node;

namespace {

double length(const Node& node, const std::string& what) {
  return above_zero(node.millimetres(), node, what);
}

/// "260 x 82 x 75 mm": one unit, at the end, for all three.
std::array<double, 3> sides_in_text(const Node& node) {
  const std::string remedy = "Write [260 mm, 82 mm, 75 mm] or '260 x 82 x 75 mm'.";
  Phrase phrase(node);
  std::array<double, 3> sides{};
  for (std::size_t i = 0; i < 3; ++i) {
    sides[i] = phrase.number();
    if (i < 2 && !phrase.take_any({"x", "×", "by"}))
      phrase.fail("three lengths are wanted: length, width, height", remedy);
  }
  const std::string unit = phrase.word();
  try {
    for (double& side : sides)
      side = above_zero(core::to_millimetres({side, unit}), node, "a mould's side");
  } catch (const core::UnitError& error) {
    phrase.fail(error.what(), error.remedy());
  }
  phrase.skip();
  phrase.end({}, remedy);
  return sides;
}

std::array<double, 3> sides(const Node& node) {
  if (node.is_scalar()) return sides_in_text(node);
  const auto items = node.items();
  if (items.size() != 3)
    node.fail(fmt::format("{} lengths stand here; three are wanted", items.size()),
              "Write length, width and height, such as [260 mm, 82 mm, 75 mm].");
  std::array<double, 3> lengths{};
  for (std::size_t i = 0; i < 3; ++i) lengths[i] = length(items[i], "a mould's side");
  return lengths;
}

double volume(const Node& node) {
  try {
    return above_zero(core::to_millilitres(node.quantity()), node, "a mould's volume");
  } catch (const core::UnitError& error) {
    node.fail(error.what(), error.remedy());
  }
}

/// A mould that the workshop knows: "plank", or {name: plank, count: 2}.
Mould named_mould(const Node& node, const std::string& folder) {
  if (node.is_scalar()) {
    Mould mould = known_mould(node, folder);
    mould.written = written(node);
    return mould;
  }
  Block block(node);
  Mould mould = known_mould(block.need("name"), folder);
  mould.written = written(node);
  block.read("count", [&](const Node& count) { mould.count = read_count(count, "moulds"); });
  block.done();
  return mould;
}

Mould read_mould(const Node& node, const std::string& folder) {
  const bool sized = node.is_map() && (node.has("inside") || node.has("volume") ||
                                       node.has("water") || node.has("fill-to"));
  const bool named = node.is_map() && !sized && node.has("name") && workshop_in(folder);
  if (node.is_scalar() || named) return named_mould(node, folder);
  Mould mould;
  mould.written = written(node);
  Block block(node);
  block.one_only({"inside", "volume", "water"});
  block.read("name", [&](const Node& name) { mould.name = plain_text(name); });
  block.read("count", [&](const Node& count) { mould.count = read_count(count, "moulds"); });
  const auto fill = block.take("fill-to");
  block.read("inside", [&](const Node& inside) { mould.inside_mm = sides(inside); });
  block.read("volume", [&](const Node& held) { mould.millilitres = volume(held); });
  block.read("water", [&](const Node& water) {
    mould.water_grams = above_zero(water.grams(), water, "what a mould holds");
  });
  block.done();
  if (!mould.inside_mm && !mould.millilitres && !mould.water_grams)
    node.fail("the mould has no size",
              "Write inside: [length, width, height], volume: or water: (the weight it holds).");
  if (fill) {
    if (!mould.inside_mm)
      fill->fail("'fill-to' needs the inside of the mould",
                 "Write inside: [length, width, height], or the volume up to that height.");
    mould.fill_to_mm = length(*fill, "a fill height");
    if (*mould.fill_to_mm > (*mould.inside_mm)[2])
      fill->fail("'" + fill->text() + "' is above the mould's rim at " +
                     figure((*mould.inside_mm)[2]) + " mm",
                 "Write a height the mould can hold.");
  }
  return mould;
}

Bars read_bars(Block& block, int count) {
  Bars bars;
  bars.count = count;
  block.need("each", [&](const Node& each) {
    bars.each_grams = above_zero(each.grams(), each, "the weight of a bar");
  });
  block.faults().of([&] {
    const auto weighed = block.take("weighed");
    if (!weighed)
      block.node().fail("the bars' weight: when cut, or cured?",
                        "Add 'weighed: cut' or 'weighed: cured': a bar loses water as it cures.");
    bars.weighed = choice<Bars::Weighed>(
        *weighed, {{"cut", Bars::Weighed::cut}, {"cured", Bars::Weighed::cured}});
  });
  return bars;
}

double oils_phrase(const Node& node) {
  Phrase phrase(node);
  const double grams = above_zero(phrase.grams(), node, "the mass of oils");
  if (!phrase.take_any({"of oils", "oils", "of oil", "oil"}))
    phrase.fail("'" + node.text() + "': of what?", "Write '2600 g oils', or bars or moulds.");
  phrase.end({"oils"}, "Write '2600 g oils'.");
  return grams;
}

}  // namespace

std::vector<Mould> read_moulds(const Node& node, const std::string& folder) {
  std::vector<Mould> moulds;
  core::Faults::each(list_of(node),
                     [&](const Node& item) { moulds.push_back(read_mould(item, folder)); });
  return moulds;
}

MakeSize read_make(const Node& node, const std::string& folder) {
  MakeSize make;
  make.written = written(node);
  if (node.is_scalar()) {
    make.oils_grams = oils_phrase(node);
    return make;
  }
  Block block(node);
  block.one_only({"each", "moulds", "oils"});
  block.settle();
  std::optional<int> count;
  block.read("bars", [&](const Node& bars) { count = read_count(bars, "bars"); });
  if (block.has("moulds")) {
    block.read("moulds", [&](const Node& moulds) { make.moulds = read_moulds(moulds, folder); });
  } else if (block.has("oils")) {
    block.read("oils", [&](const Node& oils) {
      make.oils_grams = above_zero(oils.grams(), oils, "the mass of oils");
    });
  } else if (block.has("bars")) {
    make.bars = read_bars(block, count.value_or(1));
    count.reset();
  } else if (block.has("each")) {
    block.need("bars");
  }
  make.bars_per_batch = count;
  block.done();
  if (!make.bars && make.moulds.empty() && !make.oils_grams)
    node.fail("'make' does not say how much",
              "Write {bars: 36, each: 105 g, weighed: cured}, {moulds: [...]} or {oils: 2600 g}.");
  return make;
}

}  // namespace barwright::targets
