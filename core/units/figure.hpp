#pragma once

#include <string>

namespace barwright::core {

/// How a figure was come by. Ordered from firmest to weakest.
enum class Mark {
  certificate,  ///< the supplier's analysis of this very lot
  read,         ///< read in the published source named beside it
  computed,     ///< follows from other figures by a stated formula
  practice,     ///< common practice of the trade, no source
  recalled,     ///< from memory of a published source, not read again
  judgement,    ///< our own judgement
};

/// Returns the word for a mark as the data files write it, e.g. "recalled".
const char* word(Mark mark);

/// A published figure: what is typical and how far lots range. All three in the same unit, which
/// the field that holds it states.
struct Span {
  double low = 0;
  double typical = 0;
  double high = 0;
  bool operator==(const Span&) const = default;
};

/// A figure with where it comes from. `source` is a key into the bibliography
/// (oils/data/sources.yaml).
struct Figure {
  Span span;
  std::string source;  ///< of the typical value
  Mark mark = Mark::judgement;
  std::string range_source;  ///< of low and high; empty: same as `source`
  Mark range_mark = Mark::judgement;
  bool operator==(const Figure&) const = default;
};

}  // namespace barwright::core
