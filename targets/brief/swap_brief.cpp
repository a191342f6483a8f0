#include "targets/brief/swap_brief.hpp"

#include <filesystem>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/brief/brief_reader.hpp"
#include "targets/brief/manners_reader.hpp"
#include "targets/brief/shared_keys.hpp"
#include "targets/brief/wish_phrase.hpp"
#include "targets/brief/wish_reader.hpp"
#include "targets/brief/wish_subject.hpp"
#include "targets/files/lye_file_reader.hpp"
#include "targets/files/make_size_reader.hpp"
#include "targets/files/oil_rules_blend.hpp"
#include "targets/files/oil_rules_reader.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Document;
using yaml::Node;

namespace {

Aspect read_aspect(const Node& node) {
  Aspect aspect{plain_text(node), std::nullopt, written(node)};
  if (folded_text(node) == "dry touch") return aspect;
  std::vector<std::string> known = {"dry touch", "after-feel"};
  for (const Property property : all_properties()) known.emplace_back(name(property));
  for (const std::string& word : known)
    if (same_word(folded_text(node), word)) {
      aspect.property = read_subject(node).property;
      return aspect;
    }
  unknown_word(node, known);
}

void read_bench(const Node& node, Keep& keep, std::vector<Wish>& wishes) {
  Block block(node);
  block.read("thickens", [&](const Node& thickens) {
    Subject subject;
    subject.property = Property::working_time;
    subject.name = "working-time";
    // "no sooner than now": thickening later is a longer working time.
    for (Wish& wish : read_wish_phrases("thickens", thickens, subject))
      wishes.push_back(std::move(wish));
  });
  block.read("melts", [&](const Node& melts) {
    Phrase phrase(melts);
    const std::string remedy = "Write 'below 45 C'.";
    if (!phrase.take_any({"below", "at most", "no higher than", "under"}))
      phrase.end({"below", "at", "most"}, remedy);
    keep.melts_below_celsius = phrase.celsius();
    phrase.end({}, remedy);
    keep.melts_written = {"melts: " + melts.text(), melts.place(), melts};
  });
  block.read("cut-by", [&](const Node& cut) {
    keep.cut_by_hours = above_zero(cut.hours(), cut, "a time");
    keep.cut_by_written = {"cut-by: " + cut.text(), cut.place(), cut};
  });
  block.done();
}

void read_keep(const Node& node, SwapBrief& brief) {
  using Feel = Keep::Feel;
  Block block(node);
  block.read("feel", [&](const Node& feel) {
    brief.keep.feel =
        choice<Feel>(feel, {{"not to be told apart at the basin", Feel::not_told_apart},
                            {"not to be told apart", Feel::not_told_apart},
                            {"about the same", Feel::about_the_same},
                            {"about as now", Feel::about_the_same},
                            {"free", Feel::free}});
    brief.keep.feel_written = {"feel: " + feel.text(), feel.place(), feel};
  });
  block.read("matters-most", [&](const Node& most) {
    for (const Node& item : list_of(most)) {
      Aspect aspect = read_aspect(item);
      for (const Aspect& other : brief.keep.matters_most)
        if (yaml::folded(other.name) == yaml::folded(aspect.name))
          item.fail("'" + aspect.name + "' stands in the list a second time", "Take one out.");
      brief.keep.matters_most.push_back(std::move(aspect));
    }
  });
  block.read("bench", [&](const Node& bench) { read_bench(bench, brief.keep, brief.wishes); });
  take_wishes(block, {"feel", "matters-most", "bench"}, brief.wishes);
  block.done();
}

/// "first 3 names on the label", "first name".
int first_names(const Node& node) {
  const std::string words = folded_text(node);
  if (words == "first name" || words == "first name on the label") return 1;
  if (!words.starts_with("first ") || words.find(" name") == std::string::npos) return 0;
  Phrase phrase(node);
  const std::string remedy = "Write 'first 3 names on the label'.";
  phrase.take("first");
  const double count = phrase.number();
  if (count < 1 || count > 20 || count != static_cast<int>(count))
    node.fail("'" + figure(count) + "' is no number of names", remedy);
  if (!phrase.take_any({"names on the label", "names", "name on the label", "name"}))
    phrase.end({"names"}, remedy);
  phrase.end({}, remedy);
  return static_cast<int>(count);
}

/// "no-nut claim", "palm-free claim", "vegan claim".
Claim read_claim(const Node& node, const Reading& reading) {
  Claim claim;
  claim.written = written(node);
  claim.first_names = first_names(node);
  if (claim.first_names > 0) return claim;
  std::string words = folded_text(node);
  if (words.ends_with(" claim")) words.erase(words.size() - 6);
  bool none = false;
  if (words.starts_with("no ")) {
    words.erase(0, 3);
    none = true;
  } else if (words.ends_with(" free")) {
    words.erase(words.size() - 5);
    none = true;
  }
  claim.all = !none;
  if (none) {
    // The wider reading keeps the claim true: "nut" is every tag with that word in it.
    claim.tags = tags_with_word(words, reading);
    if (words == "nut" && reading.library.knows_tag("peanut")) claim.tags.push_back("peanut");
  }
  if (claim.tags.empty()) {
    const std::string tag = find_tag(words, reading);
    if (!tag.empty()) claim.tags.push_back(tag);
  }
  if (claim.tags.empty())
    node.fail("'" + node.text() + "': no tag of the library says '" + words + "'",
              "Write 'no-palm claim', 'nut-free claim', 'vegan claim' or 'first 3 names'. " +
                  yaml::nearest_and_known(words, all_tags(reading)));
  return claim;
}

int read_show(const Node& node) {
  const std::string remedy = "Write 'price of feel, 6 steps'.";
  Phrase phrase(node);
  if (!phrase.take("price of feel")) phrase.end({"price", "of", "feel"}, remedy);
  int steps = 6;
  if (phrase.take(",")) {
    const double count = phrase.number();
    if (count < 2 || count > 50 || count != static_cast<int>(count))
      node.fail("'" + figure(count) + "' is no number of steps", "Write 2 to 50 steps.");
    steps = static_cast<int>(count);
    if (!phrase.take("steps")) phrase.fail("'" + node.text() + "' does not say of what", remedy);
  }
  phrase.end({"steps"}, remedy);
  return steps;
}

void read_save(const Node& node, SwapBrief& brief) {
  const std::string remedy = "Write 'at least 0.09 EUR per bar', per kg or per batch.";
  Phrase phrase(node);
  if (!phrase.take("at least")) phrase.end({"at", "least"}, remedy);
  brief.save = phrase.price();
  if (brief.save->per == Per::all) phrase.fail("a saving without 'per'", remedy);
  phrase.end({"per", "bar", "kg", "batch"}, remedy);
  brief.save_written = {"save: " + node.text(), node.place(), node};
}

TestBatch read_test(const Node& node, const Reading& reading) {
  TestBatch test;
  Block block(node);
  const Node batch = block.need("batch");
  const MakeSize size = read_make(batch, reading.folder);
  if (!size.oils_grams) batch.fail("a test batch is a mass of oils", "Write '500 g oils'.");
  test.oils_grams = *size.oils_grams;
  block.read("beside", [&](const Node& beside) { test.beside = plain_text(beside); });
  block.done();
  return test;
}

RecipeFile read_recipe_of(const Node& node, const Reading& reading) {
  if (!node.is_scalar()) return read_recipe_node(node, reading);
  const FileName file = file_name(node, reading);
  if (!std::filesystem::exists(file.path))
    node.fail("there is no file '" + file.path + "'",
              "Check the name; it is looked for from the folder of this file.");
  return read_recipe(file.path, reading.library);
}

void read_replace(const Node& node, const Reading& reading, SwapBrief& brief) {
  if (node.entries().empty())
    node.fail("no oil to replace stands here", "Write one, such as {mango butter: none}.");
  core::Faults::each(node.entries(), [&](const auto& entry) {
    const auto& [key, value] = entry;
    OilLimit limit = read_oil_limit(key, value, reading);
    bool in_recipe = false;
    for (const BlendOil& oil : brief.recipe.blend.oils) in_recipe |= oil.oil.name == limit.oil.name;
    if (!in_recipe)
      key.fail("'" + key.text() + "' is not in the recipe", "Replace an oil the recipe has.");
    if (!limit.most)
      value.fail("'" + limit.written.text + "' does not say how much may stay",
                 "Write 'at most 4 %' or 'none'.");
    for (const OilLimit& other : brief.replace)
      if (other.oil.name == limit.oil.name)
        key.fail("'" + key.text() + "' is replaced a second time", "Keep one of the two.");
    brief.replace.push_back(std::move(limit));
  });
}

SwapBrief read_root(const Node& root, const std::string& file, const Reading& reading) {
  SwapBrief brief;
  brief.file = file;
  brief.folder = reading.folder;
  Block block(root);
  block.need("brief", [&](const Node& node) { brief.name = plain_text(node); });
  const bool old =
      block.need("recipe", [&](const Node& node) { brief.recipe = read_recipe_of(node, reading); });
  block.need("replace", [&](const Node& node) {
    if (old) read_replace(node, reading, brief);
  });
  block.need("using", [&](const Node& node) { brief.using_oils = read_oils_from(node, reading); });
  block.read("shelf", [&](const Node& node) { brief.shelf = file_name(node, reading); });
  block.read("keep", [&](const Node& node) { read_keep(node, brief); });
  block.read("want", [&](const Node& node) {
    for (Wish& wish : read_wishes(node)) brief.wishes.push_back(std::move(wish));
  });
  block.read("best", [&](const Node& node) { brief.goals = read_goals(node, reading); });
  read_rule_keys(block, reading, brief.rules, brief.wishes);
  block.read("save", [&](const Node& node) { read_save(node, brief); });
  block.read("may-not-change", [&](const Node& node) {
    core::Faults::each(list_of(node), [&](const Node& item) {
      brief.claims.push_back(read_claim(item, reading));
    });
  });
  block.read("show", [&](const Node& node) { brief.price_of_feel_steps = read_show(node); });
  block.read("test-first", [&](const Node& node) { brief.test_first = read_test(node, reading); });
  brief.make = brief.recipe.make;
  brief.lye = brief.recipe.lye;
  brief.scale = brief.recipe.scale;
  if (!brief.shelf) brief.shelf = brief.recipe.shelf;
  read_batch_keys(block, reading, {brief.make, brief.lye, brief.scale, brief.sureness});
  block.done();
  return brief;
}

}  // namespace

SwapBrief read_swap_brief(const std::string& path, const oils::Library& library) {
  const Document document = Document::from_file(path);
  return read_root(document.root(), path,
                   {library, std::filesystem::path(path).parent_path().string()});
}

SwapBrief read_swap_brief_text(const std::string& text, const std::string& name,
                               const std::string& folder, const oils::Library& library) {
  const Document document = Document::from_text(text, name);
  return read_root(document.root(), name, {library, folder});
}

}  // namespace barwright::targets
