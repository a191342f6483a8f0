#include "oils/records/additives.hpp"

#include <array>
#include <span>
#include <utility>

#include "oils/embedded.hpp"
#include "oils/records/library.hpp"
#include "oils/records/oil.hpp"
#include "oils/text/names.hpp"

namespace barwright::oils {

namespace additives {
std::span<const EmbeddedFile> embedded_files();
}

using yaml::Node;

namespace {

constexpr std::array<std::pair<std::string_view, AdditiveKind>, 11> kKinds{
    {{"colour", AdditiveKind::colour},
     {"clay", AdditiveKind::clay},
     {"grain", AdditiveKind::grain},
     {"scent", AdditiveKind::scent},
     {"hardener", AdditiveKind::hardener},
     {"sweet", AdditiveKind::sweet},
     {"chelator", AdditiveKind::chelator},
     {"milk", AdditiveKind::milk},
     {"liquid", AdditiveKind::liquid},
     {"topping", AdditiveKind::topping},
     {"embed", AdditiveKind::embed}}};
constexpr std::array<std::pair<std::string_view, InAlkali>, 4> kInAlkali{
    {{"stable", InAlkali::stable},
     {"shifts", InAlkali::shifts},
     {"dies", InAlkali::dies},
     {"ask", InAlkali::ask}}};
constexpr std::array<std::pair<std::string_view, core::DoseBasis>, 3> kBases{
    {{"oils", core::DoseBasis::oils},
     {"batter", core::DoseBasis::batter},
     {"water", core::DoseBasis::water}}};

template <typename Value, std::size_t N>
Value one_of_words(const Node& node,
                   const std::array<std::pair<std::string_view, Value>, N>& words) {
  std::vector<std::string> known;
  for (const auto& [word, value] : words) {
    if (node.text() == word) return value;
    known.emplace_back(word);
  }
  node.fail("'" + node.text() + "' is not known here", yaml::nearest_and_known(node.text(), known));
}

template <typename Value, std::size_t N>
const char* word_of(Value value, const std::array<std::pair<std::string_view, Value>, N>& words) {
  for (const auto& [word, each] : words) {
    if (each == value) return word.data();
  }
  return "";
}

core::Mark read_mark(const Node& block) {
  const Node node = block.need("mark");
  const auto mark = find_mark(node.text());
  if (!mark) {
    node.fail("'" + node.text() + "' is not a mark",
              "Write read, computed, practice, recalled or judgement.");
  }
  return *mark;
}

std::string read_source(const Node& block) {
  const Node node = block.need("source");
  if (node.text() == "own" || node.text() == "common-practice") return node.text();
  static const Library library = Library::embedded();
  if (!library.sources().contains(node.text())) {
    node.fail("'" + node.text() + "' is not in the bibliography",
              "Write a key of oils/data/sources.yaml, or own.");
  }
  return node.text();
}

core::Figure read_dose(const Node& block) {
  block.only({"least", "usual", "most", "unit", "mark", "source"});
  const Node unit = block.need("unit");
  if (unit.text() != "g/kg")
    unit.fail("'" + unit.text() + "' is not read here", "Write unit: g/kg.");
  core::Figure figure;
  figure.span = {block.need("least").number(), block.need("usual").number(),
                 block.need("most").number()};
  if (!(figure.span.low >= 0 && figure.span.low <= figure.span.typical &&
        figure.span.typical <= figure.span.high && figure.span.high <= 1000)) {
    block.fail("the dose does not run from least over usual to most",
               "Give g per kg, 0 to 1000, in that order.");
  }
  figure.mark = figure.range_mark = read_mark(block);
  figure.source = read_source(block);
  return figure;
}

/// [least, typical, most]
core::Span read_span(const Node& node) {
  const auto items = node.items();
  if (items.size() != 3) node.fail("three figures are wanted", "Write [least, typical, most].");
  core::Span span{items[0].number(), items[1].number(), items[2].number()};
  if (!(span.low > 0 && span.low <= span.typical && span.typical <= span.high)) {
    node.fail("the figures do not run from least over typical to most",
              "Write them in that order.");
  }
  return span;
}

/// {KEY: [least, typical, most], mark: recalled, source: own}
core::Figure read_figure(const Node& block, std::string_view key) {
  block.only({key, "mark", "source"});
  core::Figure figure;
  figure.span = read_span(block.need(key));
  figure.mark = figure.range_mark = read_mark(block);
  figure.source = read_source(block);
  return figure;
}

/// {citric: 6 %}: the acid there is, counted as this one; lye is never added for it.
core::Acid read_acid(const Node& block) {
  block.only({"citric", "lactic", "acetic"});
  core::Acid acid;
  acid.strength = 1;
  acid.answer = core::AcidAnswer::let_superfat_rise;
  for (const auto& [key, form] :
       {std::pair{"citric", core::AcidForm::citric_anhydrous},
        std::pair{"lactic", core::AcidForm::lactic}, std::pair{"acetic", core::AcidForm::acetic}}) {
    const auto share = block.get(key);
    if (!share) continue;
    if (acid.grams > 0) block.fail("one acid stands for all of it", "Name one.");
    acid.form = form;
    acid.grams = share->fraction();
  }
  if (!(acid.grams > 0)) block.fail("no acid stands here", "Write such as {citric: 1 %}.");
  return acid;
}

AdditiveHolds read_holds(const Node& block) {
  block.only({"water", "fat", "sugar", "salt", "alcohol", "acid", "fat-saponification-value",
              "mark", "source"});
  AdditiveHolds holds;
  const auto share = [&](std::string_view key) {
    const auto node = block.get(key);
    return node ? node->fraction() : 0.0;
  };
  holds.water = share("water");
  holds.fat = share("fat");
  holds.sugar = share("sugar");
  holds.salt = share("salt");
  holds.alcohol = share("alcohol");
  if (const auto acid = block.get("acid")) holds.acid = read_acid(*acid);
  if (holds.water + holds.fat + holds.sugar + holds.salt + holds.alcohol > 1 + 1e-9) {
    block.fail("it holds more than all of itself", "Make the shares add to at most 100 %.");
  }
  if (holds.fat > 0) {
    holds.fat_saponification_value = read_span(block.need("fat-saponification-value"));
  }
  holds.mark = read_mark(block);
  holds.source = read_source(block);
  return holds;
}

Additive read_record(const Node& key, const Node& value) {
  value.only({"also", "kind", "basis", "dose", "when", "disperse", "does", "alkali", "caution",
              "before-lye", "holds", "slurry", "density", "flash", "behaves"});
  Additive out;
  out.name = key.text();
  out.place = key.place();
  if (const auto also = value.get("also")) {
    for (const auto& item : also->items()) out.also.push_back(item.text());
  }
  out.kind = one_of_words(value.need("kind"), kKinds);
  const auto basis = value.get("basis");
  if (!basis) {
    key.fail("the additive '" + out.name + "' has no basis: what is its dose counted on?",
             "Add 'basis: oils', 'basis: batter' or 'basis: water'.");
  }
  out.basis = one_of_words(*basis, kBases);
  out.dose = read_dose(value.need("dose"));
  out.when = value.need("when").text();
  out.disperse = value.need("disperse").text();
  out.does = value.need("does").text();
  out.alkali = one_of_words(value.need("alkali"), kInAlkali);
  if (const auto caution = value.get("caution")) out.caution = caution->text();
  if (const auto before = value.get("before-lye")) out.before_lye = before->text();
  if (const auto holds = value.get("holds")) out.holds = read_holds(*holds);
  if (const auto slurry = value.get("slurry")) {
    out.slurry = slurry->number();
    if (!(out.slurry > 0) || out.slurry > 20)
      slurry->fail("a slurry takes more than nothing, and up to 20 times the weight in water",
                   "Write such as 'slurry: 2'.");
  }
  if (const auto density = value.get("density")) out.density = read_figure(*density, "g-per-ml");
  if (const auto flash = value.get("flash")) out.flash_celsius = read_figure(*flash, "celsius");
  if (const auto behaves = value.get("behaves")) {
    behaves->only({"thickens", "colours", "rices", "heats"});
    for (const auto& [what, how] : behaves->entries()) out.behaves[what.text()] = how.text();
  }
  return out;
}

}  // namespace

const char* word(AdditiveKind kind) { return word_of(kind, kKinds); }
const char* word(InAlkali alkali) { return word_of(alkali, kInAlkali); }

Additives Additives::embedded() {
  Additives out;
  for (const auto& file : additives::embedded_files()) {
    out.add(yaml::Document::from_tree(file.tree, file.text, "additives/" + std::string(file.name)));
  }
  return out;
}

void Additives::add_text(const std::string& text, const std::string& file) {
  add(yaml::Document::from_text(text, file));
}

void Additives::add(const yaml::Document& document) {
  document.root().only({"additives"});
  for (const auto& [key, value] : document.root().need("additives").entries()) {
    Additive record = read_record(key, value);
    std::vector<std::string> names = record.also;
    names.push_back(record.name);
    for (const auto& name : names) {
      if (!names_.emplace(folded_name(name), all_.size()).second) {
        key.fail("the name '" + name + "' stands twice among the additives", "Name each once.");
      }
    }
    all_.push_back(std::move(record));
  }
}

const Additive* Additives::find(std::string_view name) const {
  const auto found = names_.find(folded_name(name));
  return found == names_.end() ? nullptr : &all_[found->second];
}

std::string Additives::nearest(std::string_view name) const {
  std::vector<std::string> known;
  for (const auto& each : all_) {
    known.push_back(each.name);
    known.insert(known.end(), each.also.begin(), each.also.end());
  }
  return yaml::nearest_name(name, known);
}

}  // namespace barwright::oils
