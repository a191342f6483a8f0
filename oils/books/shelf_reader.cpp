#include "oils/books/shelf_reader.hpp"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <map>

#include "core/units/faults.hpp"
#include "core/units/quantity.hpp"
#include "oils/books/price.hpp"
#include "oils/books/shelf.hpp"
#include "oils/books/supply_reader.hpp"
#include "oils/records/certificate_reader.hpp"
#include "oils/records/record_reader.hpp"
#include "oils/text/workshop_place.hpp"

namespace barwright::oils {

using yaml::Node;

namespace {

constexpr double kRoomCelsius = 20;  // packs are sold by volume at room warmth

double to_grams(const Node& node, const std::string& text, const Oil& oil) {
  try {
    const core::Quantity quantity = core::parse_quantity(text);
    bool volume = true;
    try {
      core::to_millilitres(quantity);
    } catch (const core::UnitError&) {
      volume = false;
    }
    if (!volume) return core::to_grams(quantity);
    if (oil.solid_at_25c)
      node.fail(
          fmt::format("{} sets at room warmth: '{}' of it is no certain weight", oil.name, text),
          "Weigh it, and give g or kg.");
    const auto density = density_at(oil, kRoomCelsius);
    if (!density)
      node.fail(
          fmt::format("no density is known for {}: '{}' of it cannot be weighed", oil.name, text),
          "Weigh it, and give g or kg; or add its density to a record of your own.");
    return core::to_grams(quantity, *density);
  } catch (const core::UnitError& error) {
    node.fail(error.what(), error.remedy());
  }
}

double amount(const Node& node, const Oil& oil) {
  const auto [count, each] = packs(node);
  return count * to_grams(node, each, oil);
}

std::string date(const Node& node) {
  std::string text = node.text();
  if (!is_iso_date(text))
    node.fail(fmt::format("'{}' is not a day", text), "Write year-month-day, such as 2027-03-31.");
  return text;
}

// Returns what reads one key of a block, where it stands there, and keeps its error.
auto lines_of(const Node& block, core::Faults& faults) {
  return [&block, &faults](const char* key, const auto& read) {
    faults.of([&] {
      if (const auto node = block.get(key)) read(*node);
    });
  };
}

class ShelfReader {
 public:
  ShelfReader(const Node& root, std::string folder, const Library& library)
      : root_(root), folder_(std::move(folder)) {
    shelf_.library = library;
    shelf_.file = root.place().file;
  }

  Shelf read() {
    core::Faults faults;
    const auto line = lines_of(root_, faults);
    faults.of([&] { root_.only({"shelf", "currency", "counted", "note", "lists", "stock"}); });
    faults.of([&] { shelf_.name = root_.need("shelf").text(); });
    faults.of([&] {
      const auto workshop = workshop_document(folder_);
      if (const auto currency = workshop ? workshop->root().get("currency") : std::nullopt)
        shelf_.currency = currency->text();
    });
    line("currency", [&](const Node& node) { shelf_.currency = node.text(); });
    line("counted", [&](const Node& node) { shelf_.counted = date(node); });
    line("note", [&](const Node& node) { shelf_.note = node.text(); });
    line("lists", [&](const Node& node) {
      shelf_.lists = read_list_mappings(node);
      // A list that names no currency is in the shelf's.
      for (auto& list : shelf_.lists) {
        if (list.columns.currency.empty()) list.columns.currency = shelf_.currency;
      }
    });
    faults.of([&] { read_stock(root_.need("stock")); });
    faults.done();
    return std::move(shelf_);
  }

 private:
  void read_stock(const Node& stock) {
    if (stock.is_map()) {
      core::Faults::each(stock.entries(),
                         [&](const auto& entry) { short_entry(entry.first, entry.second); });
    } else {
      core::Faults::each(stock.items(), [&](const Node& item) { item_of_list(item); });
    }
    check_names();
  }

