#include "solver/app/library.hpp"

namespace barwright::app {

oils::Library load_library(const CommonOptions& options) {
  oils::Library library = oils::Library::embedded();
  if (!options.library_folder.empty()) library.add_folder(options.library_folder);
  return library;
}

}  // namespace barwright::app
