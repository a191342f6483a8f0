#include "solver/app/options/usage_error.hpp"
#include "solver/app/serve/serve.hpp"

namespace barwright::app {

void serve(const std::string&, int) {
  throw UsageError{"serve: the page at hand is the workbench already."};
}

}  // namespace barwright::app
