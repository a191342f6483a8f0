#include "targets/model/manners.hpp"

#include <algorithm>
#include <cmath>

#include "oils/text/yaml.hpp"
#include "targets/embedded.hpp"
#include "targets/model/constants.hpp"

namespace barwright::targets {
namespace {

using oils::yaml::Node;
using Kind = Manner::Kind;

constexpr std::pair<std::string_view, Kind> kKinds[] = {
    {"family", Kind::family},     {"claim", Kind::claim}, {"oils", Kind::oils},
    {"share", Kind::share},       {"most", Kind::most},   {"acids", Kind::acids},
    {"parts", Kind::parts},       {"cut", Kind::cut},     {"rest", Kind::rest},
    {"everyday", Kind::everyday}, {"own", Kind::own},     {"steps", Kind::steps}};

Kind read_kind(const Node& node) {
  for (const auto& [word, kind] : kKinds)
    if (node.text() == word) return kind;
  node.fail("'" + node.text() + "' is no kind of manner", "see the head of this file");
}

std::string said(const Node& manner, const char* key) {
  const Node node = manner.need(key);
  if (node.text().empty()) node.fail("the text is empty", "say it in a few words");
  return node.text();
}

void read_levels(const Node& node, Manner& out) {
  const bool bars_oils = out.kind == Kind::family || out.kind == Kind::claim;
  if (bars_oils) {
    for (const Node& tag : node.need("tags").items()) out.tags.push_back(tag.text());
    return;
  }
  if (out.kind == Kind::everyday) {
    for (const Node& oil : node.need("oils").items()) out.oils.push_back(oil.text());
    return;
  }
  if (out.kind == Kind::own) return;
  for (const Node& level : node.need("levels").items()) out.levels.push_back(level.number());
  if (out.levels.empty()) node.fail("a manner without a level", "write at least one");
}

Manner read_manner(const Node& node) {
  node.only(
      {"name", "kind", "levels", "acids", "property", "tags", "oils", "rule", "reason", "mark"});
  Manner out;
  out.name = said(node, "name");
  out.kind = read_kind(node.need("kind"));
  out.rule = said(node, "rule");
  out.reason = said(node, "reason");
  out.mark = said(node, "mark");
  read_levels(node, out);
  if (out.kind == Kind::acids) {
    for (const Node& acid : node.need("acids").items()) {
      const auto found = core::find_acid(acid.text());
      if (!found) acid.fail("unknown acid '" + acid.text() + "'", "write it as records do");
      out.acids.push_back(*found);
    }
  }
  if (out.kind == Kind::rest) {
    const Node property = node.need("property");
    out.property = find_property(property.text());
    if (!out.property) property.fail("unknown property", "write it as briefs do");
  }
  return out;
}

}  // namespace

std::vector<Manner> read_manners(const std::string& text, const std::string& file) {
  const auto document = oils::yaml::Document::from_text(text, file);
  document.root().only({"manners"});
  std::vector<Manner> out;
  for (const Node& node : document.root().need("manners").items()) {
    Manner manner = read_manner(node);
    for (const Manner& other : out)
      if (other.name == manner.name) node.fail("a second '" + manner.name + "'", "rename one");
    out.push_back(std::move(manner));
  }
  return out;
}

const std::vector<Manner>& manners() {
  static const std::vector<Manner> all =
      read_manners(embedded_text("manners.yaml"), "manners.yaml");
  return all;
}

const Manner* find_manner(std::string_view name) {
  const auto& all = manners();
  const auto found = std::find_if(all.begin(), all.end(),
                                  [&](const Manner& manner) { return manner.name == name; });
  return found == all.end() ? nullptr : &*found;
}

double hours_to_cut(double cut_firmness) {
  constexpr double kHours = 24, kScore = 33, kPoints = 12, kLeast = 8, kMost = 120;
  return std::clamp(kHours * std::exp2((kScore - cut_firmness) / kPoints), kLeast, kMost);
}

}  // namespace barwright::targets
