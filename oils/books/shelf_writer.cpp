#include "oils/books/shelf_writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/units/date.hpp"
#include "core/units/format.hpp"
#include "oils/books/journal.hpp"
#include "oils/books/shelf_reader.hpp"
#include "oils/files/safe_file.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils {

using yaml::Node;

namespace {

constexpr double kGramsAlike = 0.006;  // the file holds hundredths

/// The bytes of a file by line and column, as errors count them.
class Lines {
 public:
  explicit Lines(const std::string& text) {
    if (text.starts_with("\xEF\xBB\xBF")) mark_ = 3;
    starts_.push_back(0);
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == '\n' || (text[i] == '\r' && (i + 1 >= text.size() || text[i + 1] != '\n')))
        starts_.push_back(i + 1);
    }
  }
  std::size_t offset(const core::Place& place) const {
    const auto line = static_cast<std::size_t>(std::max(place.line, 1)) - 1;
    if (line >= starts_.size()) return std::string::npos;
    return starts_[line] + (line == 0 ? mark_ : 0) +
           static_cast<std::size_t>(std::max(place.column, 1)) - 1;
  }
  std::size_t start(std::size_t line) const { return starts_[line]; }
  std::size_t count() const { return starts_.size(); }

 private:
  std::vector<std::size_t> starts_;
  std::size_t mark_ = 0;
};

/// A lot's entry: the block of a list, or the value behind a name.
struct LotNodes {
  Node name, value;
  Node amount() const { return value.is_map() ? value.need("have") : value; }
};

std::vector<LotNodes> lots_of(const Node& root) {
  std::vector<LotNodes> out;
  const Node stock = root.need("stock");
  if (stock.is_map()) {
    for (const auto& [name, value] : stock.entries()) out.push_back({name, value});
  } else {
    for (const Node& item : stock.items()) {
      for (const StockKind kind : kStockKinds) {
        if (const auto name = item.get(word(kind))) out.push_back({*name, item});
      }
    }
  }
  return out;
}

/// Returns "2.64 kg" or "2640 g", in the unit that stands there now.
std::string amount_text(double grams, const std::string& now) {
  const std::string unit = now.substr(now.find_last_of(" 0123456789.") + 1);
  if (counts_pieces(unit)) return written_grams(grams) + (unit.empty() ? "" : " pieces");
  if (unit != "kg") return written_grams(grams) + " g";
  std::string out = core::fixed(grams / 1000, 5);
  while (out.back() == '0') out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out + " kg";
}

/// Returns a block of what stands in it: one, that cannot end early and go on as something else.
std::string block_text(const char* name, const std::string& inside) {
  const std::string block = "{" + inside + "}";
  try {
    yaml::Document::from_text(block, name);
  } catch (core::InputError& error) {
    error.add_context(fmt::format("in the {} of the lot that was to be received: {}", name, block));
    throw;
  }
  return block;
}

std::string entry_text(const NewLot& lot) {
  std::string out = fmt::format("{{{}: {}, have: {}", word(lot.kind), yaml::bare_or_quoted(lot.oil),
                                yaml::bare_or_quoted(lot.have));
  const auto add = [&out](const char* key, const std::string& value) {
    if (!value.empty()) out += fmt::format(", {}: {}", key, yaml::bare_or_quoted(value));
  };
  if (lot.purity.find(':') != std::string::npos)
    out += ", purity: " + block_text("purity", lot.purity);
  else
    add("purity", lot.purity);
  add("paid", lot.paid);
  add("supplier", lot.supplier);
  add("lot", lot.lot);
  add("best-before", lot.best_before);
  add("note", lot.note);
  if (!lot.certificate.empty())
    out += ", certificate: " + block_text("certificate", lot.certificate);
  return out + "}";
}

Shelf reread(const std::string& text, const Shelf& shelf) {
  return read_shelf_text(text, shelf.file, folder_of(shelf.file), shelf.library);
}

bool same_lot(const Lot& a, const Lot& b, bool but_grams) {
  return a.kind == b.kind && a.oil == b.oil && (but_grams || a.grams == b.grams) &&
         a.keep_grams == b.keep_grams && a.price_per_kg == b.price_per_kg &&
         a.supplier == b.supplier && a.lot == b.lot && a.best_before == b.best_before &&
         a.note == b.note && a.certificate.has_value() == b.certificate.has_value();
}

