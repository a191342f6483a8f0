#include "targets/files/notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <set>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/files/oil_rules_blend.hpp"
#include "targets/model/model.hpp"
#include "targets/model/words.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

namespace {

enum class Unit { grams, hours, minutes, millimetres, weeks };

struct MeansFacts {
  Means means;
  const char* words;
  std::optional<Property> property;
  Unit unit;
};

const std::array<MeansFacts, kMeansCount>& means_facts() {
  static const std::array<MeansFacts, kMeansCount> all = {{
      {Means::grams_lost, "grams lost", Property::thrift, Unit::grams},
      {Means::hours_until_cut, "hours until cut", Property::cut_firmness, Unit::hours},
      {Means::minutes_to_trace, "minutes to trace", Property::working_time, Unit::minutes},
      {Means::minutes_too_thick, "minutes until too thick", Property::working_time, Unit::minutes},
      {Means::weight, "weight", std::nullopt, Unit::grams},
      {Means::dent, "dent", Property::hardness, Unit::millimetres},
      {Means::foam, "foam", Property::lather, Unit::millimetres},
      {Means::weeks_until_spot, "weeks until a spot", Property::keeping, Unit::weeks},
  }};
  return all;
}

double read_figure(const Node& node, Unit unit) {
  switch (unit) {
    case Unit::grams:
      return above_zero(node.grams(), node, "the weight");
    case Unit::hours:
      return above_zero(node.hours(), node, "the time");
    case Unit::minutes:
      return above_zero(60 * node.hours(), node, "the time");
    case Unit::millimetres:
      return above_zero(node.millimetres(), node, "the length");
    case Unit::weeks:
      return above_zero(node.hours() / (24 * 7), node, "the time");
  }
  return 0;
}

core::Day read_day(const Node& node) {
  const auto day = core::find_day(yaml::trimmed(node.text()));
  if (!day)
    node.fail("'" + node.text() + "' is not a date", "Write year, month and day: 2027-02-13.");
  if (!core::is_plausible(*day))
    node.fail("'" + node.text() + "' is no day a workshop works on", "Correct the year.");
  return *day;
}

// Reads one file's notes, line by line; what is wrong is kept and told together.
class Reader {
 public:
  Reader(MakerNotes& out, const Reading& reading) : out_(out), reading_(reading) {}

  void pours(const Node& node) {
    core::Faults::each(node.entries(), [&](const auto& entry) {
      const std::string name = plain_text(entry.first);
      for (const std::string& other : names_)
        if (yaml::folded(other) == yaml::folded(name))
          entry.first.fail("'" + name + "' is called as '" + other + "' is",
                           "Give each pour a name of its own, such as its day.");
      names_.push_back(name);
      pour(entry.first, entry.second);
    });
  }

  void note(const Node& node) {
    Block block(node);
    block.one_only({"compare", "measure"});
    block.settle();
    if (block.has("measure")) return measurement(block);
    if (block.has("compare")) return comparison(block);
    node.fail("a note compares two bars or measures some",
              "Start it with 'compare: POUR' and 'against: POUR', or with 'measure: grams lost'.");
  }

 private:
  void pour(const Node& key, const Node& value) {
    Pour pour;
    pour.name = names_.back();
    pour.written = written(key);
    Block block(value);
    block.need("recipe", [&](const Node& recipe) { pour.recipe = recipe_of(recipe); });
    block.need("made", [&](const Node& made) { pour.made = read_day(made); });
    block.read("lots", [&](const Node& lots) {
      for (const auto& [oil, lot] : lots.entries())
        pour.lots.emplace_back(read_oil(oil, reading_).name, plain_text(lot));
    });
    block.done();
    for (const auto& [oil, lot] : pour.lots) {
      const auto& oils = pour.recipe.blend.oils;
      const bool in = std::any_of(oils.begin(), oils.end(), [&, &name = oil](const BlendOil& o) {
        return o.oil.name == name;
      });
      if (!in) key.fail("a lot of " + oil + ", which this recipe lacks", "Take the lot out.");
    }
    out_.pours.push_back(std::move(pour));
  }

