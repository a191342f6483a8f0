#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/lye/batch_pot.hpp"
#include "core/lye/recipe.hpp"
#include "core/trade/label.hpp"
#include "core/units/date.hpp"
#include "oils/books/shelf.hpp"

namespace barwright::books {

/// What a line of a plan is.
enum class PlanKind { oil, alkali, water, other };

/// One thing to be weighed into a part.
struct PlanLine {
  std::string what;
  PlanKind kind = PlanKind::other;
  double grams = 0;
  std::string lot;                           ///< where the file itself names one (embeds)
  bool blend = true;                         ///< oils: of the blend, not beside it
  core::PotFat fat{};                        ///< oils
  core::PotAlkali alkali{};                  ///< alkali
  std::optional<core::Acid> acid{};          ///< others that are an acid, per gram
  std::optional<core::Addition> addition{};  ///< others: what they bring
  std::optional<core::Role> role{};          ///< others: what the file says it is
  bool liquid = false;                       ///< others: stands in for water
};

/// A part as it is to be weighed.
struct PlanPart {
  std::string name;
  std::vector<PlanLine> lines;
  double superfat = 0;     ///< fraction, nominal
  double poured = 0;       ///< g
  double cured = 0;        ///< g, estimated
  double cured_water = 0;  ///< g of it that is water
  core::Scales scales;
};

/// A line as it stands on a batch's sheet, and what it is in the books: they know a premixed oil by
/// what was mixed, and what is weighed in two cups as one.
struct OnSheet {
  std::string part;  ///< or what it is weighed into: the one lye pot
  std::string what;
  double grams = 0;
  struct Of {
    std::size_t part = 0, line = 0;  ///< into MakePlan::parts and their lines
    double share = 1;                ///< of what is weighed more or less
  };
  std::vector<Of> of;
  bool in_proportion = false;  ///< lines of the one lye: all of them by the same factor
};

/// A recipe or a batch file, weighed out: what `make`, `label` and `price` work on.
struct MakePlan {
  std::string file;
  std::string name;
  std::optional<core::Day> bench_date;
  int bars = 0;  ///< 0: the file does not say
  double cure_hours = 0;
  std::vector<PlanPart> parts;
  std::vector<OnSheet> on_sheet;          ///< of a batch
  std::optional<std::string> shelf_file;  ///< as the file names it, found from its folder
  /// Packaging a bar takes, pieces, as the file has it, else its workshop's.
  std::vector<std::pair<std::string, double>> packed_in;
  bool packed_here = false;  ///< the file itself says it
};

/// Returns the plan of a file: a batch when it says so ("batch:"), else a recipe. With a shelf,
/// oils are reckoned with what its certificates say, as `weigh` does. `bars` above 0 takes the
/// place of what the file says. Errors: InputError; Refusal when the lye cannot be made safe.
MakePlan make_plan(const std::string& path, const oils::Library& library, const oils::Shelf* shelf,
                   int bars = 0);

/// Returns the shelf file that a recipe or batch names; nothing when it names none.
std::optional<std::string> shelf_named_in(const std::string& path);

/// Returns the pieces of packaging that so many bars take at so many a bar.
double pieces_for(double each, int bars);

/// Returns the superfat of a part by its weights as they stand in the plan. Errors: Refusal.
core::PotCheck check_weights(const PlanPart& part);

}  // namespace barwright::books
