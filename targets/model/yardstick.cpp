#include "targets/model/yardstick.hpp"

#include <cmath>

#include "oils/text/yaml.hpp"

namespace barwright::targets {

std::vector<ShippedYardstick> read_yardsticks(const std::string& text, const std::string& file) {
  return read_yardsticks(oils::yaml::Document::from_text(text, file));
}

std::vector<ShippedYardstick> read_yardsticks(const oils::yaml::Document& document) {
  const oils::yaml::Node root = document.root();
  root.only({"yardsticks"});
  std::vector<ShippedYardstick> out;
  for (const auto& [key, node] : root.need("yardsticks").entries()) {
    node.only({"blend", "superfat", "is"});
    ShippedYardstick yardstick;
    yardstick.name = key.text();
    yardstick.description = node.need("is").text();
    yardstick.settings.superfat = node.need("superfat").fraction();
    if (yardstick.settings.superfat < 0 || yardstick.settings.superfat > 0.5)
      node.need("superfat").fail("a superfat from 0 to 50 % is wanted", "the usual one is 5 %");
    double sum = 0;
    for (const auto& [oil, share] : node.need("blend").entries()) {
      const double fraction = share.fraction();
      if (!(fraction > 0)) share.fail("a share above 0 % is wanted", "leave the oil out instead");
      yardstick.blend.emplace_back(oil.text(), fraction);
      yardstick.places.push_back(oil.place());
      sum += fraction;
    }
    if (std::abs(sum - 1) > 1e-9)
      node.need("blend").fail("the shares do not sum to 100 %", "correct one of them");
    out.push_back(std::move(yardstick));
  }
  return out;
}

const std::vector<ShippedYardstick>& shipped_yardsticks() {
  static const std::vector<ShippedYardstick> all =
      read_yardsticks(embedded_document("yardsticks.yaml"));
  return all;
}

const ShippedYardstick* find_yardstick(std::string_view name) {
  for (const ShippedYardstick& yardstick : shipped_yardsticks())
    if (yardstick.name == name) return &yardstick;
  return nullptr;
}

Composition composition(const ShippedYardstick& yardstick, const oils::Library& library) {
  std::vector<Composition> parts;
  std::vector<double> shares;
  for (std::size_t i = 0; i < yardstick.blend.size(); ++i) {
    const auto& [name, share] = yardstick.blend[i];
    const oils::Oil* oil = library.find(name);
    if (oil == nullptr) {
      const std::string near = library.nearest(name);
      throw core::InputError(
          yardstick.places[i],
          "the library has no oil '" + name + "' for the yardstick '" + yardstick.name + "'",
          near.empty() ? "add a record of it" : "nearest known: " + near);
    }
    parts.push_back(composition(*oil));
    shares.push_back(share);
  }
  return mix(parts, shares);
}

}  // namespace barwright::targets
