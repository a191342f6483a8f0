#include "solver/app/serve/page.hpp"

#include "oils/embedded.hpp"

namespace barwright::app {

// Put together when the program is built (solver/app/CMakeLists.txt).
namespace page {
std::span<const oils::EmbeddedFile> embedded_files();
}

std::string workbench_page() { return std::string(page::embedded_files().front().text); }

}  // namespace barwright::app
