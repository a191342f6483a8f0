#include "oils/books/price_list.hpp"

#include "core/trade/money.hpp"

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
      if (!skip_wrong) list.refuse(wrong);
      out.skipped.push_back({wrong.cell.place, wrong.message});
    }
  }
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
  std::vector<double> weights, out;
  for (const auto& pack : packs) weights.push_back(by == Spread::weight ? pack.grams : pack.price);
  const auto parts = core::share_out(core::cents(shipping), weights);
  for (std::size_t i = 0; i < packs.size(); ++i) {
    out.push_back(packs[i].price + core::units(parts[i]));
  }
  return out;
}

}  // namespace barwright::oils