/// Where a new list item goes: behind the last line of the stock that is not blank or a comment.
std::size_t end_of_stock(const std::string& text, const Lines& lines, const Node& stock) {
  const auto first = static_cast<std::size_t>(std::max(stock.place().line, 1)) - 1;
  std::size_t end = lines.start(first);
  for (std::size_t i = first; i < lines.count(); ++i) {
    const std::size_t from = lines.start(i);
    const std::size_t to = i + 1 < lines.count() ? lines.start(i + 1) : text.size();
    const std::string_view line =
        yaml::trimmed_view(std::string_view(text).substr(from, to - from));
    if (line.empty() || line.front() == '#') continue;
    const char head = text[from];
    const bool own = head == ' ' || head == '-' || i == first;
    if (!own) break;
    end = to;
  }
  return end;
}

/// Lets a shelf that gains more than oils say so in its format, which older programs look at first:
/// `out` is the file as it will be, its head as in `text`. Returns the bytes put in before `stock`.
std::size_t state_format(std::string& out, const Node& root, const Lines& lines) {
  const std::string now = std::to_string(yaml::kFormat);
  if (const auto format = root.get("format")) {
    const std::string said = format->text();
    const std::size_t at = lines.offset(format->place());
    if (format->number() < yaml::kFormat && out.compare(at, said.size(), said) == 0)
      out.replace(at, said.size(), now);
    return 0;
  }
  const core::Place first = root.entries().front().first.place();
  if (first.column != 1) return 0;  // a file in braces: its words alone say it
  const std::string line_end = out.find("\r\n") != std::string::npos ? "\r\n" : "\n";
  const std::string line = "format: " + now + line_end;
  out.insert(lines.offset(first), line);
  return line.size();
}

}  // namespace

std::string lot_words(const std::string& oil, const std::string& lot) {
  return lot.empty() ? fmt::format("the {} without a lot number", oil)
                     : fmt::format("lot {} of {}", lot, oil);
}

std::string with_grams(const std::string& text, const Shelf& shelf,
                       std::span<const LotGrams> changes) {
  const yaml::Document document = yaml::Document::from_text(text, shelf.file);
  const auto lots = lots_of(document.root());
  const Lines lines(text);
  struct Cut {
    std::size_t from, length;
    std::string put;
  };
  std::vector<Cut> cuts;
  for (const auto& change : changes) {
    const Node node = lots.at(change.lot).amount();
    const std::string now = node.text();
    const std::size_t from = lines.offset(node.place());
    const bool quoted = node.is_quoted();
    const std::size_t at = from + (quoted ? 1 : 0);
    if (from == std::string::npos || text.compare(at, now.size(), now) != 0)
      node.fail("the amount is written in a way that cannot be changed safely",
                "Write it plainly, such as '2.5 kg'.");
    cuts.push_back({at, now.size(), amount_text(change.grams, now)});
  }
  std::sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) { return a.from > b.from; });
  std::string out = text;
  for (const Cut& cut : cuts) out.replace(cut.from, cut.length, cut.put);

  const Shelf after = reread(out, shelf);
  std::vector<double> grams;
  for (const Lot& lot : shelf.lots) grams.push_back(lot.grams);
  std::vector<bool> changed(grams.size(), false);
  for (const auto& change : changes) {
    grams[change.lot] = change.grams;
    changed[change.lot] = true;
  }
  bool same = after.lots.size() == shelf.lots.size();
  for (std::size_t i = 0; same && i < grams.size(); ++i) {
    same = same_lot(shelf.lots[i], after.lots[i], changed[i]) &&
           std::abs(after.lots[i].grams - grams[i]) <= kGramsAlike;
  }
  if (!same)
    lots.front().name.fail("the amounts cannot be changed without touching something else",
                           "Write each lot's 'have' for itself, without anchors or aliases.");
  return out;
}

