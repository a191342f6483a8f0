#pragma once

#include <map>
#include <string>
#include <vector>

#include "oils/books/stock.hpp"
#include "solver/books/make_plan.hpp"
#include "solver/books/written.hpp"

namespace barwright::app {

/// Options by which what was written on a sheet is typed in.
struct TypedOptions {
  std::string written;  ///< a file that holds it
  std::vector<std::string> weighed, lots, steps, happened, notes, defects;
};

/// Returns what was typed in: behind options, and in the file they name. Errors: InputError,
/// UsageError; a thing that both say.
books::Written typed_sheet(const TypedOptions& options);

/// Puts the weights as typed in into the plan. Errors: UsageError or, from a file, InputError for a
/// line there is not, one in several parts, one typed twice.
void take_weights(books::MakePlan& plan, const std::vector<books::Typed>& typed,
                  const oils::Library& library);

/// Returns the lots as typed in, by what they are of ("olive") or by part and what ("body/olive").
/// A second lot of one thing of a part, and the lot of a mix, which the books do not know, become
/// notes. Errors: as take_weights.
std::map<std::string, std::string> take_lots(const books::MakePlan& plan,
                                             const std::vector<books::Typed>& typed,
                                             const oils::Shelf& shelf,
                                             std::vector<std::string>& notes);

/// Returns what was written beside the steps of a sheet and in its boxes, as notes for the journal:
/// "step 7, make the lye: 9:55, 60 C", "body: trace at 10:35". Errors: InputError for a step, part
/// or box there is not.
std::vector<std::string> written_notes(const books::Written& written, const books::MakePlan& plan,
                                       const oils::Books& books);

/// What the books know of the sheet a batch was made by.
struct BySheet {
  std::string note;     ///< for the journal: "by sheet 7, 3fa2b1c0"; empty: no sheet
  std::string changed;  ///< the recipe is another one since; else empty
};
/// Errors: InputError where the file typed in is of another batch.
BySheet by_sheet(const books::Written& written, const books::MakePlan& plan,
                 const oils::Books& books);

}  // namespace barwright::app
