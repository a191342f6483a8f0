#include "solver/app/books/command_label_entry.hpp"

#include <fmt/format.h>

#include "oils/text/yaml.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::app {
namespace {

using oils::yaml::Node;

LabelEntry read(const Node& root) {
  LabelEntry out;
  out.file = root.place().file;
  targets::Block block(root);
  const Node title = block.need("label");
  out.name = targets::plain_text(title);
  out.said.push_back(title);
  if (const auto node = block.take("custom"))
    out.custom =
        targets::choice<core::Custom>(*node, {{"eu", core::Custom::eu}, {"us", core::Custom::us}});
  if (const auto node = block.take("net-weight"))
    out.net_grams = targets::above_zero(node->grams(), *node, "a net weight");
  if (const auto node = block.take("names")) {
    for (const auto& [key, value] : node->entries())
      out.names[key.text()] = targets::plain_text(value);
  }
  if (const auto node = block.take("colourants")) {
    for (const Node& item : targets::list_of(*node)) out.colourants.push_back(item.text());
  }
  if (const auto node = block.take("scents")) {
    for (const Node& item : targets::list_of(*node)) out.scents.push_back(item.text());
  }
  if (const auto node = block.take("allergens")) {
    for (const auto& [scent, list] : node->entries()) {
      double sum = 0;
      for (const auto& [name, share] : list.entries()) {
        const double fraction = targets::fraction_within(share, 0, 1);
        sum += fraction;
        out.allergens.push_back({scent.text(), name.text(), fraction});
      }
      if (sum > 1 + 1e-9)
        scent.fail(
            fmt::format("the allergens of '{}' add to {}", scent.text(), targets::percent(sum)),
            "They are shares of the scent, as its certificate lists them.");
    }
  }
  if (const auto node = block.take("words")) {
    for (const Node& item : targets::list_of(*node)) {
      out.words += (out.words.empty() ? "" : "; ") + item.text();
      out.said.push_back(item);
    }
  }
  if (const auto node = block.take("size")) {
    try {
      out.size = label_size(node->text());
    } catch (const core::UnitError& error) {
      node->fail(error.what(), error.remedy());
    }
  }
  if (const auto node = block.take("list"))
    out.list_as_added =
        targets::choice<bool>(*node, {{"as added", true}, {"as saponified", false}});
  block.done();
  return out;
}

}  // namespace

LabelEntry read_label_entry(const std::string& path) {
  const auto document = oils::yaml::Document::from_file(path);
  return read(document.root());
}

LabelEntry read_label_entry_text(const std::string& text, const std::string& name) {
  const auto document = oils::yaml::Document::from_text(text, name);
  return read(document.root());
}

}  // namespace barwright::app
