#include "oils/records/record_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/date.hpp"
#include "oils/records/certificate.hpp"
#include "oils/records/certificate_reader.hpp"
#include "oils/records/figure_reader.hpp"
#include "oils/text/names.hpp"

namespace barwright::oils {

using core::Figure;
using yaml::Node;

namespace {

constexpr double kAcidSumSlack = 0.1;        // % of the fatty acids
constexpr double kMostSaponification = 560;  // mg KOH/g: tributyrin, the shortest, has 557
constexpr double kMostIodine = 400;          // g I2/100 g: above any fat oil

struct UnitOf {
  std::string_view key, unit;
};
constexpr UnitOf kUnits[] = {
    {"acids", "% of fatty acids"},
    {"saponification-value", "mg KOH/g"},
    {"acid-value", "mg KOH/g"},
    {"iodine-value", "g I2/100 g"},
    {"unsaponifiable", "% of fat"},
    {"titre", "C"},
    {"density", "g/mL"},
    {"usual-most", "% of oils"},
};

/// Refuses a figure whose unit the `units` block does not state as we read it.
void check_units(const Node& root) {
  std::vector<std::string> keys;
  for (const UnitOf& entry : kUnits) keys.emplace_back(entry.key);
  const auto units = root.get("units");
  if (units) units->only(keys);
  for (const UnitOf& entry : kUnits) {
    const auto value = root.get(entry.key);
    if (!value) continue;
    const auto stated = units ? units->get(entry.key) : std::nullopt;
    const std::string remedy =
        fmt::format("Write '{}: \"{}\"' under 'units:'.", entry.key, entry.unit);
    if (!stated) value->fail(fmt::format("'{}' has no unit", entry.key), remedy);
    if (stated->text() != entry.unit)
      stated->fail(
          fmt::format("'{}' is read in {}, not in '{}'", entry.key, entry.unit, stated->text()),
          remedy + " Turn the figures into it.");
  }
}

Form read_form(const Node& node) {
  for (const Form form : {Form::triglyceride, Form::wax, Form::free_acid})
    if (node.text() == word(form)) return form;
  const std::string near = yaml::nearest_name(node.text(), {"triglyceride", "wax", "free acid"});
  node.fail(fmt::format("'{}' is no kind of fat we can reckon with", node.text()),
            yaml::did_you_mean(near, "Write triglyceride, wax or free acid."));
}

std::set<std::string> read_tag_words(const Node& list, const Library& library) {
  std::set<std::string> out;
  for (const Node& node : list.items()) {
    const std::string tag = node.text();
    if (!library.knows_tag(tag)) {
      const std::string near = library.nearest_tag(tag);
      node.fail(fmt::format("no tag is called '{}'", tag),
                yaml::did_you_mean(
                    near, "Use a tag of tags.yaml, or add it in a tags.yaml beside this file."));
    }
    if (!out.insert(tag).second)
      node.fail(fmt::format("the tag '{}' stands twice", tag), "Keep one of the two.");
  }
  for (bool grew = true; grew;) {
    grew = false;
    for (const std::string& tag : std::set<std::string>(out))
      for (const std::string& more : library.tags().at(tag).implies)
        grew = out.insert(more).second || grew;
  }
  if (out.contains("vegan") && out.contains("animal"))
    list.fail("it is tagged both vegan and of an animal", "Take one of the two away.");
  return out;
}

std::vector<std::string> read_words(const Node& list) {
  std::vector<std::string> out;
  for (const Node& node : list.items()) {
    std::string text = node.text();
    if (folded_name(text).empty()) node.fail("an empty name stands here", "Write it or remove it.");
    out.push_back(std::move(text));
  }
  return out;
}

std::string plain_text(const Node& node) {
  std::string text = node.text();
  if (text.empty()) node.fail("nothing stands here", "Write a name or a sentence.");
  return text;
}

class RecordReader {
 public:
  RecordReader(const Node& root, const Library& library, Completeness completeness)
      : root_(root), library_(library), partial_(completeness == Completeness::partial) {}

  Record read() {
    root_.only({"oil",
                "like",
                "also",
                "inci",
                "once-saponified",
                "name-status",
                "kind",
                "tags",
                "solid-at-25C",
                "note",
                "units",
                "sources",
                "acids",
                "saponification-value",
                "acid-value",
                "iodine-value",
                "unsaponifiable",
                "titre",
                "density",
                "usual-most",
                "confirmed"});
    check_units(root_);
    if (root_.has("sources")) record_.own_sources = read_sources_block(root_.need("sources"));
    const FigureReader figures(library_, record_.own_sources);
    read_names();
    read_acids(figures);
    Oil& oil = record_.oil;
    required(figures, "saponification-value", 1, kMostSaponification, oil.saponification_value);
    required(figures, "iodine-value", 0, kMostIodine, oil.iodine_value);
    required(figures, "unsaponifiable", 0, 100, oil.unsaponifiable);
    if (const auto node = root_.get("acid-value"))
      oil.acid_value = figures.figure(*node, 0, oil.saponification_value.span.high);
    if (const auto node = root_.get("titre")) oil.titre = figures.figure(*node, -60, 120);
    if (const auto node = root_.get("density")) {
      oil.density = figures.figure(*node, 0.7, 1.2, std::nullopt, {"at"});
      oil.density_at_celsius = node->need("at").celsius();
    }
    if (const auto node = root_.get("usual-most")) oil.usual_most = figures.figure(*node, 0, 100);
    return std::move(record_);
  }

  static std::vector<Source> read_sources_block(const Node& block) {
    std::vector<Source> out;
    for (const auto& [key, value] : block.entries()) out.push_back({key.text(), plain_text(value)});
    return out;
  }

