#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/units/weight_text.hpp"
#include "targets/files/lye_file.hpp"
#include "targets/files/make_size.hpp"
#include "targets/files/packed_in.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

/// What a workshop's one file says for every file beside it. What a file says itself always wins.
struct Workshop {
  std::string file, name;
  Scale scale;
  std::optional<LyeWish> lye;  ///< alkali with its strength, superfat, water, temperatures
  std::optional<core::Units> units;
  std::string currency;
  std::optional<double> room_celsius;
  std::optional<double> cure_hours;  ///< at least
  std::optional<FileName> shelf;
  std::vector<std::pair<std::string, Mould>> moulds;  ///< by name
  PackedIn packed_in;
};

/// Returns the workshop of a folder; nothing where no workshop.yaml lies there:
///   workshop: Weighbridge Yard
///   units: oz                      # or g
///   currency: EUR
///   scale: {oils: 1 g, lye: 0.1 g}
///   lye: {alkali: sodium hydroxide, purity: 99 %, concentration: 33 %}
///   room: 19 C
///   cure: 6 weeks
///   shelf: weighbridge-shelf.yaml
///   moulds: {plank: {inside: [300 mm, 80 mm, 70 mm], fill-to: 48 mm}}
///   packed-in: {kraft box: 1}
/// Errors: InputError at file, line and column.
std::optional<Workshop> workshop_in(const std::string& folder);
/// The same of the folder a file lies in.
std::optional<Workshop> workshop_beside(const std::string& file);

/// Each fills what a file leaves open from its workshop.
void fill_from(const std::optional<Workshop>& workshop, LyeWish& lye);
void fill_from(const std::optional<Workshop>& workshop, Scale& scale);

/// Returns the words for what a file has from its workshop, such as "scale, strength of the lye";
/// empty where it has nothing from it.
std::string taken_from(const Workshop& workshop, const oils::yaml::Node& root);

/// Returns the mould that a workshop knows by this name. Errors: InputError at the name.
Mould known_mould(const oils::yaml::Node& name, const std::string& folder);

}  // namespace barwright::targets
