#include "oils/records/judged_span.hpp"

#include "core/lye/lye.hpp"

namespace barwright::oils {

core::Span judged_saponification(const Oil& oil) {
  core::PotFat fat;
  fat.saponification_value = oil.saponification_value.span;
  fat.certified = oil.saponification_value.mark == core::Mark::certificate;
  return core::judged_span(fat);
}

}  // namespace barwright::oils