  RecipeFile recipe_of(const Node& node) const {
    if (!node.is_scalar()) return read_recipe_node(node, reading_);
    const FileName file = file_name(node, reading_);
    std::error_code none;
    if (!std::filesystem::exists(file.path, none))
      node.fail("there is no file '" + file.path + "'",
                "Check the name; it is looked for from the folder of this file.");
    try {
      return read_recipe(file.path, reading_.library);
    } catch (core::InputError& error) {
      error.add_context(
          fmt::format("in the recipe that {}:{} names", node.place().file, node.place().line));
      throw;
    }
  }

  // Place of a pour; a pour that could not be read is no unknown name, and has been told.
  std::size_t pour_named(const Node& node) const {
    const std::string name = plain_text(node);
    for (std::size_t i = 0; i < out_.pours.size(); ++i)
      if (yaml::folded(out_.pours[i].name) == yaml::folded(name)) return i;
    for (const std::string& known : names_)
      if (yaml::folded(known) == yaml::folded(name)) return out_.pours.size();
    node.fail("no pour is called '" + name + "'",
              yaml::nearest_and_known(name, names_) + " A bar has its line under 'pours:' first.");
  }
  bool read(std::size_t pour) const { return pour < out_.pours.size(); }

  double age(std::size_t pour, const core::Day& judged, const Node& node) const {
    if (!read(pour)) return 0;
    const int days = core::days_between(out_.pours[pour].made, judged);
    if (days < 0)
      node.fail("on " + core::text(judged) + " '" + out_.pours[pour].name +
                    "' was not made yet: it was poured on " + core::text(out_.pours[pour].made),
                "Correct one of the two days.");
    return days;
  }

  void comparison(Block& block) {
    ComparisonNote base;
    core::Day judged{};
    std::optional<Node> day;
    bool known = block.need("compare", [&](const Node& n) { base.bar = pour_named(n); });
    known &= block.need("against", [&](const Node& n) {
      base.against = pour_named(n);
      if (read(base.against) && base.against == base.bar)
        n.fail("a bar is not compared with itself", "Name the other pour.");
    });
    known &= block.need("judged", [&](const Node& n) {
      judged = read_day(n);
      day = n;
    });
    block.read("blind", [&](const Node& n) { base.blind = n.yes_no(); });
    if (known) {
      block.faults().of([&] { base.bar_days = age(base.bar, judged, *day); });
      block.faults().of([&] { base.against_days = age(base.against, judged, *day); });
    }
    std::vector<ComparisonNote> found;
    for (const auto& [key, value] : block.take_rest())
      block.faults().of([&, &k = key, &v = value] {
        ComparisonNote one = base;
        one.property = property_named(k);
        one.written = written(k, v);
        for (const Node& verdict : list_of(v))
          one.verdicts.push_back(read_verdict(verdict, one.property));
        found.push_back(std::move(one));
      });
    if (found.empty() && block.faults().none())
      block.node().fail("this note says nothing of the two bars",
                        "Add a line such as 'hardness: clearly firmer'.");
    block.done();
    if (!read(base.bar) || !read(base.against)) return;
    for (ComparisonNote& one : found) out_.comparisons.push_back(std::move(one));
  }

  static Property property_named(const Node& key) {
    std::vector<std::string> known;
    for (const Property property : all_properties()) {
      if (!PropertyModel::has_form(property)) continue;
      if (yaml::folded(name(property)) == yaml::folded(key.text())) return property;
      known.emplace_back(name(property));
    }
    key.fail("'" + key.text() + "' is nothing that two bars are compared by",
             yaml::nearest_and_known(key.text(), known));
  }

  static Verdict read_verdict(const Node& node, Property property) {
    const std::string text = folded_text(node);
    if (same_word(text, "no difference") || same_word(text, "the same"))
      return Verdict::no_difference;
    const PropertyWords& word = targets::words(property);
    const std::vector<std::string> more = {"more", word.more}, less = {"less", word.less};
    for (const bool clear : {true, false}) {
      const std::string size = clear ? "clearly " : "a little ";
      for (const std::string& side : more)
        if (same_word(text, size + side))
          return clear ? Verdict::clearly_more : Verdict::little_more;
      for (const std::string& side : less)
        if (same_word(text, size + side))
          return clear ? Verdict::clearly_less : Verdict::little_less;
    }
    unknown_word(node, {"clearly " + word.more, "a little " + word.more, "no difference",
                        "a little " + word.less, "clearly " + word.less});
  }

