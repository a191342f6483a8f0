#pragma once

#include <memory>
#include <string>

namespace barwright::app {

/// Returns 32 bytes from the system's random source, as 64 hex digits. Errors: std::runtime_error.
std::string fresh_token();

/// Serves the workbench's page on 127.0.0.1 and computes over the files of one folder. Nothing is
/// answered without the token; nothing is logged. The paths it answers, all but the first for the
/// page's own scripts only:
///   GET  /?token=T   sets a cookie and leads to / ; GET / gives the page
///   GET  /files      {"files": {path: text}, "hashes": {path: mark}}
///   POST /run        {"args", "files"} -> {"exit", "text", "error", "files", "removed"}: over the
///   folder with
///                    the request's files laid over it; nothing is written to the disk. A newer
///                    search ends one that runs.
///   POST /stop       ends the search that runs
///   POST /save       {"files": {path: {"text", "was"}}} -> {"hashes"}, or 409 {"error", "changed"}
class Server {
 public:
  /// Binds to the port (0: any that is free). `page` is what GET / gives, with @TOKEN@ in it
  /// replaced. Errors: InputError when the folder is none or the port is taken.
  Server(const std::string& folder, std::string page, int port);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  int port() const;
  const std::string& token() const;
  /// Returns the address to open: "http://127.0.0.1:8642/?token=...".
  std::string address() const;

  /// Answers until stop() is called from another thread.
  void listen();
  /// Ends a search that runs, and the listening.
  void stop();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace barwright::app
