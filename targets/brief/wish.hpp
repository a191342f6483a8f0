#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/chemistry/fatty_acid.hpp"
#include "targets/model/property.hpp"
#include "targets/text/brief_words.hpp"

namespace barwright::targets {

/// What a wish speaks of, and in which unit its figures stand.
struct Subject {
  enum class Kind {
    property,              ///< points; titre: C
    saponification_value,  ///< mg KOH per g
    iodine_value,          ///< g I2 per 100 g
    unsaponifiable,        ///< % of the fat
    acids,                 ///< % of the total fatty acids, sum of `acids`
    acid_ratio,            ///< sum of `acids` over sum of `over`, a bare number
    oil_cost,              ///< money, `per`, in `currency`
  };
  Kind kind = Kind::property;
  Property property = Property::hardness;
  std::vector<core::FattyAcid> acids;
  std::vector<core::FattyAcid> over;
  Per per = Per::kg_oils;
  std::string currency;
  std::string name;  ///< for messages: "hardness", "lauric + myristic", "oil cost per bar"
};

/// One end of a wish: value + noticeable * (the least difference one can notice in this subject).
/// The size words put their steps (words.hpp) into `noticeable`: slightly 0.5, clearly 1, much 2.
struct Bound {
  double value = 0;
  double noticeable = 0;
};

/// What a maker wants of the bar: low <= subject <= high, or the same of the difference to a
/// yardstick. See wish_phrase.cpp for every phrase.
struct Wish {
  Subject subject;
  bool compared = false;     ///< low and high bound (bar - yardstick)
  std::string than;          ///< compared: a shipped yardstick; empty: the brief's compared-with
  std::optional<Bound> low;  ///< at least one of the two is set
  std::optional<Bound> high;
  std::optional<SureLevel> level;  ///< absent: the brief's
  Written written;                 ///< "hardness: at least 5 above", at the value
};

/// The shipped yardstick that the bare words "long" and "short" of working-time compare with.
inline constexpr std::string_view kPlainBar = "plain bar";

/// A wished point of one subject, for the nearest goal.
struct WishedPoint {
  Subject subject;
  bool compared = false;  ///< value is a difference to the brief's yardstick
  double value = 0;
  double weight = 1;
};

/// What "best" means; a list of goals is taken in order, each later one among the best of those
/// before it.
struct Goal {
  enum class Kind {
    cheapest,
    most,
    least,
    nearest,
    nearest_in_feel,
    use_up,
    fewest_oils,
    weighted
  };
  Kind kind = Kind::cheapest;
  Subject subject;                  ///< most, least
  std::vector<WishedPoint> points;  ///< nearest
  std::string feel_of;  ///< nearest_in_feel: a shipped yardstick; empty: the brief's compared-with
  std::string oil;      ///< use_up: the library's key
  std::vector<Goal> parts;  ///< weighted
  double weight = 1;        ///< of a part: per point, per money and kg, per 1 % of the oil
  double give = 0;  ///< how far a later goal may push this one from its best, in its own unit
  Written written;
};

}  // namespace barwright::targets
