#include "oils/price_list.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "core/money.hpp"
#include "core/quantity.hpp"
#include "oils/journal_csv.hpp"
#include "oils/shelf.hpp"
#include "oils/yaml_text.hpp"

namespace barwright::oils {
namespace {

constexpr double kRoomCelsius = 20;

std::string slurp(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) {
    throw core::InputError({path, 0, 0}, "this price list cannot be read",
                           "Check the name of the file.");
  }
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

void take_header(const std::string& line, const core::Place& place, PriceColumns& columns) {
  const std::string text = yaml::trimmed(line);
  if (text.empty()) return;
  const auto wrong = [&](const std::string& message) {
    throw core::InputError(place, message,
                           "Known are 'oil: HEADING', 'pack: HEADING', 'price: HEADING', "
                           "'currency: EUR', 'tax: 20 %' and 'name THEIRS = OURS'; other lines "
                           "begin with '##'.",
                           line);
  };
  if (text.starts_with("name ")) {
    const auto equals = text.find('=');
    if (equals == std::string::npos) wrong("'" + text + "' names no oil");
    columns.names[yaml::folded(text.substr(5, equals - 5))] =
        yaml::trimmed(text.substr(equals + 1));
    return;
  }
  const auto colon = text.find(':');
  if (colon == std::string::npos) wrong("'" + text + "' is no line we know");
  const std::string key = yaml::folded(text.substr(0, colon));
  const std::string value = yaml::trimmed(text.substr(colon + 1));
  if (key == "oil") {
    columns.oil = value;
  } else if (key == "pack") {
    columns.pack = value;
  } else if (key == "price") {
    columns.price = value;
  } else if (key == "currency") {
    columns.currency = value;
  } else if (key == "tax") {
    try {
      columns.tax = core::to_fraction(core::parse_quantity(value));
    } catch (const core::UnitError& error) {
      wrong(error.what());
    }
    if (!(columns.tax >= 0 && columns.tax < 1)) wrong("'" + value + "' is no rate of tax");
  } else {
    wrong("'" + key + "' is no key of a price list");
  }
}

// Takes the lines above the table that begin with '#', and reads the rest with its own numbers.
Table table_below(const std::string& text, const std::string& name, PriceColumns& columns) {
  std::size_t at = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  int above = 0;
  while (at < text.size() && text[at] == '#') {
    std::size_t end = text.find('\n', at);
    if (end == std::string::npos) end = text.size();
    std::string line = text.substr(at + 1, end - at - 1);
    if (!line.empty() && line.back() == '\r') line.pop_back();
    ++above;
    if (!line.starts_with("#")) take_header(line, {name, above, 2}, columns);
    at = std::min(end + 1, text.size());
  }
  try {
    Table table = read_table(text.substr(at), name);
    table.lines.insert(table.lines.begin(), static_cast<std::size_t>(above), std::string());
    for (auto& row : table.rows) {
      for (auto& cell : row) cell.place.line += above;
    }
    return table;
  } catch (const core::InputError& error) {
    core::Place place = error.place();
    if (place.line > 0) place.line += above;
    throw core::InputError(place, error.message(), error.remedy());
  }
}

/// A row that cannot be taken.
struct WrongRow {
  Cell cell;
  std::string message, remedy;
};

double money(const Cell& cell, const std::string& currency) {
  std::string text = yaml::trimmed(cell.text);
  for (const std::string& mark : {currency, std::string("\xE2\x82\xAC"), std::string("$")}) {
    const auto at = mark.empty() ? std::string::npos : text.find(mark);
    if (at != std::string::npos) text.erase(at, mark.size());
  }
  text = yaml::trimmed(text);
  // "34,50": a decimal comma where no full stop stands.
  const auto comma = text.find(',');
  if (comma != std::string::npos && text.find('.') == std::string::npos &&
      text.size() - comma <= 3 && text.find(',', comma + 1) == std::string::npos) {
    text[comma] = '.';
  }
  double value = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || read.ec != std::errc() || read.ptr != text.data() + text.size() ||
      !(value > 0 && value < 1e7)) {
    throw WrongRow{cell, "'" + cell.text + "' is no price of a pack", "Write it as 34.50."};
  }
  return value;
}

double pack_grams(const Cell& cell, const Oil& oil) {
  std::string text = yaml::trimmed(cell.text);
  double count = 1;
  const auto x = text.find(" x ");
  if (x != std::string::npos) {
    const std::string before = text.substr(0, x);
    int whole = 0;
    const auto read = std::from_chars(before.data(), before.data() + before.size(), whole);
    if (read.ec != std::errc() || read.ptr != before.data() + before.size() || whole < 1) {
      throw WrongRow{cell, "'" + before + "' is no number of packs", "Write it as 2 x 5 kg."};
    }
    count = whole;
    text = text.substr(x + 3);
  }
  try {
    const core::Quantity quantity = core::parse_quantity(text);
    double millilitres = 0;
    try {
      millilitres = core::to_millilitres(quantity);
    } catch (const core::UnitError&) {
      const double grams = core::to_grams(quantity);
      if (!(grams > 0)) throw WrongRow{cell, "the pack holds nothing", "Write it as 5 kg."};
      return count * grams;
    }
    const auto density = oil.solid_at_25c ? std::nullopt : density_at(oil, kRoomCelsius);
    if (!density || !(millilitres > 0)) {
      throw WrongRow{cell, "'" + cell.text + "' of " + oil.name + " is no certain weight",
                     "Ask the supplier for the weight of the pack."};
    }
    return count * millilitres * *density;
  } catch (const core::UnitError& error) {
    throw WrongRow{cell, error.what(), error.remedy()};
  }
}

std::size_t column(const Table& table, const std::string& heading) {
  std::vector<std::string> known;
  for (std::size_t c = 0; c < table.rows[0].size(); ++c) {
    const std::string& text = table.rows[0][c].text;
    if (yaml::folded(text) == yaml::folded(heading)) return c;
    known.push_back(text);
  }
  table.fail(table.rows[0][0].place, "no column is headed '" + heading + "'",
             "Say which is, in a line above the table such as '# price: " +
                 (known.empty() ? "Price" : known.back()) + "'. " +
                 yaml::nearest_and_known(heading, known));
}

const Oil& oil_of(const Cell& cell, const PriceColumns& columns, const Library& library) {
  const auto mapped = columns.names.find(yaml::folded(cell.text));
  const std::string name = mapped == columns.names.end() ? cell.text : mapped->second;
  const Oil* oil = library.find(name);
  if (oil == nullptr) {
    throw WrongRow{cell, "'" + name + "' is no oil we know",
                   library.remedy_for(name) + " Or add '# name " + cell.text +
                       " = OUR NAME' above the table."};
  }
  return *oil;
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
                               bool skip_wrong) {
  PriceColumns columns;
  std::istringstream lines(columns_text);
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    if (!line.starts_with("#")) take_header(line, {name + " (columns)", number, 1}, columns);
  }
  const Table table = table_below(text, name, columns);
  PriceList out;
  out.file = name;
  out.currency = columns.currency;
  if (table.rows.empty()) {
    throw core::InputError({name, 1, 1}, "this price list is empty",
                           "Its first line names the columns, such as oil,pack,price.");
  }
  const std::size_t oil = column(table, columns.oil), pack = column(table, columns.pack),
                    price = column(table, columns.price);
  for (std::size_t r = 1; r < table.rows.size(); ++r) {
    const auto& row = table.rows[r];
    try {
      if (row.size() <= std::max({oil, pack, price})) {
        throw WrongRow{row[0], "this row has too few cells", "Fill it, or take it out."};
      }
      PricedPack one;
      const Oil& kind = oil_of(row[oil], columns, library);
      one.oil = kind.name;
      one.product = row[oil].text;
      one.grams = pack_grams(row[pack], kind);
      one.price = money(row[price], columns.currency) * (1 + columns.tax);
      one.place = row[oil].place;
      out.packs.push_back(std::move(one));
    } catch (const WrongRow& wrong) {
      if (!skip_wrong) {
        table.fail(wrong.cell.place, wrong.message,
                   wrong.remedy + " To leave such rows out: --skip-wrong-rows.");
      }
      out.skipped.push_back({wrong.cell.place, wrong.message});
    }
  }
  return out;
}

PriceList read_price_list(const std::string& path, const Library& library, bool skip_wrong) {
  const auto beside = std::filesystem::path(path).replace_extension(".columns");
  std::error_code none;
  const bool has = std::filesystem::is_regular_file(beside, none);
  return read_price_list_text(slurp(path), path, has ? slurp(beside.string()) : "", library,
                              skip_wrong);
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
