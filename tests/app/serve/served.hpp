#pragma once

#include <httplib.h>

#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <thread>

#include "running.hpp"
#include "solver/app/serve/server.hpp"

namespace barwright::tests {

inline const std::string kPage =
    "<html><meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; connect-src "
    "'self'\"><meta name=\"barwright-token\" content=\"@TOKEN@\"></html>";

// A server over a folder of its own with the invented workshop in it.
class Served {
 public:
  explicit Served(const std::string& name) : folder(fresh_folder("serve-" + name)) {
    for (const char* file : {"yard-bar.yaml", "firmer-bar.yaml", "weighbridge-shelf.yaml"})
      std::filesystem::copy_file(std::string(BARWRIGHT_SOURCE_DIR "/examples/") + file,
                                 folder + "/" + file);
    server = std::make_unique<app::Server>(folder, kPage, 0);
    thread = std::thread([this] { server->listen(); });
  }
  ~Served() {
    server->stop();
    thread.join();
    std::filesystem::remove_all(folder);
  }

  httplib::Headers headers() const {
    return {{"Host", "127.0.0.1:" + std::to_string(server->port())},
            {"X-Barwright-Token", server->token()}};
  }
  httplib::Result get(const std::string& path, const httplib::Headers& with) const {
    return httplib::Client("127.0.0.1", server->port()).Get(path, with);
  }
  httplib::Result post(const std::string& path, const std::string& body,
                       const httplib::Headers& with) const {
    httplib::Client client("127.0.0.1", server->port());
    client.set_read_timeout(120);
    return client.Post(path, with, body, "application/json");
  }
  httplib::Result post(const std::string& path, const nlohmann::json& body) const {
    return post(path, body.dump(), headers());
  }

  std::string folder;
  std::unique_ptr<app::Server> server;
  std::thread thread;
};

inline httplib::Headers with(httplib::Headers headers, const std::string& key,
                             const std::string& value) {
  headers.erase(key);
  if (!value.empty()) headers.emplace(key, value);
  return headers;
}

}  // namespace barwright::tests
