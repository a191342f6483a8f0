#include "targets/model/constants_reader.hpp"

#include <algorithm>
#include <cmath>

#include "oils/text/names.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::targets {
namespace {

using oils::yaml::Document;
using oils::yaml::Node;

class Reader {
 public:
  explicit Reader(ConstantTable& table) : table_(table) { table_.constants.resize(kConstantCount); }

  void sources(const Node& root) {
    root.only({"sources"});
    for (const auto& [key, work] : root.need("sources").entries()) {
      table_.sources.emplace_back(key.text(), work.text());
      known_.push_back(key.text());
    }
  }

  void model(const Node& root) {
    root.only({"constants", "oxidation-ratios", "acids"});
    scalars(root.need("constants"));
    for (const Node& set : root.need("oxidation-ratios").items()) {
      set.only({"monoene", "diene", "triene", "mark", "source"});
      table_.oxidation.push_back({set.need("monoene").number(), set.need("diene").number(),
                                  set.need("triene").number(), mark(set.need("mark")),
                                  source(set.need("source"))});
    }
    const Constant& choice = table_.constants[index(Scalar::oxidation_ratios)];
    if (static_cast<double>(table_.oxidation.size()) != choice.spread.size)
      root.need("oxidation-ratios")
          .fail("as many sets as 'oxidation-ratios' has choices are wanted", "make the two agree");
    const Node acids = root.need("acids");
    acids.only(words(table_names()));
    for (std::size_t t = 0; t < kTableCount; ++t)
      table(static_cast<Table>(t), acids.need(table_names()[t]));
  }

  void titres(const Node& root) {
    root.only({"source", "mark", "profiles", "titres"});
    source(root.need("source"));
    mark(root.need("mark"));
    const Node profiles = root.need("profiles");
    profiles.only({"source", "mark"});
    source(profiles.need("source"));
    mark(profiles.need("mark"));
    for (const auto& [oil, node] : root.need("titres").entries()) {
      node.only({"printed", "acids"});
      PrintedTitre titre{oil.text(), node.need("printed").celsius(), {}};
      double sum = 0;
      for (const auto& [key, percent] : node.need("acids").entries()) {
        core::at(titre.acids, acid(key)) = percent.number();
        sum += percent.number();
      }
      if (!(sum > 0)) node.fail("a profile needs fatty acids", "state them in % of the acids");
      for (double& share : titre.acids) share /= sum;
      table_.titres.push_back(titre);
    }
    if (table_.titres.empty()) root.fail("no titre is stated", "the offset is fitted to them");
  }

 private:
  template <std::size_t N>
  static std::vector<std::string> words(const std::array<std::string_view, N>& names) {
    return {names.begin(), names.end()};
  }

  void scalars(const Node& constants) {
    constants.only(words(scalar_names()));
    for (std::size_t i = 0; i < kScalarCount; ++i) {
      const Node node = constants.need(scalar_names()[i]);
      node.only({"value", "unit", "mark", "source", "spread", "why", "about"});
      Constant& constant = table_.constants[i];
      constant.key = scalar_names()[i];
      constant.value = node.need("value").number();
      constant.unit = node.need("unit").text();
      constant.mark = mark(node.need("mark"));
      constant.source = source(node.need("source"));
      constant.spread = spread(node.need("spread"), constant.value);
      constant.why = node.need("why").text();
      if (constant.spread.kind != Spread::Kind::none) constant.about = node.need("about").text();
    }
  }

