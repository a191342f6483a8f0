#pragma once

#include <map>
#include <string>
#include <vector>

#include "solver/app/run.hpp"

namespace barwright::app {

/// Files of a folder: their text at their path from it ("briefs/firmer.yaml").
using Files = std::map<std::string, std::string>;

/// What a command line gave over files, and what became of them.
struct FilesReply : Reply {
  Files written;                     ///< new files, and those whose text changed
  std::vector<std::string> removed;  ///< files that are no more
};

/// Returns whether a path stays within its folder: relative, no "..", nothing hidden in between.
bool stays_within(const std::string& path);

/// Runs a command line over these files alone and returns what it gives. They are put into a fresh
/// folder, which becomes the process's own while the run lasts: one run at a time in a process (a
/// second waits). A path that leaves the folder is wrong usage.
FilesReply run_over(const std::vector<std::string>& args, const Files& files,
                    const Surroundings& where = {});

}  // namespace barwright::app
