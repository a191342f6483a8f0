#pragma once

#include <string>
#include <vector>

#include "oils/records/certificate.hpp"
#include "oils/records/library.hpp"
#include "targets/model/model.hpp"
#include "targets/model/property.hpp"

namespace barwright::app {

/// Returns one oil with every figure's source, as a maker reads it.
std::string text_oil(const oils::Oil& oil, const oils::Library& library, bool colour);

/// One oil beside another, in one property.
struct OilBeside {
  std::string name;
  targets::Difference against;
};
/// Returns the oils that have more (or less) of a property than `than`, the surest and largest
/// differences first, those within the doubt left out. Each as a bar of that oil alone.
std::vector<OilBeside> oils_beside(const oils::Library& library, const oils::Oil& than,
                                   targets::Property property, bool more);

/// Returns the names of oils, wrapped, under their kinds.
std::string text_oil_names(const std::vector<const oils::Oil*>& oils, bool colour);

/// Returns a maker's own record, checked.
std::string text_record(const oils::RecordReport& report, const std::string& file, bool colour);

}  // namespace barwright::app
