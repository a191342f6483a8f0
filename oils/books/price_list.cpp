#include "oils/books/price_list.hpp"

#include <cmath>

#include "core/units/faults.hpp"

namespace barwright::oils {
namespace {

PriceList packs_of(const ListTable& list, const std::string& name, const Library& library,
                   bool skip_wrong) {
  PriceList out;
  out.file = name;
  out.currency = list.columns.currency;
  out.tax = list.columns.tax.value_or(0);
  if (!list.price && !list.price_per_kg) {
    std::string headings;
    for (const auto& cell : list.table.rows[0]) {
      headings += (headings.empty() ? "" : ", ") + cell.text;
    }
    list.table.fail(
        list.table.rows[0][0].place, "no column is headed 'price'",
        "Say which is, in the shelf's 'lists:' ('price: " + list.table.rows[0].back().text +
            "') or in a line above the table ('# price: " + list.table.rows[0].back().text +
            "'). Here stand " + headings + ".");
  }
  core::Faults faults;  // of all rows, told together
  for (std::size_t r = 0; r < list.rows(); ++r) {
    try {
      PricedPack one;
      const Oil& kind = list.oil_of(r, library);
      one.oil = kind.name;
      one.product = list.cell(r, list.oil).text;
      one.grams = list.pack_of(r, kind).grams;
      one.size = list.cell(r, list.pack).text;
      const auto price = list.price_of(r, one.grams);
      if (!price) {
        throw WrongRow{list.cell(r, list.price ? list.price : list.price_per_kg),
                       "no price stands here", "Write it as 34.50."};
      }
      one.price = *price;
      one.place = list.cell(r, list.oil).place;
      out.packs.push_back(std::move(one));
    } catch (const WrongRow& wrong) {
      if (!skip_wrong) faults.of([&] { list.refuse(wrong); });
      out.skipped.push_back({wrong.cell.place, wrong.message});
    }
  }
  faults.done();
  return out;
}

}  // namespace

const PricedPack* PriceList::cheapest(const std::string& oil) const {
  const PricedPack* best = nullptr;
  for (const auto& pack : packs) {
    if (pack.oil == oil && (best == nullptr || pack.per_kg() < best->per_kg())) best = &pack;
  }
  return best;
}

PriceList read_price_list_text(const std::string& text, const std::string& name,
                               const std::string& columns_text, const Library& library,
                               bool skip_wrong, std::span<const ListMapping> mappings) {
  return packs_of(open_list(text, name, columns_text, mappings), name, library, skip_wrong);
}

PriceList read_price_list(const std::string& path, const Library& library, bool skip_wrong,
                          std::span<const ListMapping> mappings) {
  return packs_of(open_list_file(path, mappings), path, library, skip_wrong);
}

std::vector<double> landed_prices(std::span<const PricedPack> packs, double shipping, Spread by) {
  const auto weight = [&](const PricedPack& pack) {
    return by == Spread::weight ? pack.grams : pack.price;
  };
  double all = 0;
  for (const auto& pack : packs) {
    if (!(weight(pack) >= 0) || !std::isfinite(weight(pack)))
      throw core::Refusal("A share of the money is negative or not a number.",
                          "Look at the weights and prices of the packs.");
    all += weight(pack);
  }
  if (packs.empty()) throw core::Refusal("A sum is to be spread over no packs.", "Name the packs.");
  const double each = 1.0 / static_cast<double>(packs.size());
  std::vector<double> out;
  for (const auto& pack : packs)
    out.push_back(pack.price + shipping * (all > 0 ? weight(pack) / all : each));
  return out;
}

}  // namespace barwright::oils