  void measurement(Block& block) {
    MeasurementNote note;
    note.written = written(block.node());
    const MeansFacts* facts = nullptr;
    core::Day judged{};
    std::optional<Node> day;
    block.need("measure", [&](const Node& n) {
      facts = &facts_of(n);
      note.means = facts->means;
      note.written = written(n);
    });
    block.need("judged", [&](const Node& n) {
      judged = read_day(n);
      day = n;
    });
    block.read("session", [&](const Node& n) { note.session = plain_text(n); });
    block.read("how", [](const Node& n) { plain_text(n); });
    block.need("found", [&](const Node& found) {
      if (facts == nullptr || !day) return;
      std::set<std::size_t> seen;
      core::Faults::each(found.entries(), [&](const auto& entry) {
        const auto& [key, value] = entry;
        Found one;
        one.bar = pour_named(key);
        one.written = written(key, value);
        if (read(one.bar) && !seen.insert(one.bar).second)
          key.fail("'" + key.text() + "' stands here a second time",
                   "Put the second figure into a note of its own.");
        one.days = age(one.bar, judged, *day);
        const bool none = same_word(folded_text(value), "none yet");
        if (none && facts->means != Means::weeks_until_spot)
          value.fail("'none yet' is said of spots alone", "Write the figure with its unit.");
        one.at_least = none;
        one.figure = none ? one.days / 7 : read_figure(value, facts->unit);
        if (none && !(one.figure > 0))
          value.fail("nothing is known of a bar on the day it was poured", "Look again later.");
        if (read(one.bar)) note.readings.push_back(std::move(one));
      });
    });
    block.done();
    out_.measurements.push_back(std::move(note));
  }

  static const MeansFacts& facts_of(const Node& node) {
    std::vector<std::string> known;
    const std::string text = folded_text(node);
    for (const MeansFacts& facts : means_facts()) {
      if (same_word(text, facts.words)) return facts;
      known.emplace_back(facts.words);
    }
    unknown_word(node, known);
  }

  MakerNotes& out_;
  const Reading& reading_;
  std::vector<std::string> names_;
};

MakerNotes read_root(const Node& root, const std::string& file, const Reading& reading) {
  MakerNotes out;
  out.file = file;
  Reader reader(out, reading);
  Block block(root);
  block.read({"notes-of", "workshop"}, [](const Node& n) { plain_text(n); });
  block.read("shelf", [&](const Node& n) { plain_text(n); });  // read with the oils
  block.need("pours", [&](const Node& n) { reader.pours(n); });
  block.read("notes", [&](const Node& n) {
    if (n.is_list() && n.items().empty()) return;
    core::Faults::each(list_of(n), [&](const Node& one) { reader.note(one); });
  });
  block.done();
  return out;
}

}  // namespace

const char* words(Means means) { return means_facts()[static_cast<std::size_t>(means)].words; }

std::optional<Property> property_of(Means means) {
  return means_facts()[static_cast<std::size_t>(means)].property;
}

std::vector<std::size_t> MakerNotes::without_note() const {
  std::vector<bool> spoken(pours.size(), false);
  for (const ComparisonNote& note : comparisons) spoken[note.bar] = spoken[note.against] = true;
  for (const MeasurementNote& note : measurements)
    for (const Found& one : note.readings) spoken[one.bar] = true;
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < pours.size(); ++i)
    if (!spoken[i]) out.push_back(i);
  return out;
}

MakerNotes read_notes(const std::string& path, const oils::Library& library) {
  const auto document = yaml::Document::from_file(path);
  return read_root(document.root(), path,
                   {library, std::filesystem::path(path).parent_path().string()});
}

MakerNotes read_notes_text(const std::string& text, const std::string& name,
                           const std::string& folder, const oils::Library& library) {
  const auto document = yaml::Document::from_text(text, name);
  return read_root(document.root(), name, {library, folder});
}

}  // namespace barwright::targets
