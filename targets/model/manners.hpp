#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/chemistry/fatty_acid.hpp"
#include "targets/model/property.hpp"

namespace barwright::targets {

/// What a maker would do unasked: see data/manners.yaml for what each kind means.
struct Manner {
  enum class Kind {
    family,
    claim,
    oils,
    share,
    most,
    acids,
    parts,
    cut,
    rest,
    everyday,
    own,
    steps
  };
  std::string name;  ///< "few oils"
  Kind kind = Kind::oils;
  std::string rule;  ///< with {} where the level's figure goes, {hours} for hours until the cut
  std::string reason;
  std::string mark;            ///< a published source, or "common practice, no source"
  std::vector<double> levels;  ///< strictest first, in the kind's unit; claims and
                               ///< lists of oils have none
  std::vector<core::FattyAcid> acids;
  std::optional<Property> property;
  std::vector<std::string> tags;
  std::vector<std::string> oils;  ///< everyday: the library's keys
};

/// Returns the manners compiled into the program: the first gives way last.
const std::vector<Manner>& manners();

/// Reads manners from a text; `file` stands for it in errors. Errors: core::InputError.
std::vector<Manner> read_manners(const std::string& text, const std::string& file);

/// Returns the manner of this name, or null.
const Manner* find_manner(std::string_view name);

/// Returns h from pouring until a log comes clean off the knife, by its cut-firmness at 24 h: 24 h
/// for a plain bar at 33 points, each 12 points halve or double it (common practice and judgement,
/// no source: coconut within half a day, all-olive after three).
double hours_to_cut(double cut_firmness);

}  // namespace barwright::targets