  /// `{oil: olive, ...}`, `{lye: sodium hydroxide, ...}`, `{scent: ...}`.
  void item_of_list(const Node& item) {
    std::optional<Node> name;
    StockKind kind = StockKind::oil;
    for (const StockKind each : kStockKinds) {
      const auto found = item.is_map() ? item.get(word(each)) : std::nullopt;
      if (!found) continue;
      if (name)
        found->fail(fmt::format("'{}' and '{}' both stand here", word(kind), word(each)),
                    "A lot is of one thing: keep one of them.");
      name = found;
      kind = each;
    }
    if (kind != StockKind::oil) {
      supply(kind, *name, item);
      return;
    }
    const Node oil = item.need("oil");
    if ((find_alkali(oil.text()) || is_unclear_alkali(oil.text())) &&
        !shelf_.library.find(oil.text()))
      oil.fail(fmt::format("'{}' is no oil", oil.text()),
               fmt::format("Write 'lye: {}'.", find_alkali(oil.text())
                                                   ? core::name(*find_alkali(oil.text()))
                                                   : "sodium hydroxide"));
    lot(oil, item, {"oil"});
  }

  /// A name stands for one thing: what a batch takes is found by it.
  void check_names() const {
    core::Faults faults;
    std::map<std::string, const Lot*> first;
    for (const Lot& lot : shelf_.lots) {
      const Lot* other = first.emplace(folded_name(lot.oil), &lot).first->second;
      if (other->kind == lot.kind && other->oil == lot.oil) continue;
      faults.of([&] {
        throw core::InputError(
            lot.place,
            fmt::format("'{}' stands here as {}, on line {} as {} ('{}')", lot.oil, word(lot.kind),
                        other->place.line, word(other->kind), other->oil),
            "One name is one thing, written in one way: correct one of them.");
      });
    }
    faults.done();
  }

  /// `olive: 5.2 kg`, or `olive: {have: 5.2 kg, ...}`.
  void short_entry(const Node& name, const Node& value) {
    if (value.is_map()) {
      lot(name, value, {});
      return;
    }
    Lot out;
    out.place = name.place();
    if (const auto alkali = find_alkali(name.text()); alkali && !shelf_.library.find(name.text())) {
      if (*alkali == core::Alkali::potassium_hydroxide) need_purity(name);
      out.kind = StockKind::lye;
      out.oil = core::name(*alkali);
      out.grams = counted(value, out.kind, out.oil);
    } else {
      const Oil& oil = shelf_.library.need(name);
      out.oil = oil.name;
      out.grams = amount(value, oil);
    }
    shelf_.lots.push_back(std::move(out));
  }

  [[noreturn]] static void need_purity(const Node& name) {
    name.fail(
        "potassium hydroxide without its purity: jars of 85 to 92 % are sold",
        "Write it as its label has it: {lye: potassium hydroxide, have: 1 kg, purity: 90 %}.");
  }

  /// The name of what is no oil, as the books write it.
  std::string supply_name(StockKind kind, const Node& name) const {
    const std::string text = name.text();
    if (const Oil* oil = shelf_.library.find(text))
      name.fail(fmt::format("'{}' is an oil", oil->name), fmt::format("Write 'oil: {}'.", text));
    if (kind == StockKind::lye) {
      if (const auto alkali = find_alkali(text)) return core::name(*alkali);
      name.fail(fmt::format("'{}' does not say which alkali", text),
                "Write sodium hydroxide or potassium hydroxide, as on the jar: they are never "
                "taken for each other.");
    }
    if (find_alkali(text) || is_unclear_alkali(text))
      name.fail(fmt::format("'{}' is an alkali, not {}", text, word(kind)),
                "Write 'lye: sodium hydroxide' or 'lye: potassium hydroxide'.");
    if (text.empty()) name.fail("it has no name", "Write what it is called in your recipes.");
    return text;
  }

  /// What lots of every kind say. `each`: what one pack holds, g or pieces.
  template <typename Each>
  void plain_lines(const Node& block, core::Faults& faults, Lot& out, const Each& each) {
    const auto all = [&](const Node& node) {
      const auto [count, pack] = packs(node);
      return count * each(node, pack);
    };
    const bool counted = faults.of([&] { out.grams = all(block.need("have")); });
    const auto line = lines_of(block, faults);
    line("keep", [&](const Node& node) {
      out.keep_grams = all(node);
      if (counted && out.keep_grams > out.grams)
        node.fail(fmt::format("more of {} is kept back than is there", out.oil),
                  "Lower 'keep', or correct 'have'.");
    });
    faults.of([&] {
      if (const auto node = price_node(block))
        out.price_per_kg = read_price_per_kg(
            *node, shelf_.currency, [&](const std::string& text) { return each(*node, text); });
    });
    line("supplier", [&](const Node& node) { out.supplier = node.text(); });
    line("lot", [&](const Node& node) { out.lot = node.text(); });
    line("best-before", [&](const Node& node) { out.best_before = date(node); });
    line("note", [&](const Node& node) { out.note = node.text(); });
  }

