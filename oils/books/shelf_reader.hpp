#pragma once

#include <string>

#include "oils/books/shelf.hpp"

namespace barwright::oils {

/// Returns a shelf read from a file. Lots may point to the maker's own record files, found from the
/// shelf's folder. Errors: InputError at file, line and column.
Shelf read_shelf(const std::string& path, const Library& library);
/// The same from text; `name` stands for the file, `folder` for where it lies.
Shelf read_shelf_text(const std::string& text, const std::string& name, const std::string& folder,
                      const Library& library);

}  // namespace barwright::oils
