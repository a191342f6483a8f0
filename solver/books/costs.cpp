#include "solver/books/costs.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "core/units/number_text.hpp"
#include "core/units/quantity.hpp"
#include "oils/books/price.hpp"
#include "oils/text/yaml.hpp"
#include "targets/files/workshop.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::books {
namespace {

using oils::yaml::Node;

class CostsReader {
 public:
  CostsReader(const Node& root, const oils::Library& library) : block_(root), library_(library) {
    out_.file = root.place().file;
  }

  Costs read() {
    block_.need("costs");
    const auto workshop = targets::workshop_beside(out_.file);
    if (workshop && !workshop->currency.empty() && !block_.has("currency"))
      out_.currency = workshop->currency;
    else
      out_.currency = targets::plain_text(block_.need("currency"));
    if (const auto node = block_.take("prices")) prices(*node);
    core::Workshop& shop = out_.workshop;
    if (const auto node = block_.take("packaging")) shop.packaging_per_bar = money(*node);
    if (const auto node = block_.take("labour")) {
      targets::Block labour(*node);
      if (const auto each = labour.take("per-batch")) shop.minutes_per_batch = each->hours() * 60;
      if (const auto each = labour.take("per-bar")) shop.minutes_per_bar = each->hours() * 60;
      shop.pay_per_hour = money(labour.need("per-hour"));
      labour.done();
    }
    if (const auto node = block_.take("overhead")) {
      targets::Block overhead(*node);
      if (const auto each = overhead.take("per-batch")) shop.overhead_per_batch = money(*each);
      if (const auto each = overhead.take("share"))
        shop.overhead_share = targets::fraction_within(*each, 0, 10);
      overhead.done();
    }
    if (const auto node = block_.take("unsellable")) unsellable(*node);
    if (const auto node = block_.take("sales-tax"))
      out_.sales_tax = targets::fraction_within(*node, 0, 1);
    if (const auto node = block_.take("wholesale")) out_.wholesale = selling(*node);
    if (const auto node = block_.take("retail")) out_.retail = selling(*node);
    block_.done();
    return std::move(out_);
  }

 private:
  void prices(const Node& node) {
    for (const auto& [key, value] : node.entries()) {
      const oils::Oil* oil = library_.find(key.text());
      const std::string name = oil != nullptr ? oil->name : key.text();
      if (out_.per_kg.contains(name))
        key.fail(fmt::format("a second price for {}", name), "Keep one of them.");
      const Node from = value;
      out_.per_kg[name] =
          oils::read_price_per_kg(value, out_.currency, [&](const std::string& text) {
            try {
              return core::to_grams(core::parse_quantity(text));
            } catch (const core::UnitError& error) {
              from.fail(error.what(), error.remedy());
            }
          });
    }
  }

  double money(const Node& node) const {
    std::string text = node.text();
    const std::string unit = " " + out_.currency;
    if (text.ends_with(unit)) text.erase(text.size() - unit.size());
    double out = 0;
    const auto read = core::read_number(text.data(), text.data() + text.size(), out);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size() || !std::isfinite(out) ||
        out < 0)
      node.fail(fmt::format("'{}' is no sum of money", node.text()),
                fmt::format("Write 12.50 or 12.50 {}.", out_.currency));
    return out;
  }

  void unsellable(const Node& node) {
    const std::string text = node.text();
    if (text.find('%') != std::string::npos) {
      out_.workshop.unsellable_share = targets::fraction_within(node, 0, 1);
      return;
    }
    int bars = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), bars);
    const std::string rest(read.ptr, text.data() + text.size());
    if (read.ec != std::errc() || bars < 0 || (rest != " bars" && rest != " bar"))
      node.fail(fmt::format("'{}' does not say how many bars", text),
                "Write it as '5 %' or '2 bars'.");
    out_.workshop.unsellable = bars;
  }

  SellingWish selling(const Node& node) const {
    SellingWish out;
    targets::Block block(node);
    block.one_only({"margin", "price"});
    if (const auto each = block.take("margin"))
      out.margin = targets::fraction_within(*each, 0, 0.999);
    else
      out.price = core::cents(money(block.need("price")));
    block.done();
    return out;
  }

  targets::Block block_;
  const oils::Library& library_;
  Costs out_;
};

}  // namespace

Costs read_costs(const std::string& path, const oils::Library& library) {
  const auto document = oils::yaml::Document::from_file(path);
  return CostsReader(document.root(), library).read();
}

Costs read_costs_text(const std::string& text, const std::string& name,
                      const oils::Library& library) {
  const auto document = oils::yaml::Document::from_text(text, name);
  return CostsReader(document.root(), library).read();
}

}  // namespace barwright::books
