#include "targets/model/caution.hpp"

#include "oils/text/yaml.hpp"
#include "targets/model/constants.hpp"

namespace barwright::targets {
namespace {

using oils::yaml::Node;

struct Caution {
  std::string of;
  double above = 0;  // fraction
  std::string says;
};

double polyunsaturated(const Composition& c) {
  double sum = 0;
  for (const core::AcidFacts& facts : core::acid_facts())
    if (facts.double_bonds >= 2) sum += core::at(c.acids, facts.acid);
  return sum;
}

// Chains with a cis bond, castor's apart: their soaps pass through a slimy gel on the way to foam.
double olive_like(const Composition& c) {
  double sum = 0;
  for (const core::AcidFacts& facts : core::acid_facts())
    if (facts.double_bonds >= 1 && facts.hydroxyls == 0 && facts.acid != core::FattyAcid::C18_1t)
      sum += core::at(c.acids, facts.acid);
  return sum;
}

double guessed(const Composition& c) {
  using enum core::FattyAcid;
  return core::at(c.acids, C20_1) + core::at(c.acids, C22_1) + core::at(c.acids, C18_1t);
}

double amount(const std::string& of, const Composition& c) {
  if (of == "wax") return c.wax;
  if (of == "free acid") return c.free_acid;
  if (of == "polyunsaturated") return polyunsaturated(c);
  if (of == "olive-like") return olive_like(c);
  return guessed(c);
}

std::vector<Caution> read() {
  const auto document = embedded_document("cautions.yaml");
  document.root().only({"cautions"});
  std::vector<Caution> out;
  for (const Node& node : document.root().need("cautions").items()) {
    node.only({"of", "above", "mark", "source", "says"});
    node.need("mark");
    node.need("source");
    const std::string of = node.need("of").text();
    if (of != "wax" && of != "free acid" && of != "polyunsaturated" && of != "olive-like" &&
        of != "guessed chains")
      node.need("of").fail("unknown matter '" + of + "'",
                           "write wax, free acid, polyunsaturated, olive-like or guessed chains");
    out.push_back({of, node.need("above").fraction(), node.need("says").text()});
  }
  return out;
}

}  // namespace

std::vector<std::string> cautions(const Composition& composition) {
  static const std::vector<Caution> all = read();
  std::vector<std::string> out;
  for (const Caution& caution : all)
    if (amount(caution.of, composition) > caution.above) out.push_back(caution.says);
  return out;
}

}  // namespace barwright::targets
