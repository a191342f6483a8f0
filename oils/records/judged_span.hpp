#pragma once

#include "oils/records/oil.hpp"

namespace barwright::oils {

/// Returns the span of an oil's saponification value that a lye is judged by, mg KOH/g: as
/// core::judged_span, narrower where its figure is a certificate's.
core::Span judged_saponification(const Oil& oil);

}  // namespace barwright::oils
