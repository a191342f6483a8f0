#include "targets/model/words.hpp"

#include <algorithm>

#include "oils/text/yaml.hpp"
#include "targets/model/constants.hpp"

namespace barwright::targets {
namespace {

using oils::yaml::Node;

struct Words {
  std::array<PropertyWords, kPropertyCount> properties;
  std::vector<SizeWord> sizes;
};

void need_judgement(const Node& mark) {
  if (mark.text() != "judgement")
    mark.fail("these figures are judgement",
              "write mark: judgement, or name a trial and read it here");
}

Words read() {
  const auto document = embedded_document("words.yaml");
  const Node root = document.root();
  root.only({"properties", "sizes"});
  Words out;
  std::vector<std::string> names;
  for (Property property : all_properties()) names.emplace_back(name(property));
  const Node properties = root.need("properties");
  properties.only(names);
  for (Property property : all_properties()) {
    const Node node = properties.need(name(property));
    node.only({"notice", "mark", "more", "less", "means", "caution"});
    need_judgement(node.need("mark"));
    const Node notice = node.need("notice");
    const core::Quantity quantity = notice.quantity();
    if (quantity.unit != (property == Property::titre ? "C" : "points") || !(quantity.value > 0))
      notice.fail("a size above 0 with its unit is wanted", "points; of the titre: C");
    out.properties[static_cast<std::size_t>(property)] = {
        quantity.value, node.need("more").text(), node.need("less").text(),
        node.need("means").text(),
        node.has("caution") ? node.need("caution").text() : std::string()};
  }
  for (const auto& [word, node] : root.need("sizes").entries()) {
    node.only({"steps", "mark", "why"});
    need_judgement(node.need("mark"));
    out.sizes.push_back({word.text(), node.need("steps").number(), node.need("why").text()});
  }
  std::sort(out.sizes.begin(), out.sizes.end(),
            [](const SizeWord& a, const SizeWord& b) { return a.steps < b.steps; });
  return out;
}

const Words& all() {
  static const Words words = read();
  return words;
}

}  // namespace

const PropertyWords& words(Property property) {
  return all().properties[static_cast<std::size_t>(property)];
}

double noticeable(Property property) { return words(property).notice; }

const std::vector<SizeWord>& size_words() { return all().sizes; }

const SizeWord* find_size(std::string_view word) {
  for (const SizeWord& size : all().sizes)
    if (size.word == word) return &size;
  return nullptr;
}

}  // namespace barwright::targets
