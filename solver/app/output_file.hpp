#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "solver/app/program.hpp"

namespace barwright::app {

/// A file that a command writes beside its answer. No file that is not ours is ever replaced.
struct OutputFile {
  std::string path;       ///< empty: none is asked for
  std::string_view mark;  ///< what a file of ours holds, which may be replaced; empty: none may be
};

/// Asks before anything is done whether these can be written. Errors: UsageError when a file stands
/// there that is not ours, its folder is not there or may not be written to, or two have one name.
void check_outputs(const std::vector<OutputFile>& files);

/// Writes one, whole or not at all. Errors: UsageError as above, InputError that says why.
void write_output(const OutputFile& file, const std::string& text);

/// Writes one beside an answer. An answer is never lost for it: what goes wrong becomes a line of
/// the outcome's diagnostics, an error in its JSON, and its exit code.
void write_beside(Outcome& outcome, const OutputFile& file, const std::string& text);

}  // namespace barwright::app
