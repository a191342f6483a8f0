#include "targets/files/batch_file_part.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/files/lye_file_dose.hpp"
#include "targets/files/lye_file_reader.hpp"
#include "targets/files/oil_rules_blend.hpp"
#include "targets/files/oil_rules_reader.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

namespace {

constexpr double kSetSoapDensity = 1.03;  // g/mL of soap some days old, judgement

Colour read_colour(const Node& node) {
  Colour colour;
  colour.written = written(node);
  Block block(node);
  block.need("name", [&](const Node& name) { colour.name = plain_text(name); });
  block.read("share", [&](const Node& share) {
    colour.share = above_zero(fraction_within(share, 0, 1), share, "a colour's share");
  });
  block.read("with",
             [&](const Node& with) { colour.with = read_additions(with, PlainGrams::are_total); });
  block.done();
  return colour;
}

std::vector<Colour> read_colours(const Node& node) {
  std::vector<Colour> colours;
  double sum = 0;
  core::Faults::each(list_of(node), [&](const Node& item) {
    Colour colour = read_colour(item);
    for (const Colour& other : colours)
      if (yaml::folded(other.name) == yaml::folded(colour.name))
        item.fail("a second colour called '" + colour.name + "'", "Name each colour once.");
    sum += colour.share;
    colours.push_back(std::move(colour));
  });
  const auto silent = std::count_if(colours.begin(), colours.end(),
                                    [](const Colour& colour) { return colour.share == 0; });
  if (silent == static_cast<std::ptrdiff_t>(colours.size())) {  // none says a share: equal ones
    for (Colour& colour : colours) colour.share = 1.0 / static_cast<double>(colours.size());
    return colours;
  }
  for (const Colour& colour : colours)
    if (colour.share == 0)
      colour.written.fail("the colour '" + colour.name + "' has no share, but others have",
                          "Write a share for each, or for none: then they are equal.");
  if (std::abs(sum - 1) > 1e-9)
    node.fail("the colours' shares add to " + percent(sum) + ", " + percent(std::abs(sum - 1)) +
                  (sum > 1 ? " too much" : " short of 100 %"),
              "Make the shares of this part's colours add to 100 %.");
  return colours;
}

WetColour read_wet(const Node& node, const Reading& reading) {
  WetColour wet;
  Block block(node);
  block.need("oil", [&](const Node& oil) { wet.oil = read_oil(oil, reading); });
  block.need("each", [&](const Node& each) {
    wet.each_grams = above_zero(each.grams(), each, "the oil per colour");
  });
  block.need("taken-from", [&](const Node& from) {
    wet.from_blend = choice<bool>(from, {{"blend", true}, {"on top", false}});
  });
  block.done();
  return wet;
}

Scent read_scent(const Node& node, const std::vector<Colour>& colours, const Reading& reading) {
  Scent scent;
  scent.written = written(node);
  Block block(node);
  block.need("name", [&](const Node& name) { scent.name = plain_text(name); });
  block.need("dose", [&](const Node& dose) {
    scent.dose = read_dose(dose, PlainGrams::need_basis);
    if (scent.dose.teaspoons)
      dose.fail("a scent is weighed: its limit counts in grams, and a spoon holds 4 to 5",
                "Write such as '24 g per kg oils', or '2.4 % of oils'.");
  });
  block.read("flash-point", [&](const Node& flash) { scent.flash_celsius = flash.celsius(); });
  block.read("vanillin", [&](const Node& share) { scent.vanillin = fraction_within(share, 0, 1); });
  block.read("soaked-in", [&](const Node& clay) {
    scent.soaked_in = read_additions(clay, PlainGrams::need_basis);
    if (scent.soaked_in.size() != 1)
      clay.fail("a scent is soaked into one clay or starch",
                "Name one, such as {kaolin: 10 g in all}.");
  });
  block.read("goes-in", [&](const Node& goes) {
    for (const Node& item : list_of(goes)) {
      const std::string name = plain_text(item);
      std::vector<std::string> known;
      std::string found;
      for (const Colour& colour : colours) {
        known.push_back(colour.name);
        if (yaml::folded(colour.name) == yaml::folded(name)) found = colour.name;
      }
      if (found.empty())
        item.fail("'" + name + "' is not a colour of this part",
                  known.empty() ? "Name the part's colours first."
                                : yaml::nearest_and_known(name, known));
      scent.goes_in.push_back(found);
    }
  });
  block.read("certificate", [&](const Node& certificate) {
    Block keys(certificate);
    ScentCertificate read;
    read.file = file_name(keys.need("file"), reading);
    if (auto category = keys.take("category")) read.category = plain_text(*category);
    if (auto most = keys.take("most-in-finished-bar")) {
      read.most_in_bar = fraction_within(*most, 0, 1);
    }
    keys.done();
    scent.certificate = read;
  });
  block.read("behaves", [&](const Node& behaves) {
    Block keys(behaves);
    for (const char* key : {"thickens", "colours", "rices", "heats"})
      if (auto value = keys.take(key)) scent.behaves[key] = plain_text(*value);
    keys.done();
  });
  block.done();
  return scent;
}

/// One of grams, volume, box or round; `count` of them.
void read_embed_size(Block& block, Embed& embed) {
  block.one_only({"grams", "volume", "box", "round"});
  if (!block.has("grams") && !block.has("volume") && !block.has("box") && !block.has("round"))
    block.node().fail("how much are the embeds '" + embed.name + "'?",
                      "Write grams: 60 g, volume: 60 ml, box: [length, width, height] or round: "
                      "[length, diameter]; and count: 2 for two of them.");
  int count = 1;
  const bool weighed = block.has("grams");
  block.read("count", [&](const Node& node) {
    if (weighed || block.has("volume"))
      node.fail("grams and a volume are of all of them together", "Take 'count' out.");
    count = read_count(node, "embeds");
  });
  block.read("grams", [&](const Node& grams) {
    embed.grams = above_zero(grams.grams(), grams, "the embeds");
    embed.volume_ml = embed.grams / kSetSoapDensity;
  });
  block.read("volume", [&](const Node& volume) {
    try {
      embed.volume_ml = above_zero(core::to_millilitres(volume.quantity()), volume, "the embeds");
    } catch (const core::UnitError& error) {
      volume.fail(error.what(), error.remedy());
    }
  });
  const auto sides = [&](const Node& node, std::size_t wanted, const char* remedy) {
    std::vector<double> out;
    for (const Node& side : list_of(node))
      out.push_back(above_zero(side.millimetres(), side, "a side of an embed"));
    if (out.size() != wanted) node.fail("an embed's size", remedy);
    return out;
  };
  block.read("box", [&](const Node& box) {
    const auto mm = sides(box, 3, "Write [length, width, height], such as [250 mm, 20 mm, 20 mm].");
    if (mm.size() == 3) embed.volume_ml = count * mm[0] * mm[1] * mm[2] / 1000;
  });
  block.read("round", [&](const Node& round) {
    const auto mm = sides(round, 2, "Write [length, diameter], such as [250 mm, 40 mm].");
    if (mm.size() == 2)
      embed.volume_ml = count * mm[0] * std::numbers::pi * mm[1] * mm[1] / 4 / 1000;
  });
  embed.by_volume = !weighed;
  if (embed.by_volume) embed.grams = std::round(embed.volume_ml * kSetSoapDensity);
}

std::vector<Embed> read_embeds(const Node& node) {
  std::vector<Embed> embeds;
  core::Faults::each(list_of(node), [&](const Node& item) {
    Embed embed;
    embed.written = written(item);
    Block block(item);
    block.need("name", [&](const Node& name) { embed.name = plain_text(name); });
    read_embed_size(block, embed);
    const auto lot = block.take("from-lot");
    block.done();
    if (!lot)
      item.fail("the embeds '" + embed.name + "' do not say which lot they came from",
                "Add 'from-lot: ...': their oils, scent and test belong to this bar's papers too.");
    embed.lot = plain_text(*lot);
    embeds.push_back(std::move(embed));
  });
  return embeds;
}

ToppingSize read_size(const Node& node) {
  ToppingSize size;
  Block block(node);
  block.need("per-bar", [&](const Node& per_bar) {
    size.per_bar_grams = above_zero(per_bar.grams(), per_bar, "a topping");
  });
  block.read("left-in-bag", [&](const Node& left) {
    size.left_in_bag = fraction_within(left, 0, 1);
    if (size.left_in_bag > 0.9)
      left.fail("'" + left.text() + "' left in the bag leaves too little for the bars",
                "Write what stays in the bag, such as 15 %.");
  });
  block.done();
  return size;
}

}  // namespace

