#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/units/error.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::targets {

/// The maker's own words with where they stand, kept for messages: a conflict quotes them, and what
/// turns out wrong later still points at its line.
struct Written {
  std::string text;
  core::Place place;
  oils::yaml::Node node;  ///< for fail(); a default one fails by place alone

  /// Throws InputError at this place.
  [[noreturn]] void fail(const std::string& message, const core::Remedy& remedy) const;
};

/// Returns the words of a node: a scalar's text, or "key: text" when `key` is given.
Written written(const oils::yaml::Node& node);
Written written(const oils::yaml::Node& key, const oils::yaml::Node& value);

/// A file a brief names: as written, and found from the brief's own folder.
struct FileName {
  Written written;
  std::string path;
};

/// What a price or a saving is counted by.
enum class Per { kg_oils, batch, bar, all };
/// An amount of money. The currency is a label: no rates are known.
struct Price {
  double amount = 0;
  std::string currency;  ///< "EUR"; a sign ("€") is kept as written
  Per per = Per::all;
};

/// How sure a figure must be over the spread of lots.
enum class Sureness { typical, likely, worst_case };
const char* word(Sureness level);

/// A level of sureness; `share` of the lots keep a wish that is `likely`.
struct SureLevel {
  Sureness kind = Sureness::typical;
  double share = 0.95;  ///< fraction, 0.5 to 0.999; of `likely`
  friend bool operator==(const SureLevel& level, Sureness sureness) {
    return level.kind == sureness;
  }
};
/// Returns how a brief would write the level: "likely 90 %".
std::string words(const SureLevel& level);

}  // namespace barwright::targets