  /// A lot of what is no oil.
  void supply(StockKind kind, const Node& name, const Node& block) {
    std::vector<std::string> allowed = {word(kind), "have", "paid",        "price", "supplier",
                                        "lot",      "keep", "best-before", "note"};
    if (kind == StockKind::lye) allowed.insert(allowed.end(), {"purity", "strength"});
    core::Faults faults;
    faults.of([&] { block.only(allowed); });
    Lot out;
    out.kind = kind;
    out.oil = supply_name(kind, name);
    out.place = name.place();
    plain_lines(block, faults, out, [&](const Node& node, const std::string& text) {
      return one_pack(node, text, kind, out.oil);
    });
    const auto line = lines_of(block, faults);
    if (kind == StockKind::lye) {
      line("purity", [&](const Node& node) { out.strength = read_purity(node); });
      line("strength", [&](const Node& node) {
        if (block.has("purity")) node.fail("'purity' and 'strength' both stand here", "Keep one.");
        out.strength = read_purity(node);
      });
      faults.of([&] {
        if (out.oil == core::name(core::Alkali::potassium_hydroxide) && !block.has("purity") &&
            !block.has("strength"))
          need_purity(name);
      });
    }
    faults.done();
    shelf_.lots.push_back(std::move(out));
  }

  void lot(const Node& name, const Node& block, std::vector<std::string> allowed) {
    for (const char* key : {"record", "have", "paid", "price", "supplier", "lot", "best-before",
                            "keep", "certificate", "note"})
      allowed.emplace_back(key);
    core::Faults faults;
    faults.of([&] { block.only(allowed); });
    if (const auto record = block.get("record")) own_record(*record, name);
    const Oil& oil = shelf_.library.need(name);
    Lot out;
    out.oil = oil.name;
    out.place = name.place();
    plain_lines(block, faults, out, [&](const Node& node, const std::string& text) {
      return to_grams(node, text, oil);
    });
    const auto line = lines_of(block, faults);
    line("certificate", [&](const Node& node) {
      out.certificate = read_certificate(node);
      if (out.certificate->reference.empty()) out.certificate->reference = out.lot;
      out.confirmed =
          confirmation(*out.certificate, oil.form, &oil,
                       out.lot.empty() ? oil.name : oil.name + ", lot " + out.lot, node);
    });
    faults.done();
    shelf_.lots.push_back(std::move(out));
  }

  static std::optional<Node> price_node(const Node& block) {
    const auto paid = block.get("paid");
    const auto price = block.get("price");
    if (paid && price)
      price->fail("'paid' and 'price' both stand here", "Keep the one that is true of this lot.");
    return paid ? paid : price;
  }

  /// Takes a record file of the maker's own into this shelf's library.
  void own_record(const Node& node, const Node& name) {
    namespace fs = std::filesystem;
    const fs::path written(node.text());
    const std::string path =
        (written.is_absolute() ? written : fs::path(folder_) / written).string();
    std::error_code ignored;
    if (!fs::is_regular_file(path, ignored))
      node.fail(fmt::format("there is no file '{}'", node.text()),
                "Files are looked for from the folder of this shelf.");
    try {
      Record record = read_own_record(yaml::Document::from_file(path).root(), shelf_.library);
      if (folded_name(record.oil.name) != folded_name(name.text()))
        name.fail(
            fmt::format("the record is of '{}', the lot of '{}'", record.oil.name, name.text()),
            "Write the same name in both.");
      for (Source& source : record.own_sources) shelf_.library.add_source(std::move(source));
      shelf_.library.add(std::move(record.oil));
    } catch (core::InputError& error) {
      error.add_context(fmt::format("in a record named by the shelf {}", shelf_.file));
      throw;
    }
  }

  const Node& root_;
  std::string folder_;
  Shelf shelf_;
};

}  // namespace

Shelf read_shelf_text(const std::string& text, const std::string& name, const std::string& folder,
                      const Library& library) {
  const yaml::Document document = yaml::Document::from_text(text, name);
  const Node root = document.root();
  return ShelfReader(root, folder, library).read();
}

Shelf read_shelf(const std::string& path, const Library& library) {
  const yaml::Document document = yaml::Document::from_file(path);
  const Node root = document.root();
  return ShelfReader(root, std::filesystem::path(path).parent_path().string(), library).read();
}

}  // namespace barwright::oils
