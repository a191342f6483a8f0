#pragma once

#include <string>
#include <vector>

#include "core/chemistry/fatty_acid.hpp"
#include "oils/records/library.hpp"

namespace barwright::oils {

/// Fatty-acid analyses of many lots of one oil.
struct MeasuredLots {
  std::string oil;                      ///< the library's name
  std::vector<core::AcidProfile> lots;  ///< mass fractions, sum 1
  std::vector<std::string> ignored;     ///< headings of columns that name no acid
};

/// Returns the analyses in a CSV file, one lot per row. Columns are found by their headings: an
/// acid's key or name ("C18:1", "oleic", "Oleic acid (%)"); other columns are left alone. Figures
/// are per cent or per ten thousand of the fatty acids, which of the two their sums say; a sum
/// within kCertificateAcidSlack is scaled to the whole. Errors: InputError at file and line for no
/// acid column, the same acid twice, a cell that is no figure, a sum that is neither, no rows.
MeasuredLots read_lots(const std::string& path, const Oil& oil);
/// The same from text; `name` stands for the file.
MeasuredLots read_lots_text(const std::string& text, const std::string& name, const Oil& oil);

}  // namespace barwright::oils
