#pragma once

namespace barwright::app {

/// Returns the part of a sheet's script that keeps what is typed into its cells and puts it, with
/// what was ticked, into the file that 'make --written' takes. It stands inside page_ticks_script,
/// whose names it uses.
const char* page_written_script();

}  // namespace barwright::app
