#include "solver/app/common_options.hpp"

namespace barwright::app {

void add_common(Command command, CommonOptions& options) {
  command.flag("--json", options.json, "Print one JSON object instead of text");
  command.value("--library", options.library_folder,
                "Folder of oil records (*.yaml) that add to the built-in library or replace in it");
}

void add_units(Command command, CommonOptions& options) {
  command
      .value("--units", options.units,
             "What weights are shown in: g or oz; without it as the workshop's file says")
      .one_of({"g", "oz"});
}

}  // namespace barwright::app
