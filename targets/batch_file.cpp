#include "targets/batch_file.hpp"

#include <filesystem>

#include "oils/yaml_text.hpp"
#include "targets/batch_file_part.hpp"
#include "targets/brief_phrase.hpp"
#include "targets/lye_file_reader.hpp"
#include "targets/make_size_reader.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Document;
using yaml::Node;

namespace {

Cut read_cut(const Node& node) {
  Cut cut;
  Block block(node);
  const Node slice = block.need("slice");
  cut.slice = above_zero(slice.millimetres(), slice, "a slice");
  if (auto kerf = block.take("kerf")) cut.kerf = kerf->millimetres();
  if (auto trim = block.take("end-trim")) cut.end_trim = trim->millimetres();
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

AfterPour read_after(const Node& node) {
  AfterPour after;
  Block block(node);
  if (auto cover = block.take("cover")) after.cover = cover->yes_no();
  if (auto unmould = block.take("unmould")) read_unmould(*unmould, after);
  if (auto cure = block.take("cure")) after.cure_hours = above_zero(cure->hours(), *cure, "a cure");
  if (auto release = block.take("release")) {
    Block keys(*release);
    if (auto test = keys.take("test")) after.release_test = plain_text(*test);
    if (auto before = keys.take("before")) after.release_before = plain_text(*before);
    keys.done();
  }
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

BatchFile read_root(const Node& root, const std::string& file, const Reading& reading) {
  BatchFile batch;
  batch.file = file;
  batch.folder = reading.folder;
  Block block(root);
  block.one_only({"moulds", "make"});
  batch.name = plain_text(block.need("batch"));
  if (auto node = block.take("bench-date")) batch.bench_date = read_date(*node);
  if (auto node = block.take("room")) batch.room_celsius = node->celsius();
  if (auto node = block.take("make"))
    batch.make = read_make(*node);
  else
    batch.moulds = read_moulds(block.need("moulds"));
  if (auto node = block.take("cut")) batch.cut = read_cut(*node);
  if (auto node = block.take("lye-pot"))
    batch.lye_pot = choice<BatchFile::LyePot>(
        *node, {{"one", BatchFile::LyePot::one}, {"each part", BatchFile::LyePot::each_part}});
  if (auto node = block.take("lye")) batch.lye = read_lye(*node);
  const Node parts = block.need("parts");
  const Block names(parts);  // refuses a name that stands twice
  if (parts.entries().empty()) parts.fail("no part stands here", "Write at least the body.");
  for (const auto& [key, value] : parts.entries())
    batch.parts.push_back(read_part(key, value, reading));
  check_parts(parts, batch);
  if (auto node = block.take("after")) batch.after = read_after(*node);
  if (auto node = block.take("scale")) batch.scale = read_scale(*node);
  if (auto node = block.take("shelf")) batch.shelf = file_name(*node, reading);
  block.done();
  return batch;
}

}  // namespace

BatchFile read_batch(const std::string& path, const oils::Library& library) {
  const Document document = Document::from_file(path);
  return read_root(document.root(), path,
                   {library, std::filesystem::path(path).parent_path().string()});
}

BatchFile read_batch_text(const std::string& text, const std::string& name,
                          const std::string& folder, const oils::Library& library) {
  const Document document = Document::from_text(text, name);
  return read_root(document.root(), name, {library, folder});
}

}  // namespace barwright::targets
