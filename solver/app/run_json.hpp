#pragma once

#include <string>
#include <variant>
#include <vector>

#include "solver/app/run_files.hpp"

namespace barwright::app {

class Json;

/// A command line with the files it stands over.
struct RunRequest {
  std::vector<std::string> args;
  Files files;
};

/// Returns what {"args": ["blend", ...], "files": {"brief.yaml": "..."}} asks, or a sentence why it
/// cannot be read. Without files there are none.
std::variant<RunRequest, std::string> run_request(const Json& asked);

/// Returns a reply as one line of JSON: {"exit", "text", "error", "files", "removed"}.
std::string reply_json(const FilesReply& reply);

/// Runs a request written as JSON and returns the reply as JSON. One that cannot be read is
/// answered with exit 2.
std::string run_json(const std::string& request);

}  // namespace barwright::app
