#include "core/units/figure.hpp"

namespace barwright::core {

const char* word(Mark mark) {
  switch (mark) {
    case Mark::certificate:
      return "certificate";
    case Mark::read:
      return "read";
    case Mark::computed:
      return "computed";
    case Mark::practice:
      return "practice";
    case Mark::recalled:
      return "recalled";
    case Mark::judgement:
      return "judgement";
  }
  return "judgement";
}

}  // namespace barwright::core
