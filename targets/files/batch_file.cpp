#include "targets/files/batch_file.hpp"

#include <cstdio>
#include <filesystem>

#include "core/lye/lye.hpp"
#include "oils/records/judged_span.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/files/batch_file_part.hpp"
#include "targets/files/lye_file_reader.hpp"
#include "targets/files/make_size_reader.hpp"
#include "targets/files/oil_rules_blend.hpp"
#include "targets/files/oil_rules_reader.hpp"
#include "targets/files/recipe_file.hpp"
#include "targets/files/workshop.hpp"
#include "targets/text/brief_phrase.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Document;
using yaml::Node;

namespace {

Cut read_cut(const Node& node) {
  Cut cut;
  Block block(node);
  block.need("slice", [&](const Node& slice) {
    cut.slice = above_zero(slice.millimetres(), slice, "a slice");
  });
  block.read("kerf", [&](const Node& kerf) { cut.kerf = kerf.millimetres(); });
  block.read("end-trim", [&](const Node& trim) { cut.end_trim = trim.millimetres(); });
  block.done();
  return cut;
}

/// "when firm, look from 30 h", or a time alone.
void read_unmould(const Node& node, AfterPour& after) {
  after.unmould = plain_text(node);
  Phrase phrase(node);
  while (!phrase.done()) {
    if (phrase.take("from") || phrase.sees_number()) {
      after.look_from_hours = phrase.hours();
      return;
    }
    phrase.skip();
  }
}

/// "8:30": hours after midnight.
double read_start(const Node& node) {
  const std::string text = node.text();
  int hours = 0, minutes = 0;
  char rest = 0;
  if (std::sscanf(text.c_str(), "%2d:%2d%c", &hours, &minutes, &rest) != 2 || hours < 0 ||
      hours > 23 || minutes < 0 || minutes > 59)
    node.fail("'" + text + "' is no time of day", "Write it such as 8:30.");
  return hours + minutes / 60.0;
}

Samples read_samples(const Node& node) {
  Samples samples;
  Block block(node);
  block.need("count", [&](const Node& count) { samples.count = read_count(count, "samples"); });
  block.need("each", [&](const Node& each) {
    samples.each_grams = above_zero(each.grams(), each, "a sample");
  });
  block.done();
  return samples;
}

std::vector<Premix> read_premixes(const Node& node, const Reading& reading) {
  std::vector<Premix> premixes;
  Block names(node);  // refuses a name that stands twice
  const auto read = [&](const Node& key, const Node& value) {
    Premix premix;
    premix.name = key.text();
    premix.written = written(key, value);
    if (reading.library.find(premix.name))
      key.fail("'" + premix.name + "' is an oil's name already", "Call the premix something else.");
    premix.blend = read_blend(value, reading);
    premixes.push_back(std::move(premix));
  };
  for (const auto& entry : names.take_rest())
    names.faults().of([&] { read(entry.first, entry.second); });
  names.done();
  return premixes;
}

AfterPour read_after(const Node& node) {
  AfterPour after;
  Block block(node);
  block.read("cover", [&](const Node& cover) { after.cover = cover.yes_no(); });
  block.read("unmould", [&](const Node& unmould) { read_unmould(unmould, after); });
  block.read("stamp", [&](const Node& stamp) { after.stamp = stamp.yes_no(); });
  block.read("bevel", [&](const Node& bevel) { after.bevel = bevel.yes_no(); });
  block.read("cure", [&](const Node& cure) {
    after.cure_hours = above_zero(cure.hours(), cure, "a cure");
  });
  block.read("release", [&](const Node& release) {
    Block keys(release);
    if (auto test = keys.take("test")) after.release_test = plain_text(*test);
    if (auto before = keys.take("before")) after.release_before = plain_text(*before);
    keys.done();
  });
  block.done();
  return after;
}

void check_parts(const Node& node, const BatchFile& batch) {
  int bodies = 0;
  for (const Part& part : batch.parts) {
    if (part.size) continue;
    if (++bodies > 1)
      node.fail("two parts without a size: '" + part.name + "' is the second",
                "Only the body fills the moulds; give the others 'size: {per-bar: 17 g}'.");
  }
  if (bodies == 0) node.fail("no part fills the moulds", "One part, the body, has no 'size'.");
}

void read_parts(const Node& parts, const Reading& reading, BatchFile& batch) {
  Block names(parts);  // refuses a name that stands twice
  if (parts.entries().empty()) parts.fail("no part stands here", "Write at least the body.");
  for (const auto& entry : names.take_rest())
    names.faults().of(
        [&] { batch.parts.push_back(read_part(entry.first, entry.second, reading)); });
  names.done();
  check_parts(parts, batch);
}

BatchFile read_root(const Node& root, const std::string& file, const Reading& outside) {
  BatchFile batch;
  batch.file = file;
  batch.folder = outside.folder;
  Block block(root);
  block.one_only({"moulds", "make"});
  block.need("batch", [&](const Node& node) { batch.name = plain_text(node); });
  block.read("bench-date", [&](const Node& node) { batch.bench_date = read_date(node); });
  block.read("room", [&](const Node& node) { batch.room_celsius = node.celsius(); });
  if (block.has("make"))
    block.read("make", [&](const Node& node) { batch.make = read_make(node, outside.folder); });
  if (!block.has("make") || block.has("moulds"))
    block.need("moulds",
               [&](const Node& node) { batch.moulds = read_moulds(node, outside.folder); });
  block.read("cut", [&](const Node& node) { batch.cut = read_cut(node); });
  block.read("lye-pot", [&](const Node& node) {
    batch.lye_pot = choice<BatchFile::LyePot>(
        node, {{"one", BatchFile::LyePot::one}, {"each part", BatchFile::LyePot::each_part}});
  });
  block.read("lye",
             [&](const Node& node) { batch.lye = read_lye(node, Strengths::some_for_parts); });
  block.read("samples", [&](const Node& node) { batch.samples = read_samples(node); });
  block.read("left-in-pot",
             [&](const Node& node) { batch.left_in_pot = fraction_within(node, 0, 0.5); });
  block.read("start", [&](const Node& node) { batch.start_hours = read_start(node); });
  block.read("premixed", [&](const Node& node) { batch.premixes = read_premixes(node, outside); });
  const oils::Library library = with_premixes(outside.library, batch.premixes);
  const Reading reading{library, outside.folder, outside.depth};
  block.need("parts", [&](const Node& parts) { read_parts(parts, reading, batch); });
  block.read("after", [&](const Node& node) { batch.after = read_after(node); });
  block.read("scale", [&](const Node& node) { batch.scale = read_scale(node); });
  block.read("shelf", [&](const Node& node) { batch.shelf = file_name(node, reading); });
  block.read("packed-in", [&](const Node& node) { batch.packed_in = read_packed_in(node); });
  block.done();
  const auto workshop = workshop_in(outside.folder);
  batch.own_lye = batch.lye;
  fill_from(workshop, batch.lye);
  fill_from(workshop, batch.scale);
  if (workshop) {
    if (!batch.room_celsius) batch.room_celsius = workshop->room_celsius;
    if (!batch.after.cure_hours) batch.after.cure_hours = workshop->cure_hours;
    if (!batch.shelf) batch.shelf = workshop->shelf;
  }
  return batch;
}

/// A plain recipe as a batch of one part, so that it has a sheet too.
BatchFile batch_of(const RecipeFile& recipe, const Node& root, const std::string& file) {
  BatchFile batch;
  batch.file = file;
  batch.folder = recipe.folder;
  batch.name = recipe.name.empty() ? std::filesystem::path(file).stem().string() : recipe.name;
  batch.make = recipe.make;
  if (!batch.make && recipe.blend.grams > 0) {
    batch.make.emplace();
    batch.make->oils_grams = recipe.blend.grams;
  }
  if (!batch.make)
    root.fail("the recipe does not say how much is made",
              "Add 'oils: 1000 g', or 'make: {bars: 20, each: 100 g, weighed: cut}'.");
  batch.lye = recipe.lye;
  batch.scale = recipe.scale;
  batch.shelf = recipe.shelf;
  batch.packed_in = recipe.packed_in;
  batch.recipe = true;
  Part part;
  part.name = "bar";
  part.blend = recipe.blend;
  part.written = recipe.lye.written;
  batch.parts.push_back(std::move(part));
  if (const auto workshop = workshop_in(batch.folder)) {
    batch.room_celsius = workshop->room_celsius;
    batch.after.cure_hours = workshop->cure_hours;
  }
  return batch;
}

}  // namespace

