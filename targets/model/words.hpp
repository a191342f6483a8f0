#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "targets/model/property.hpp"

namespace barwright::targets {

/// How answers speak of a property.
struct PropertyWords {
  double notice = 0;    ///< least difference one can notice, points (titre: C); judgement
  std::string more;     ///< "firmer"
  std::string less;     ///< "softer"
  std::string means;    ///< one line: what the figure is
  std::string caution;  ///< what it does not see; may be empty
};

/// A word for how large a difference is.
struct SizeWord {
  std::string word;  ///< "clearly"
  double steps = 0;  ///< in steps of PropertyWords::notice; judgement
  std::string why;
};

/// Returns the words of a property, from data/words.yaml.
const PropertyWords& words(Property property);

/// Returns the least difference one can notice, in points (titre: C). Judgement.
double noticeable(Property property);

/// Returns the size words, smallest first.
const std::vector<SizeWord>& size_words();

/// Returns a size word, or null.
const SizeWord* find_size(std::string_view word);

}  // namespace barwright::targets
