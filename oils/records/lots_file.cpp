#include "oils/records/lots_file.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numeric>
#include <optional>

#include "core/units/faults.hpp"
#include "core/units/number_text.hpp"
#include "oils/files/text_file.hpp"
#include "oils/records/certificate.hpp"
#include "oils/text/journal_csv.hpp"
#include "oils/text/yaml_text.hpp"

namespace barwright::oils {
namespace {

// "Oleic acid (%)" is the acid oleic.
std::optional<core::FattyAcid> acid_of(const std::string& heading) {
  std::string text = heading.substr(0, heading.find('('));
  const auto trim = [&] {
    while (!text.empty() && (text.back() == ' ' || text.back() == '%')) text.pop_back();
    while (!text.empty() && text.front() == ' ') text.erase(text.begin());
  };
  trim();
  for (const std::string& tail : {std::string(" acid"), std::string(" Acid")}) {
    if (text.size() > tail.size() && text.ends_with(tail)) text.resize(text.size() - tail.size());
  }
  trim();
  // Laboratories' names where the position of the bond goes without saying.
  if (yaml::folded(text) == "linolenic") return core::FattyAcid::C18_3a;
  if (yaml::folded(text) == "eicosenoic") return core::FattyAcid::C20_1;
  for (const core::AcidFacts& facts : core::acid_facts()) {
    if (yaml::folded(text) == yaml::folded(std::string(facts.key)) ||
        yaml::folded(text) == yaml::folded(std::string(facts.name)))
      return facts.acid;
  }
  return std::nullopt;
}

double figure(const Table& table, const Cell& cell) {
  const std::string_view text = yaml::trimmed_view(cell.text);
  if (text.empty()) return 0;
  double value = 0;
  const auto read = core::read_number(text.data(), text.data() + text.size(), value);
  if (read.ec != std::errc() || read.ptr != text.data() + text.size() || value < 0)
    table.fail(cell.place, "'" + cell.text + "' is no share of a fatty acid",
               "Write a figure such as 71.4 (per cent) or 7140 (per ten thousand).");
  return value;
}

// 100, 10000 or nothing.
double whole_of(double sum) {
  for (const double whole : {100.0, 10000.0})
    if (std::abs(sum / whole - 1) <= kCertificateAcidSlack / 100) return whole;
  return 0;
}

}  // namespace

MeasuredLots read_lots_text(const std::string& text, const std::string& name, const Oil& oil) {
  const Table table = read_table(text, name);
  if (table.rows.empty())
    throw core::InputError({name, 1, 1}, "this file of lots is empty",
                           "Its first line names the acids, such as palmitic,oleic,linoleic.");
  MeasuredLots out;
  out.oil = oil.name;
  std::vector<std::optional<core::FattyAcid>> columns;
  core::AcidProfile seen{};
  for (const Cell& heading : table.rows[0]) {
    columns.push_back(acid_of(heading.text));
    if (!columns.back()) {
      out.ignored.push_back(heading.text);
    } else if (core::at(seen, *columns.back())++ > 0) {
      table.fail(heading.place, "'" + heading.text + "' names an acid that stands there already",
                 "Keep one column for each acid.");
    }
  }
  if (out.ignored.size() == columns.size())
    table.fail(table.rows[0][0].place, "no column names a fatty acid",
               "Head the columns with names or keys such as oleic or C18:1.");
  double whole = 0;
  core::Faults faults;  // of all rows, told together
  for (std::size_t r = 1; r < table.rows.size(); ++r) {
    faults.of([&] {
      const auto& row = table.rows[r];
      if (row.size() != columns.size())
        table.fail(
            row[0].place,
            fmt::format("this row has {} cells, the first line {}", row.size(), columns.size()),
            "Fill it, or take it out.");
      core::AcidProfile lot{};
      for (std::size_t c = 0; c < columns.size(); ++c)
        if (columns[c]) core::at(lot, *columns[c]) = figure(table, row[c]);
      const double sum = std::accumulate(lot.begin(), lot.end(), 0.0);
      const double here = whole_of(sum);
      if (here == 0 || (whole != 0 && here != whole))
        table.fail(
            row[0].place,
            fmt::format("the acids of this lot sum to {:.6g}{}", sum,
                        here == 0 ? "" : ", those above to another whole"),
            fmt::format("They must sum to 100 (per cent) or 10000 (per ten thousand), give or "
                        "take {:.0f} %.",
                        kCertificateAcidSlack));
      whole = here;
      for (double& acid : lot) acid /= sum;
      out.lots.push_back(lot);
    });
  }
  faults.done();
  if (out.lots.empty())
    throw core::InputError({name, 1, 1}, "no lot stands in this file",
                           "Add a line for each lot below the headings.");
  return out;
}

MeasuredLots read_lots(const std::string& path, const Oil& oil) {
  return read_lots_text(read_text_file(path), path, oil);
}

}  // namespace barwright::oils
