#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "targets/text/brief_words.hpp"

namespace barwright::targets {

/// A mould: exactly one of inside, millilitres, water_grams.
struct Mould {
  std::string name;
  int count = 1;
  std::optional<std::array<double, 3>> inside_mm;  ///< length, width, height
  std::optional<double> millilitres;
  std::optional<double> water_grams;  ///< what the mould holds of water
  std::optional<double> fill_to_mm;   ///< height of the soap, with `inside_mm` only
  Written written;
};

/// Bars of a weight.
struct Bars {
  int count = 0;
  double each_grams = 0;
  enum class Weighed { cut, cured } weighed = Weighed::cut;
};

/// How much to make: exactly one of the three.
struct MakeSize {
  std::optional<Bars> bars;
  std::vector<Mould> moulds;
  std::optional<double> oils_grams;
  std::optional<int> bars_per_batch;  ///< "bars" beside moulds or oils: for prices per bar
  Written written;
};

}  // namespace barwright::targets
