#include "solver/app/version.hpp"

#include <fmt/format.h>

#include "oils/records/library.hpp"

namespace barwright::app {

std::string version() { return BARWRIGHT_VERSION; }

std::string version_text() {
  const auto library = oils::Library::embedded();
  return fmt::format("barwright {}\nlibrary of {}, {} oils", version(), library.edition(),
                     library.oils().size());
}

}  // namespace barwright::app