  void table(Table which, const Node& node) {
    node.only({"unit", "spread", "why", "values"});
    const bool unsaturated_only = which == Table::concentrated_point;
    const Node values = node.need("values");
    std::vector<std::string> allowed;
    for (const core::AcidFacts& facts : core::acid_facts())
      if (!unsaturated_only || facts.double_bonds > 0) allowed.emplace_back(facts.key);
    values.only(allowed);
    for (const core::AcidFacts& facts : core::acid_facts()) {
      Constant& constant = table_.constants[index(which, facts.acid)];
      constant.key = table_names()[static_cast<std::size_t>(which)];
      constant.acid = facts.acid;
      constant.unit = node.need("unit").text();
      constant.used = !unsaturated_only || facts.double_bonds > 0;
      if (!constant.used) continue;
      const Node entry = values.need(facts.key);
      entry.only({"value", "mark", "source", "spread", "why"});
      constant.value = entry.need("value").number();
      constant.mark = mark(entry.need("mark"));
      constant.source = source(entry.need("source"));
      constant.spread =
          spread(entry.has("spread") ? entry.need("spread") : node.need("spread"), constant.value);
      constant.why = entry.has("why") ? entry.need("why").text() : node.need("why").text();
    }
  }

  static core::FattyAcid acid(const Node& key) {
    if (const auto found = core::find_acid(key.text())) return *found;
    std::vector<std::string> keys;
    for (const core::AcidFacts& facts : core::acid_facts()) keys.emplace_back(facts.key);
    key.fail("unknown fatty acid '" + key.text() + "'",
             "nearest known: " + oils::yaml::nearest_name(key.text(), keys));
  }

  static core::Mark mark(const Node& node) {
    for (int m = 0; m <= static_cast<int>(core::Mark::judgement); ++m)
      if (node.text() == core::word(static_cast<core::Mark>(m))) return static_cast<core::Mark>(m);
    node.fail("unknown mark '" + node.text() + "'",
              "write read, computed, practice, recalled or judgement");
  }

  std::string source(const Node& node) const {
    if (std::find(known_.begin(), known_.end(), node.text()) == known_.end())
      node.fail("unknown source '" + node.text() + "'", "add the work to model_sources.yaml");
    return node.text();
  }

  static Spread spread(const Node& node, double value) {
    using Kind = Spread::Kind;
    if (node.is_scalar()) {
      if (node.text() != "none") node.fail("unknown spread", "write none, or e.g. {plus-minus: 5}");
      return {};
    }
    node.only({"plus-minus", "relative", "factor", "between", "choices"});
    const auto entries = node.entries();
    if (entries.size() != 1) node.fail("a spread is one kind", "keep one of those stated");
    const auto& [kind, size] = entries.front();
    Spread out;
    if (kind.text() == "between") {
      const auto ends = size.items();
      if (ends.size() != 2) size.fail("two ends are wanted", "write between: [low, high]");
      out = {Kind::between, 0, ends[0].number(), ends[1].number()};
      if (!(out.low <= value && value <= out.high))
        size.fail("the value lies outside its own spread", "widen the one or correct the other");
      return out;
    }
    out.kind = kind.text() == "plus-minus" ? Kind::plus_minus
               : kind.text() == "relative" ? Kind::relative
               : kind.text() == "factor"   ? Kind::factor
                                           : Kind::choices;
    out.size = size.number();
    const bool fits = out.kind == Kind::factor     ? out.size >= 1
                      : out.kind == Kind::relative ? out.size >= 0 && out.size < 1
                      : out.kind == Kind::choices
                          ? out.size >= 1 && out.size == std::floor(out.size)
                          : out.size >= 0;
    if (!fits) size.fail("this spread cannot be", "factor >= 1, relative below 1, none negative");
    return out;
  }

  ConstantTable& table_;
  std::vector<std::string> known_;
};

}  // namespace

std::shared_ptr<const ConstantTable> read_constants(const std::string& model,
                                                    const std::string& sources,
                                                    const std::string& titres) {
  return read_constants(Document::from_text(model, "model.yaml"),
                        Document::from_text(sources, "model_sources.yaml"),
                        Document::from_text(titres, "titres.yaml"));
}

std::shared_ptr<const ConstantTable> read_constants(const Document& model, const Document& sources,
                                                    const Document& titres) {
  auto table = std::make_shared<ConstantTable>();
  Reader reader(*table);
  reader.sources(sources.root());
  reader.model(model.root());
  reader.titres(titres.root());
  return table;
}

}  // namespace barwright::targets