oils::Oil premixed(const Premix& premix,
                   const std::function<oils::Oil(const BlendOil&)>& figures_of) {
  oils::Oil mix;
  mix.name = premix.name;
  mix.place = premix.written.place;
  std::string inside;
  const auto add = [](core::Figure& sum, const core::Figure& part, double share) {
    sum.span.low += share * part.span.low;
    sum.span.typical += share * part.span.typical;
    sum.span.high += share * part.span.high;
    sum.mark = std::max(sum.mark, part.mark);
    sum.range_mark = std::max(sum.range_mark, part.range_mark);
    sum.source = sum.range_source = "harmonic-mean";
  };
  for (auto* figure : {&mix.saponification_value, &mix.iodine_value, &mix.unsaponifiable})
    figure->mark = figure->range_mark = core::Mark::certificate;
  for (const BlendOil& one : premix.blend.oils) {
    const oils::Oil oil = figures_of(one);
    if (oil.form != oils::Form::triglyceride ||
        oil.unsaponifiable.span.typical > 100 * core::kWaxlikeUnsaponifiable)
      one.oil.written.fail("'" + oil.name + "' is no plain fat: it cannot hide in a premix",
                           "Name it in the part's own blend.");
    // Each as the lye is judged by it: mixing makes no figure surer than its parts are.
    core::Figure saponification = oil.saponification_value;
    saponification.span = oils::judged_saponification(oil);
    add(mix.saponification_value, saponification, one.share);
    add(mix.iodine_value, oil.iodine_value, one.share);
    add(mix.unsaponifiable, oil.unsaponifiable, one.share);
    const core::AcidProfile acids = oil.typical_profile();
    for (std::size_t k = 0; k < acids.size(); ++k) {
      if (acids[k] <= 0) continue;
      if (!mix.acids[k]) mix.acids[k] = core::Figure{};
      const double percent = 100 * acids[k] * one.share;
      add(*mix.acids[k], {{percent, percent, percent}, "", core::Mark::computed, "", {}}, 1);
    }
    mix.tags.insert(oil.tags.begin(), oil.tags.end());
    mix.solid_at_25c = mix.solid_at_25c || oil.solid_at_25c;
    inside += (inside.empty() ? "" : ", ") + oil.name + " " + percent(one.share);
  }
  mix.note = "premixed: " + inside;
  return mix;
}

oils::Library with_premixes(const oils::Library& library, const std::vector<Premix>& premixes) {
  oils::Library out = library;
  for (const Premix& premix : premixes) {
    out.add(premixed(premix, [&](const BlendOil& one) { return *library.find(one.oil.name); }));
  }
  return out;
}

BatchFile read_batch(const std::string& path, const oils::Library& library) {
  const Document document = Document::from_file(path);
  const Node root = document.root();
  if (root.is_map() && !root.has("batch") && !root.has("parts") && root.has("blend"))
    return batch_of(read_recipe(path, library), root, path);
  return read_root(root, path, {library, std::filesystem::path(path).parent_path().string()});
}

BatchFile read_batch_text(const std::string& text, const std::string& name,
                          const std::string& folder, const oils::Library& library) {
  const Document document = Document::from_text(text, name);
  return read_root(document.root(), name, {library, folder});
}

}  // namespace barwright::targets