std::pair<std::string, Shelf> with_lots(const std::string& text, const Shelf& shelf,
                                        std::span<const NewLot> lots) {
  const yaml::Document document = yaml::Document::from_text(text, shelf.file);
  const Node stock = document.root().need("stock");
  std::vector<std::string> entries;
  for (const NewLot& lot : lots) entries.push_back(entry_text(lot));
  if (entries.empty()) return {text, shelf};
  const std::string by_hand =
      fmt::format("Add it by hand, under 'stock:' as a list: - {}", entries.front());
  const Lines lines(text);
  const std::string line_end = text.find("\r\n") != std::string::npos ? "\r\n" : "\n";
  std::string out = text;
  std::size_t first_new = 0;  // byte at which the first of them stands
  const std::size_t at = lines.offset(stock.place());
  if (stock.is_map())
    stock.fail("this stock is a short list of names, with no room for lots", by_hand);
  if (text.compare(at, 1, "[") == 0) {
    if (!stock.items().empty()) stock.fail("this stock stands in one pair of brackets", by_hand);
    const std::size_t close = text.find(']', at);
    std::string added;
    for (const auto& entry : entries) added += line_end + "  - " + entry;
    out.replace(at, close + 1 - at, added);
    first_new = at + line_end.size();
  } else {
    const std::size_t dash = lines.offset(stock.place());
    const std::size_t start =
        text.rfind('\n', dash) == std::string::npos ? 0 : text.rfind('\n', dash) + 1;
    std::string indent = text.substr(start, dash - start);
    if (indent.find_first_not_of(' ') != std::string::npos) indent = "  ";
    const std::size_t end = end_of_stock(text, lines, stock);
    std::string added;
    if (end > 0 && text[end - 1] != '\n') added = line_end;
    first_new = end + added.size();
    for (const auto& entry : entries) added += indent + "- " + entry + line_end;
    out.insert(end, added);
  }
  if (std::any_of(lots.begin(), lots.end(),
                  [](const NewLot& lot) { return lot.kind != StockKind::oil; }))
    first_new += state_format(out, document.root(), lines);
  Shelf after;
  try {
    after = reread(out, shelf);
  } catch (core::InputError& error) {
    const auto before = std::count(out.begin(), out.begin() + static_cast<long>(first_new), '\n');
    const auto which = error.place().line - 1 - before;
    if (which >= 0 && which < static_cast<long>(entries.size()))
      error.add_context("in the lot that was to be received: " +
                        entries[static_cast<std::size_t>(which)]);
    throw;
  }
  bool same = after.lots.size() == shelf.lots.size() + lots.size();
  for (std::size_t i = 0; same && i < lots.size(); ++i) {
    const Lot& in = after.lots[shelf.lots.size() + i];
    same = in.kind == lots[i].kind && in.oil == lots[i].oil && in.lot == lots[i].lot;
  }
  for (std::size_t i = 0; same && i < shelf.lots.size(); ++i)
    same = same_lot(shelf.lots[i], after.lots[i], false);
  if (!same) stock.fail("a lot cannot be added here safely", by_hand);
  return {std::move(out), std::move(after)};
}

void check_days(const std::string& text, const Shelf& shelf) {
  const yaml::Document document = yaml::Document::from_text(text, shelf.file);
  const Node root = document.root();
  const auto check_day = [](const Node& node) {
    const auto day = core::find_day(node.text());
    if (day && !core::is_plausible(*day))
      node.fail(fmt::format("{} lies outside the years {} to {}", node.text(), core::kFirstYear,
                            core::kLastYear),
                "Correct the year.");
  };
  if (const auto counted = root.get("counted")) check_day(*counted);
  for (const LotNodes& lot : lots_of(root)) {
    if (!lot.value.is_map()) continue;
    if (const auto node = lot.value.get("best-before")) check_day(*node);
  }
}

void check_lots_apart(const std::string& text, const Shelf& shelf) {
  const yaml::Document document = yaml::Document::from_text(text, shelf.file);
  const auto lots = lots_of(document.root());
  std::map<std::pair<std::string, std::string>, std::size_t> seen;
  for (std::size_t i = 0; i < lots.size(); ++i) {
    const Lot& lot = shelf.lots.at(i);
    const auto [first, fresh] = seen.emplace(std::pair(lot.oil, lot.lot), i);
    if (!fresh)
      lots[i].name.fail(
          fmt::format("{} stands twice: first on line {}", lot_words(lot.oil, lot.lot),
                      shelf.lots[first->second].place.line),
          "Give each its own 'lot:', as on the label (two pails of one lot: M-77/1 and M-77/2): "
          "the journal must tell them apart.");
  }
}

}  // namespace barwright::oils
