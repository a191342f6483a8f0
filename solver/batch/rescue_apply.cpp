#include "solver/batch/rescue_apply.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/format.hpp"
#include "oils/records/library.hpp"
#include "solver/recipe/recipe_request.hpp"

namespace barwright::batch {
namespace {

/// What a name means in a part.
struct Line {
  enum class Kind { fat, acid, addition, apart, alkali, water, lye } kind = Kind::fat;
  std::size_t at = 0;  ///< in its list
  std::string name;
};

const char* word(Line::Kind kind) {
  switch (kind) {
    case Line::Kind::fat:
      return "a fat";
    case Line::Kind::acid:
      return "an acid";
    case Line::Kind::addition:
    case Line::Kind::apart:
      return "an addition";
    case Line::Kind::alkali:
      return "an alkali";
    case Line::Kind::water:
      return "water";
    case Line::Kind::lye:
      return "lye";
  }
  return "";
}

std::optional<core::Alkali> alkali_named(const std::string& folded) {
  if (folded == "naoh" || folded == "sodium hydroxide" || folded == "caustic soda") {
    return core::Alkali::sodium_hydroxide;
  }
  if (folded == "koh" || folded == "potassium hydroxide" || folded == "caustic potash") {
    return core::Alkali::potassium_hydroxide;
  }
  return std::nullopt;
}

bool is_lye(const std::string& folded) {
  return folded == "lye" || folded == "lye solution" || folded == "lye water";
}

const LyePotState& lye_of(const BenchState& bench, const PartState& part) {
  return bench.plan->shared ? bench.shared : part.lye;
}

std::string alkali_names(const BenchState& bench, const PartState& part) {
  std::string out;
  for (const auto& line : lye_of(bench, part).alkali) {
    out += std::string(out.empty() ? "" : "', '") + core::name(line.alkali);
  }
  return out;
}

bool same(const BatchPlan& plan, const std::string& folded, const std::string& line) {
  if (folded == oils::folded_name(line)) return true;
  const oils::Oil* oil = plan.library.find(folded);
  return oil != nullptr && oil->name == line;
}

/// Everything in the part that the name may mean, whole names only.
std::vector<Line> lines_named(const BenchState& bench, const PartState& part,
                              const std::string& name) {
  const std::string folded = oils::folded_name(name);
  std::vector<Line> out;
  const auto& lines = part.lines;
  for (std::size_t i = 0; i < lines.fats.size(); ++i) {
    if (same(*bench.plan, folded, lines.fats[i].name)) {
      out.push_back({Line::Kind::fat, i, lines.fats[i].name});
    }
  }
  for (std::size_t i = 0; i < lines.acids.size(); ++i) {
    if (folded == oils::folded_name(lines.acids[i].name)) {
      out.push_back({Line::Kind::acid, i, lines.acids[i].name});
    }
  }
  for (std::size_t i = 0; i < lines.additions.size(); ++i) {
    const std::string& full = lines.additions[i].name;
    // "brown iron oxide (mud)": the sheet's mark of the colour it is for may be left out.
    const std::string plain = full.substr(0, full.find(" ("));
    const bool fat = lines.additions[i].fat > 0 && folded == oils::folded_name("fat of " + full);
    if (fat || folded == oils::folded_name(full) || folded == oils::folded_name(plain)) {
      out.push_back({Line::Kind::addition, i, full});
    }
  }
  for (std::size_t i = 0; i < part.apart.size(); ++i) {
    if (folded == oils::folded_name(part.apart[i].name)) {
      out.push_back({Line::Kind::apart, i, part.apart[i].name});
    }
  }
  if (const auto alkali = alkali_named(folded)) {
    const auto& in_pot = lye_of(bench, part).alkali;
    for (std::size_t i = 0; i < in_pot.size(); ++i) {
      if (in_pot[i].alkali == *alkali) out.push_back({Line::Kind::alkali, i, core::name(*alkali)});
    }
  }
  const bool plain_water = lye_of(bench, part).water > 0;
  if (folded == "water" && plain_water) out.push_back({Line::Kind::water, 0, "water"});
  if (is_lye(folded)) out.push_back({Line::Kind::lye, 0, "lye"});
  return out;
}

/// Refuses words that mean two things at a bench.
void refuse_ambiguous(const BenchState& bench, const std::string& name) {
  const std::string folded = oils::folded_name(name);
  for (const char* unclear : {"alkali", "caustic", "soda", "potash", "soda lye", "potash lye",
                              "caustic lye", "dry lye", "lye flakes", "lye beads"}) {
    if (folded != unclear) continue;
    throw SlipError{
        fmt::format("'{}' may be the dry alkali or the lye made of it. Say '{}' (dry), or 'lye' "
                    "(alkali and water together).",
                    name, alkali_names(bench, bench.parts.front()))};
  }
}

std::string known_lines(const BenchState& bench) {
  std::string known;
  for (const auto& part : bench.parts) {
    known += (known.empty() ? "" : "; ") + part.plan->part->name + ": ";
    for (std::size_t i = 0; i < part.lines.fats.size(); ++i) {
      known += (i == 0 ? "" : ", ") + part.lines.fats[i].name;
    }
  }
  return fmt::format("The batch has: {}; {}, water, lye and what is added.", known,
                     alkali_names(bench, bench.parts.front()));
}

[[noreturn]] void refuse_unknown(const BenchState& bench, const std::string& name,
                                 const std::string& part) {
  const oils::Oil* oil = bench.plan->library.find(name);
  for (const auto& premix : bench.plan->file.premixes) {
    for (const auto& one : premix.blend.oils) {
      if (oil == nullptr || oil->name != one.oil.name) continue;
      throw SlipError{
          fmt::format("'{}' is no line of its own here: it is inside the premixed '{}', which is "
                      "weighed as one. Say '{}' where that was the slip.",
                      name, premix.name, premix.name)};
    }
  }
  throw SlipError{fmt::format("'{}' is in no part{}. {}", name,
                              part.empty() ? "" : " called '" + part + "'", known_lines(bench))};
}

struct Place {
  PartState* part = nullptr;
  Line line;
};

/// The one place a name means. A shared pot's alkali and water belong to every part at once.
Place place_of(BenchState& bench, const Slip& slip, const std::string& name) {
  refuse_ambiguous(bench, name);
  std::vector<Place> found;
  for (auto& part : bench.parts) {
    if (!slip.part.empty() &&
        oils::folded_name(slip.part) != oils::folded_name(part.plan->part->name)) {
      continue;
    }
    for (auto& line : lines_named(bench, part, name)) found.push_back({&part, std::move(line)});
  }
  if (found.empty()) refuse_unknown(bench, name, slip.part);
  const bool of_pot =
      found.front().line.kind == Line::Kind::alkali || found.front().line.kind == Line::Kind::water;
  if (of_pot && bench.plan->shared) {
    const bool swap = slip.kind == Slip::Kind::exchanged || slip.kind == Slip::Kind::instead;
    if (!slip.part.empty() && bench.parts.size() > 1 && !swap) {
      throw SlipError{
          fmt::format("One pot of lye serves every part: leave --part out, or say 'lye' for the "
                      "portion of the {}.",
                      slip.part)};
    }
    return found.front();
  }
  if (found.size() == 1) return found.front();
  if (found[0].part != found[1].part) {
    throw SlipError{fmt::format("'{}' is in {} and {}: say which with --part.", name,
                                found[0].part->plan->part->name, found[1].part->plan->part->name)};
  }
  std::string which;
  for (const auto& one : found) {
    if (one.part == found.front().part)
      which += (which.empty() ? "'" : ", '") + one.line.name + "'";
  }
  throw SlipError{fmt::format("'{}' may mean {}: say which.", name, which)};
}

/// Takes this share of the part's own lye, water and what is dissolved in it alike.
void scale_lye(PartState& part, double factor) {
  for (auto& line : part.lye.alkali) {
    line.grams *= factor;
    line.error *= std::max(1.0, factor);
  }
  part.lye.water *= factor;
  // The acids in it have used up their alkali: taken as they are, which leaves more alkali free
  // where lye is too much, and is a hair short where it is too little.
  for (auto& addition : part.lines.additions) {
    if (core::in_lye(addition.into)) addition.grams *= factor;
  }
}

double& grams_of(BenchState& bench, PartState& part, const Line& line) {
  auto& lye = bench.plan->shared ? bench.shared : part.lye;
  switch (line.kind) {
    case Line::Kind::fat:
      return part.lines.fats[line.at].grams;
    case Line::Kind::acid:
      return part.lines.acids[line.at].grams;
    case Line::Kind::addition:
      return part.lines.additions[line.at].grams;
    case Line::Kind::apart:
      return part.apart[line.at].grams;
    case Line::Kind::alkali:
      return lye.alkali[line.at].grams;
    case Line::Kind::water:
      return lye.water;
    case Line::Kind::lye:
      break;
  }
  return part.portion;
}

void touch(BenchState& bench, PartState& part, Line::Kind kind) {
  const bool of_pot = kind == Line::Kind::alkali || kind == Line::Kind::water;
  bench.alkali_moved = bench.alkali_moved || of_pot || kind == Line::Kind::lye;
  for (auto& each : bench.parts) {
    each.touched = each.touched || &each == &part || (of_pot && bench.plan->shared);
  }
}

void change(BenchState& bench, const Slip& slip) {
  const Place place = place_of(bench, slip, slip.line);
  PartState& part = *place.part;
  const bool own_lye = place.line.kind == Line::Kind::lye && !bench.plan->shared;
  const double there = own_lye ? lye_grams(part) : grams_of(bench, part, place.line);
  touch(bench, part, place.line.kind);
  if (slip.kind == Slip::Kind::forgotten) {
    if (place.line.kind == Line::Kind::lye) {
      part.lye_left_out = true;
      scale_lye(part, 0);
    } else {
      grams_of(bench, part, place.line) = 0;
    }
    return;
  }
  if (slip.kind == Slip::Kind::too_little && slip.grams > there * (1 + 1e-9)) {
    throw SlipError{fmt::format(
        "{} too little {} cannot be: the {} holds only {} of it{}.", core::grams_text(slip.grams),
        place.line.name, part.plan->part->name, core::grams_text(there),
        slip.grams < 1.01 * there ? "" : "; all of it left out is --forgot")};
  }
  const double by = slip.kind == Slip::Kind::too_much ? slip.grams : -slip.grams;
  if (own_lye) {
    scale_lye(part, std::max(0.0, 1 + by / there));
  } else {
    double& grams = grams_of(bench, part, place.line);
    grams = std::max(0.0, grams + by);
  }
}

[[noreturn]] void refuse_unlike(const Line& a, const Line& b) {
  throw SlipError{fmt::format(
      "'{}' is {} and '{}' is {}: only like and like can be swapped, a fat with a fat. Say what "
      "went wrong line by line: --too-much and --too-little may be given together.",
      a.name, word(a.kind), b.name, word(b.kind))};
}

/// The one line of this part that the name means; the slip's own words ask where there are more.
Line line_in(BenchState& bench, const PartState& part, const Slip& slip, const std::string& name) {
  auto lines = lines_named(bench, part, name);
  if (lines.size() == 1) return lines.front();
  Slip here = slip;
  here.part = part.plan->part->name;
  return place_of(bench, here, name).line;
}

void refuse_same(const Slip& slip, const Line& a, const Line& b) {
  if (a.at != b.at) return;
  throw SlipError{fmt::format("'{}' and '{}' are the same line.", slip.line, slip.other)};
}

void exchange(BenchState& bench, const Slip& slip) {
  const Place one = place_of(bench, slip, slip.line);
  const Line two = line_in(bench, *one.part, slip, slip.other);
  if (one.line.kind != two.kind) refuse_unlike(one.line, two);
  refuse_same(slip, one.line, two);
  touch(bench, *one.part, two.kind);
  std::swap(grams_of(bench, *one.part, one.line), grams_of(bench, *one.part, two));
}

void replace(BenchState& bench, const Slip& slip) {
  const Place missing = place_of(bench, slip, slip.other);
  PartState& part = *missing.part;
  const auto kind = missing.line.kind;
  if (!lines_named(bench, part, slip.line).empty()) {
    const Line there = line_in(bench, part, slip, slip.line);
    if (there.kind != kind) refuse_unlike(there, missing.line);
    refuse_same(slip, there, missing.line);
    touch(bench, part, kind);
    double& from = grams_of(bench, part, missing.line);
    grams_of(bench, part, there) += from;
    from = 0;
    return;
  }
  const auto alkali = alkali_named(oils::folded_name(slip.line));
  if (kind == Line::Kind::alkali && alkali) {
    auto& lye = bench.plan->shared ? bench.shared : part.lye;
    lye.alkali[missing.line.at].alkali = *alkali;
    // The jar was not planned for: as strong as it may be where the batch states no strength.
    lye.alkali[missing.line.at].strength =
        core::strength_of(recipe::lye_settings(part.plan->lye), *alkali);
    touch(bench, part, kind);
    return;
  }
  if (kind != Line::Kind::fat) {
    throw SlipError{fmt::format(
        "'{}' is {} and '{}' is not in the {}: what that would do is not known here. Say what is "
        "missing with --forgot.",
        slip.other, word(kind), slip.line, part.plan->part->name)};
  }
  refuse_ambiguous(bench, slip.line);
  const oils::Oil* oil = bench.plan->library.find(slip.line);
  if (oil == nullptr) throw SlipError{fmt::format("'{}' is no oil known here.", slip.line)};
  touch(bench, part, kind);
  double& from = grams_of(bench, part, missing.line);
  core::PotFat fat = recipe::pot_fat({*oil, from});
  from = 0;
  part.lines.fats.push_back(std::move(fat));
}

void set_strength(BenchState& bench, const Slip& slip) {
  const auto alkali = alkali_named(oils::folded_name(slip.line));
  if (!alkali) {
    throw SlipError{fmt::format("'{}' has no strength that is dosed by: say '{}'.", slip.line,
                                alkali_names(bench, bench.parts.front()))};
  }
  bool found = false;
  const auto set = [&](LyePotState& lye) {
    for (auto& line : lye.alkali) {
      if (line.alkali != *alkali) continue;
      line.strength = {slip.strength, {}, {}};
      found = true;
    }
  };
  set(bench.shared);
  for (auto& part : bench.parts) {
    // One jar serves every part, whatever --part says.
    set(part.lye);
    part.touched = true;
  }
  bench.alkali_moved = true;
  if (!found) refuse_unknown(bench, slip.line, {});
}

}  // namespace

std::optional<std::size_t> find_fat(const BatchPlan& plan, const PartState& part,
                                    const std::string& name) {
  const std::string folded = oils::folded_name(name);
  for (std::size_t i = 0; i < part.lines.fats.size(); ++i) {
    if (same(plan, folded, part.lines.fats[i].name)) return i;
  }
  return std::nullopt;
}

void apply(BenchState& bench, const Slip& slip) {
  switch (slip.kind) {
    case Slip::Kind::forgotten:
    case Slip::Kind::too_much:
    case Slip::Kind::too_little:
      return change(bench, slip);
    case Slip::Kind::exchanged:
      return exchange(bench, slip);
    case Slip::Kind::instead:
      return replace(bench, slip);
    case Slip::Kind::strength:
      return set_strength(bench, slip);
  }
}

}  // namespace barwright::batch
