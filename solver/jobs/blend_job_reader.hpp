#pragma once

#include <optional>
#include <string>

#include "oils/books/shelf.hpp"
#include "oils/records/library.hpp"
#include "solver/jobs/blend_job.hpp"

namespace barwright::jobs {

/// Returns the job a brief file poses, its shelf, recipe files and yardstick read and resolved.
/// Errors: InputError at file, line and column.
BlendJob read_blend_job(const std::string& path, const oils::Library& library);

/// Returns the job of a brief that was read already; `known`: the shelf's library, where there is
/// one. Errors: as above.
BlendJob blend_job_of(targets::Brief brief, const oils::Library& known,
                      const std::optional<oils::Shelf>& shelf);

/// Returns the shelf a brief file names, found from its folder, or nothing.
std::optional<oils::Shelf> shelf_of_brief(const std::string& path, const oils::Library& library);

/// Returns the path of that shelf; empty where it names none.
std::string shelf_file_of_brief(const std::string& path);

/// Returns the oils a brief lets the search use, and those left out with the reason.
formulate::Candidates candidates_for(const targets::Brief& brief, const oils::Library& library,
                                     const std::optional<oils::Shelf>& shelf);

/// Returns the bar in the hand, worked out. `shelf` gives prices, where it has them.
formulate::KnownBar known_bar(const targets::Yardstick& yardstick, const oils::Library& library,
                              const std::optional<oils::Shelf>& shelf);

}  // namespace barwright::jobs