 private:
  void read_names() {
    Oil& oil = record_.oil;
    const Node name = root_.need("oil");
    oil.name = plain_text(name);
    oil.place = name.place();
    if (const auto node = root_.get("like")) record_.like = library_.need(*node).name;
    if (const auto node = root_.get("also")) oil.synonyms = read_words(*node);
    if (partial_ && !root_.has("kind")) {
      // A certificate rarely says: taken from the oil it is a lot of.
      const Oil* like = library_.find(record_.like.empty() ? oil.name : record_.like);
      if (like != nullptr) oil.form = like->form;
    } else {
      oil.form = read_form(root_.need("kind"));
    }
    if (!partial_ || root_.has("tags")) oil.tags = read_tag_words(root_.need("tags"), library_);
    if (!partial_ || root_.has("solid-at-25C"))
      oil.solid_at_25c = root_.need("solid-at-25C").yes_no();
    if (!partial_ || root_.has("inci")) oil.inci = plain_text(root_.need("inci"));
    if (!partial_ || root_.has("once-saponified")) {
      oil.saponified_name = plain_text(root_.need("once-saponified"));
      const Node status = root_.need("name-status");
      oil.saponified_name_by_analogy = status.text() == "formed by analogy";
      if (!oil.saponified_name_by_analogy && status.text() != "established")
        status.fail(fmt::format("'{}' is no standing of a name", status.text()),
                    "Write established, or formed by analogy.");
    }
    if (const auto node = root_.get("note")) oil.note = plain_text(*node);
    if (const auto node = root_.get("confirmed")) record_.confirmed = read_reason(*node);
  }

  void read_acids(const FigureReader& figures) {
    const auto block = root_.get("acids");
    if (!block) {
      if (record_.oil.form == Form::wax) return;
      if (!partial_) root_.need("acids");
      record_.missing.emplace_back("acids");
      return;
    }
    record_.acids_place = block->place();
    std::optional<Provenance> from;
    for (const auto& [key, value] : block->entries()) {
      if (key.text() == "from") {
        value.only({"source", "mark", "range-source", "range-mark"});
        from = figures.provenance(value);
      }
    }
    double sum = 0;
    for (const auto& [key, value] : block->entries()) {
      if (key.text() == "from") continue;
      const auto acid = core::find_acid(key.text());
      if (!acid || core::acid_facts()[static_cast<std::size_t>(*acid)].key != key.text())
        unknown_acid(key);
      const Figure figure = figures.figure(value, 0, 100, from);
      sum += figure.span.typical;
      record_.oil.acids[static_cast<std::size_t>(*acid)] = figure;
    }
    record_.acid_sum = sum;
    if (!partial_ && std::abs(sum - 100) > kAcidSumSlack)
      block->fail(fmt::format("the typical acids sum to {:.2f} %, not to 100", sum),
                  "Figures are % of all fatty acids: correct them, or scale them to 100.");
  }

  [[noreturn]] static void unknown_acid(const Node& key) {
    std::vector<std::string> keys;
    for (const auto& facts : core::acid_facts()) keys.emplace_back(facts.key);
    const std::string near = yaml::nearest_name(key.text(), keys);
    key.fail(fmt::format("no fatty acid is written '{}'", key.text()),
             yaml::did_you_mean(near, fmt::format("Known are {}.", fmt::join(keys, ", "))));
  }

  void required(const FigureReader& figures, const char* key, double least, double most,
                Figure& into) {
    const auto node = root_.get(key);
    if (!node && partial_) {
      record_.missing.emplace_back(key);
      return;
    }
    into = figures.figure(root_.need(key), least, most);
  }

  const Node& root_;
  const Library& library_;
  bool partial_;
  Record record_;
};

}  // namespace

Record read_record(const Node& root, const Library& library, Completeness completeness) {
  return RecordReader(root, library, completeness).read();
}

std::vector<Source> read_sources(const Node& root) {
  root.only({"edition", "sources"});
  return RecordReader::read_sources_block(root.need("sources"));
}

std::string read_edition(const Node& root) {
  const Node edition = root.need("edition");
  if (!core::find_day(edition.text()))
    edition.fail("'" + edition.text() + "' is not a day", "Write year-month-day.");
  return edition.text();
}

std::vector<Tag> read_tags(const Node& root) {
  root.only({"tags"});
  std::vector<Tag> out;
  std::vector<std::string> words;
  const Node block = root.need("tags");
  for (const auto& [key, value] : block.entries()) words.push_back(key.text());
  for (const auto& [key, value] : block.entries()) {
    value.only({"means", "implies"});
    Tag tag{key.text(), plain_text(value.need("means")), {}};
    if (const auto implied = value.get("implies"))
      for (const Node& node : implied->items()) {
        if (std::find(words.begin(), words.end(), node.text()) == words.end())
          node.fail(fmt::format("no tag is called '{}'", node.text()), "Define it in this file.");
        tag.implies.push_back(node.text());
      }
    out.push_back(std::move(tag));
  }
  return out;
}

std::vector<AmbiguousWord> read_ambiguous(const Node& root) {
  root.only({"ambiguous"});
  std::vector<AmbiguousWord> out;
  for (const auto& [key, value] : root.need("ambiguous").entries()) {
    if (!value.is_map()) {
      out.push_back({key.text(), read_words(value), {}});
      continue;
    }
    value.only({"kept", "not-kept"});
    out.push_back({key.text(), read_words(value.need("kept")), plain_text(value.need("not-kept"))});
  }
  return out;
}

}  // namespace barwright::oils
