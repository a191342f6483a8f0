#include "oils/books/list_table.hpp"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <sstream>

#include "core/units/number_text.hpp"
#include "oils/books/shelf.hpp"
#include "oils/files/text_file.hpp"
#include "oils/text/names.hpp"
#include "oils/text/text_check.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils {
namespace {

constexpr double kRoomCelsius = 20;

// Takes the lines above the table that begin with '#', and reads the rest with its own numbers.
Table table_below(const std::string& text, const std::string& name, ListColumns& columns) {
  check_text(text, name);
  std::size_t at = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  int above = 0;
  while (at < text.size() && text[at] == '#') {
    std::size_t end = text.find('\n', at);
    if (end == std::string::npos) end = text.size();
    std::string line = text.substr(at + 1, end - at - 1);
    if (!line.empty() && line.back() == '\r') line.pop_back();
    ++above;
    if (!line.starts_with("#")) take_list_line(line, {name, above, 2}, columns);
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

std::optional<std::size_t> find_column(const Table& table, const std::string& heading) {
  std::optional<std::size_t> found;
  for (std::size_t c = 0; c < table.rows[0].size(); ++c) {
    const Cell& cell = table.rows[0][c];
    if (yaml::folded(cell.text) != yaml::folded(heading)) continue;
    if (found)
      table.fail(cell.place, "a second column is headed '" + cell.text + "'",
                 "Give one of them another heading.");
    found = c;
  }
  return found;
}

core::Remedy known_headings(const Table& table, const std::string& wanted) {
  std::vector<std::string> known;
  for (const auto& cell : table.rows[0]) known.push_back(yaml::trimmed(cell.text));
  return yaml::nearest_and_known(wanted, known);
}

// A column that is stated must be there; one by its usual heading may be.
std::optional<std::size_t> column(const Table& table, const std::string& stated,
                                  std::initializer_list<const char*> usual, const char* key,
                                  bool needed) {
  if (!stated.empty()) {
    if (const auto found = find_column(table, stated)) return found;
  } else {
    for (const char* heading : usual) {
      if (const auto found = find_column(table, heading)) return found;
    }
    if (!needed) return std::nullopt;
  }
  const std::string heading = stated.empty() ? *usual.begin() : stated;
  table.fail(table.rows[0][0].place, "no column is headed '" + heading + "'",
             std::string("Say which is: once for all tables of this supplier in the shelf file, "
                         "under 'lists:' ('") +
                 key + ": HEADING'), or in a line above this table: '# " + key + ": HEADING'. " +
                 known_headings(table, heading));
}

// The shelf's words on this table: by its file's name, else by the headings.
const ListMapping* mapping_for(const Table& table, const std::string& name,
                               std::span<const ListMapping> mappings) {
  const auto one = [&](const auto& fits) -> const ListMapping* {
    const ListMapping* found = nullptr;
    for (const auto& mapping : mappings) {
      if (!fits(mapping)) continue;
      if (found != nullptr)
        throw core::InputError(
            mapping.place,
            "both '" + found->name + "' and '" + mapping.name + "' would read " + name,
            "Say which files each is for: 'files: " +
                std::filesystem::path(name).filename().string() + "'.");
      found = &mapping;
    }
    return found;
  };
  const auto* named = one([&](const ListMapping& mapping) {
    return !mapping.files.empty() && fits_pattern(name, mapping.files);
  });
  if (named != nullptr) return named;
  return one([&](const ListMapping& mapping) {
    if (!mapping.files.empty()) return false;
    const auto headings = mapping.columns.headings();
    return std::all_of(headings.begin(), headings.end(), [&](const std::string& heading) {
      return std::any_of(table.rows[0].begin(), table.rows[0].end(), [&](const Cell& cell) {
        return yaml::folded(cell.text) == yaml::folded(heading);
      });
    });
  });
}

std::string label(const std::string& word) {
  if (word == "\xE2\x82\xAC") return "EUR";
  if (word == "\xC2\xA3") return "GBP";
  if (word == "$") return "USD";
  return word;
}

double money(const Cell& cell, const std::string& currency) {
  std::string text = yaml::trimmed(cell.text);
  const std::size_t first = text.find_first_of("0123456789"),
                    last = text.find_last_of("0123456789");
  const WrongRow wrong{cell, "'" + cell.text + "' is no price", "Write it as 34.50."};
  if (first == std::string::npos) throw wrong;
  const std::string before = yaml::trimmed(text.substr(0, first));
  const std::string after = yaml::trimmed(text.substr(last + 1));
  const std::string named = label(before.empty() ? after : before);
  if ((!before.empty() && !after.empty()) || before.find('-') != std::string::npos) throw wrong;
  if (!named.empty() && named != label(currency)) {
    throw WrongRow{
        cell,
        "'" + cell.text + "' is not in " + (currency.empty() ? "a stated currency" : currency),
        currency.empty() ? "State the list's currency: 'currency: " + named + "'."
                         : "Write it as 34.50 " + currency + "."};
  }
  text = text.substr(first, last + 1 - first);
  // "34,50": a decimal comma where no full stop stands. Three digits behind it may be thousands.
  const auto mark = text.find_first_of(".,");
  if (mark != std::string::npos) {
    if (text.find_first_of(".,", mark + 1) != std::string::npos || text.size() - mark == 4) {
      throw WrongRow{cell, "'" + cell.text + "' may be thousands or hundredths",
                     "Write it as 1234.00, or as 1.23."};
    }
    text[mark] = '.';
  }
  double value = 0;
  const auto read = core::read_number(text.data(), text.data() + text.size(), value);
  if (read.ec != std::errc() || read.ptr != text.data() + text.size() ||
      !(value > 0 && value < 1e7)) {
    throw wrong;
  }
  return value;
}

}  // namespace

Cell ListTable::cell(std::size_t row, std::optional<std::size_t> column) const {
  const auto& cells = table.rows[row + 1];
  if (!column) return {};
  if (*column >= cells.size()) return {{}, cells.back().place};
  Cell out = cells[*column];
  out.text = yaml::trimmed(out.text);
  return out;
}

std::string ListTable::name_of(std::size_t row) const {
  const Cell named = cell(row, oil);
  if (named.text.empty()) throw WrongRow{named, "no oil stands here", "Fill it, or take it out."};
  const auto mapped = columns.names.find(yaml::folded(named.text));
  return mapped == columns.names.end() ? named.text : mapped->second;
}

const Oil& ListTable::oil_of(std::size_t row, const Library& library) const {
  const Cell named = cell(row, oil);
  const std::string name = name_of(row);
  const Oil* found = library.find(name);
  if (found == nullptr) {
    throw WrongRow{named, "'" + name + "' is no oil we know",
                   library.remedy_for(name) +
                       " Or say whose name it is: in the shelf's 'lists:', '" + "names: {" +
                       named.text + ": OUR NAME}', or '# name " + named.text +
                       " = OUR NAME' above the table."};
  }
  return *found;
}

PackSize ListTable::pack_of(std::size_t row, const Oil& kind) const {
  const Cell written = cell(row, pack);
  std::string text = written.text;
  if (text.empty()) throw WrongRow{written, "no pack stands here", "Write it as 5 kg."};
  PackSize out;
  const auto x = text.find(" x ");
  if (x != std::string::npos) {
    const std::string before = text.substr(0, x);
    int whole = 0;
    const auto read = std::from_chars(before.data(), before.data() + before.size(), whole);
    if (read.ec != std::errc() || read.ptr != before.data() + before.size() || whole < 1) {
      throw WrongRow{written, "'" + before + "' is no number of packs", "Write it as 2 x 5 kg."};
    }
    out.count = whole;
    text = text.substr(x + 3);
  }
  try {
    out.each = core::parse_quantity(text);
    double millilitres = 0;
    try {
      millilitres = core::to_millilitres(out.each);
    } catch (const core::UnitError&) {
      const double grams = core::to_grams(out.each);
      if (!(grams > 0)) throw WrongRow{written, "the pack holds nothing", "Write it as 5 kg."};
      out.grams = out.count * grams;
      return out;
    }
    const auto density = kind.solid_at_25c ? std::nullopt : density_at(kind, kRoomCelsius);
    if (!density || !(millilitres > 0)) {
      throw WrongRow{written, "'" + written.text + "' of " + kind.name + " is no certain weight",
                     "Ask the supplier for the weight of the pack."};
    }
    out.grams = out.count * millilitres * *density;
    return out;
  } catch (const core::UnitError& error) {
    throw WrongRow{written, error.what(), error.remedy()};
  }
}

std::optional<double> ListTable::price_of(std::size_t row, double pack_grams) const {
  const Cell written = cell(row, price ? price : price_per_kg);
  if (written.text.empty()) return std::nullopt;
  const double sum = money(written, columns.currency) * (1 + columns.tax.value_or(0));
  return price ? sum : sum * pack_grams / 1000;
}

void ListTable::refuse(const WrongRow& wrong) const {
  table.fail(wrong.cell.place, wrong.message,
             wrong.remedy + " To leave such rows out: --skip-wrong-rows.");
}

ListTable open_list(const std::string& text, const std::string& name, const std::string& beside,
                    std::span<const ListMapping> mappings) {
  ListTable out;
  std::istringstream lines(beside);
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (!line.starts_with("#")) take_list_line(line, {name + " (columns)", number, 1}, out.columns);
  }
  out.table = table_below(text, name, out.columns);
  if (out.table.rows.empty()) {
    throw core::InputError({name, 1, 1}, "this list is empty",
                           "Its first line names the columns, such as oil,pack,price.");
  }
  const Table& table = out.table;
  if (const auto* known = mapping_for(table, name, mappings)) {
    out.columns = out.columns.over(known->columns);
    out.known_as = known->name;
  }
  const ListColumns& said = out.columns;
  out.oil = *column(table, said.oil, {"oil"}, "oil", true);
  out.pack = *column(table, said.pack, {"pack", "have", "amount"}, "pack", true);
  if (said.price_per_kg.empty()) {
    out.price = column(table, said.price, {"price", "paid"}, "price", false);
  }
  if (!out.price) {
    out.price_per_kg = column(table, said.price_per_kg, {"price per kg"}, "price-per-kg", false);
  }
  out.count = column(table, said.count, {"count"}, "count", false);
  out.lot = column(table, said.lot, {"lot"}, "lot", false);
  out.best_before = column(table, said.best_before, {"best before"}, "best-before", false);
  out.supplier = column(table, said.supplier, {"supplier"}, "supplier", false);
  out.note = column(table, said.note, {"note"}, "note", false);
  return out;
}

ListTable open_list_file(const std::string& path, std::span<const ListMapping> mappings) {
  const auto beside = std::filesystem::path(path).replace_extension(".columns");
  std::error_code none;
  const bool has = std::filesystem::is_regular_file(beside, none);
  return open_list(read_text_file(path), path, has ? read_text_file(beside.string()) : "",
                   mappings);
}

}  // namespace barwright::oils