Part read_part(const Node& key, const Node& value, const Reading& reading) {
  Part part;
  part.name = key.text();
  part.written = written(key, value);
  Block block(value);
  const bool sized = block.has("size");
  block.read("size", [&](const Node& size) { part.size = read_size(size); });
  const auto method = block.take("method");
  const bool topping = sized || yaml::folded(part.name).find("topping") != std::string::npos;
  block.faults().of([&] {
    if (method)
      part.method = choice<Part::Method>(*method, {{"poured", Part::Method::poured},
                                                   {"creamed fats", Part::Method::creamed_fats},
                                                   {"thick trace", Part::Method::thick_trace}});
    else if (topping)
      key.fail("the topping '" + part.name + "' has no method",
               "Add 'method: creamed fats' or 'method: thick trace'.");
  });
  block.faults().of([&] {
    if (topping && !sized)
      key.fail("the topping '" + part.name + "' has no size",
               "Add 'size: {per-bar: 17 g, left-in-bag: 15 %}'.");
  });
  block.need("blend", [&](const Node& blend) { part.blend = read_blend(blend, reading); });
  block.read("fats-at", [&](const Node& fats) {
    if (block.has("oils-at")) block.one_only({"fats-at", "oils-at"});
    part.lye.oils_celsius = fats.celsius();
  });
  take_lye(block, part.lye);
  block.read("colours", [&](const Node& colours) { part.colours = read_colours(colours); });
  block.read("wet-colour-with",
             [&](const Node& wet) { part.wet_colour_with = read_wet(wet, reading); });
  block.read("scent", [&](const Node& scents) {
    for (const Node& item : list_of(scents))
      part.scents.push_back(read_scent(item, part.colours, reading));
  });
  block.read("additives", [&](const Node& others) {
    part.additives = read_additions(others, PlainGrams::need_basis);
  });
  block.read("embeds", [&](const Node& embeds) { part.embeds = read_embeds(embeds); });
  block.read("pour", [&](const Node& pour) {
    for (const Node& step : list_of(pour)) part.pour.push_back(plain_text(step));
  });
  block.read("when", [&](const Node& when) { part.when = plain_text(when); });
  block.read("top-with",
             [&](const Node& top) { part.top_with = read_additions(top, PlainGrams::need_basis); });
  block.done();
  if (part.wet_colour_with)
    for (const BlendOil& oil : part.blend.oils)
      part.wet_colour_with->in_blend |= oil.oil.name == part.wet_colour_with->oil.name;
  return part;
}

}  // namespace barwright::targets
