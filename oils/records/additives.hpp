#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/lye/acid.hpp"
#include "core/lye/dose.hpp"
#include "core/units/figure.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::oils {

/// What an additive is, for the order of work.
enum class AdditiveKind {
  colour,
  clay,
  grain,
  scent,
  hardener,
  sweet,
  chelator,
  milk,
  liquid,
  topping,
  embed
};
/// How a colour or the like takes fresh soap.
enum class InAlkali { stable, shifts, dies, ask };
const char* word(AdditiveKind kind);
const char* word(InAlkali alkali);

/// What an additive brings, mass fractions of its own weight.
struct AdditiveHolds {
  double water = 0, fat = 0, sugar = 0, salt = 0, alcohol = 0;
  std::optional<core::Acid> acid;         ///< grams per gram of it
  core::Span fat_saponification_value{};  ///< mg KOH/g, where there is fat
  core::Mark mark = core::Mark::judgement;
  std::string source;
};

/// One additive with its dose rule.
struct Additive {
  std::string name;
  std::vector<std::string> also;
  AdditiveKind kind = AdditiveKind::colour;
  core::DoseBasis basis = core::DoseBasis::batter;
  core::Figure dose;  ///< g per kg of the basis: least, usual, most
  std::string when;
  std::string disperse;
  std::string does;
  InAlkali alkali = InAlkali::ask;
  std::string caution;
  std::string before_lye;  ///< what must be done with it before it meets lye, a sentence
  std::optional<core::Figure> density;         ///< g per mL, loose in a spoon
  std::optional<core::Figure> flash_celsius;   ///< scents: closed cup
  std::map<std::string, std::string> behaves;  ///< scents: "thickens": "fast", practice
  std::optional<AdditiveHolds> holds;
  double slurry = 0;  ///< g of water that 1 g of it is stirred up with first; 0: none
  core::Place place;
};

/// All additives known.
class Additives {
 public:
  /// Returns those compiled into the program (oils/additives/*.yaml). `sources`: keys a record may
  /// name beside "own".
  static Additives embedded();
  /// Adds the records of one file. Errors: InputError at file, line and column: a record without
  /// basis, unit, source or mark, an unknown key, a name that stands twice.
  void add_text(const std::string& text, const std::string& file);
  void add(const yaml::Document& document);  ///< the same

  const std::vector<Additive>& all() const { return all_; }
  /// Returns the additive of this name or synonym (case, hyphens folded), or null.
  const Additive* find(std::string_view name) const;
  std::string nearest(std::string_view name) const;

 private:
  std::vector<Additive> all_;
  std::map<std::string, std::size_t> names_;
};

}  // namespace barwright::oils
