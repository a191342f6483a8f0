#include "solver/app/serve/server.hpp"

#include <fmt/format.h>
#include <httplib.h>
#include <sys/random.h>

#include <array>
#include <exception>
#include <map>
#include <stdexcept>
#include <utility>
#include <variant>

#include "core/units/error.hpp"
#include "core/units/plain_text.hpp"
#include "oils/files/safe_file.hpp"
#include "solver/app/json.hpp"
#include "solver/app/run_json.hpp"
#include "solver/app/serve/gate.hpp"
#include "solver/app/serve/workshop_folder.hpp"

namespace barwright::app {
namespace {

using httplib::Request;
using httplib::Response;

constexpr std::size_t kLargestBody = 32U << 20U;
constexpr std::size_t kThreads = 64;
constexpr int kPatienceSeconds = 5;
constexpr const char* kHost = "127.0.0.1";
constexpr const char* kJson = "application/json";
constexpr const char* kTokenHeader = "X-Barwright-Token";

// Looks at every character whatever it finds, so that the time tells nothing of where they part.
bool same(const std::string& one, const std::string& other) {
  if (one.size() != other.size()) return false;
  unsigned differ = 0;
  for (std::size_t i = 0; i < one.size(); ++i)
    differ |= static_cast<unsigned char>(one[i]) ^ static_cast<unsigned char>(other[i]);
  return differ == 0;
}

void refuse(Response& to, int status, const std::string& why) {
  to.status = status;
  to.set_content(Json{{"error", why}}.dump(-1), kJson);
}

// The page's scripts are allowed by their hash: only the first place is the token's.
std::string with_token(std::string page, const std::string& token) {
  const std::string mark = "@TOKEN@";
  const std::size_t at = page.find(mark);
  if (at != std::string::npos) page.replace(at, mark.size(), token);
  return page;
}

// What the page states of itself in its head, so that the server's header and the page cannot
// differ.
std::string policy_of(const std::string& page) {
  const std::string mark = "<meta http-equiv=\"Content-Security-Policy\" content=\"";
  const std::size_t at = page.find(mark);
  const std::string own = "; frame-ancestors 'none'";
  if (at == std::string::npos) return "default-src 'none'" + own;
  const std::size_t from = at + mark.size();
  return page.substr(from, page.find('"', from) - from) + own;
}

std::string cookie_of(const Request& from, const std::string& name) {
  const std::string all = "; " + from.get_header_value("Cookie");
  const std::size_t at = all.find("; " + name + "=");
  if (at == std::string::npos) return {};
  const std::size_t value = at + name.size() + 3;
  return all.substr(value, all.find(';', value) - value);
}

const std::string* text_at(const Json& object, std::string_view key) {
  const Json* found = object.find(key);
  return found == nullptr ? nullptr : found->text();
}

}  // namespace

std::string fresh_token() {
  std::array<unsigned char, 32> bytes{};
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw std::runtime_error("the system gives no random bytes");
  std::string out;
  for (const unsigned byte : bytes) out += fmt::format("{:02x}", byte);
  return out;
}

struct Server::Parts {
  Parts(const std::string& folder, std::string page_text)
      : workshop(folder), page(std::move(page_text)), token(fresh_token()) {}

  bool is_here(const Request& from) const;
  bool is_known(const Request& from) const;
  httplib::Server::HandlerResponse guard(const Request& from, Response& to) const;
  void give_page(const Request& from, Response& to) const;
  void give_files(Response& to) const;
  void run(const Json& asked, Response& to);
  void stop_search(const Json& asked, Response& to);
  void save(const Json& asked, Response& to);
  void answer(const Request& from, Response& to, void (Parts::*by)(const Json&, Response&));
  std::string cookie() const { return fmt::format("barwright-{}", port); }

  WorkshopFolder workshop;
  std::string page, token;
  int port = 0;
  Gate gate;
  httplib::Server http;
};

// Another page that makes a browser ask here shows in Host or Origin.
bool Server::Parts::is_here(const Request& from) const {
  const std::string ours = fmt::format("{}:{}", kHost, port);
  const std::string also = fmt::format("localhost:{}", port);
  const std::string host = from.get_header_value("Host");
  if (host != ours && host != also) return false;
  if (from.get_header_value_count("Host") != 1) return false;
  if (from.has_header("Origin") && from.get_header_value("Origin") != "http://" + host)
    return false;
  const std::string site = from.get_header_value("Sec-Fetch-Site");
  return from.path == "/" || site.empty() || site == "same-origin";
}

bool Server::Parts::is_known(const Request& from) const {
  if (from.path != "/") return same(from.get_header_value(kTokenHeader), token);
  return same(from.get_param_value("token"), token) || same(cookie_of(from, cookie()), token);
}

httplib::Server::HandlerResponse Server::Parts::guard(const Request& from, Response& to) const {
  using Outcome = httplib::Server::HandlerResponse;
  if (!is_here(from)) {
    refuse(to, 403, "This page answers only at its own address, http://127.0.0.1.");
    return Outcome::Handled;
  }
  if (!is_known(from)) {
    refuse(to, 403, "Open the address that 'barwright serve' printed when it was started.");
    return Outcome::Handled;
  }
  if (from.method != "GET" && from.method != "POST") {
    refuse(to, 405, "Only GET and POST are answered here.");
    return Outcome::Handled;
  }
  if (from.has_header("Content-Encoding")) {
    refuse(to, 415, "A packed request is not taken.");
    return Outcome::Handled;
  }
  return Outcome::Unhandled;
}

void Server::Parts::give_page(const Request& from, Response& to) const {
  if (from.has_param("token")) {  // the address bar and the history keep the bare address only
    to.set_header("Set-Cookie",
                  fmt::format("{}={}; Path=/; HttpOnly; SameSite=Strict", cookie(), token));
    to.set_redirect("/", 303);
    return;
  }
  to.set_header("Content-Security-Policy", policy_of(page));
  to.set_content(with_token(page, token), "text/html; charset=utf-8");
}

void Server::Parts::give_files(Response& to) const {
  Json files = Json::object(), hashes = Json::object();
  for (const auto& [path, text] : workshop.read()) {
    // JSON has no place for bytes that are no text: the page would save something else instead. A
    // command that reads the file says where they stand.
    if (core::first_unfit(path) || core::first_unfit(text)) continue;
    hashes[path] = oils::mark_of(text);
    files[path] = text;
  }
  to.set_content(Json{{"files", std::move(files)}, {"hashes", std::move(hashes)}}.dump(-1), kJson);
}

void Server::Parts::run(const Json& asked, Response& to) {
  auto request = run_request(asked);
  if (const auto* wrong = std::get_if<std::string>(&request)) return refuse(to, 400, *wrong);
  auto& [args, changed] = std::get<RunRequest>(request);
  if (!args.empty() && args.front() == "serve")
    return refuse(to, 400, "'serve' runs already: this is it.");
  const bool search =
      !args.empty() && (args[0] == "blend" || args[0] == "swap" || args[0] == "explore");
  if (!gate.enter(search)) return refuse(to, 409, "A newer question took the place of this one.");
  struct Leave {
    Gate& gate;
    ~Leave() { gate.leave(); }
  } const leave{gate};
  Files files = workshop.read();
  for (auto& [path, text] : changed) files.insert_or_assign(path, std::move(text));
  to.set_content(reply_json(run_over(args, files, {false, &gate.stopped()})), kJson);
}

void Server::Parts::save(const Json& asked, Response& to) {
  const Json* given = asked.find("files");
  if (given == nullptr || !given->is_object())
    return refuse(to, 400, "The request names no files to save.");
  std::map<std::string, Saving> files;
  for (std::size_t i = 0; i < given->items().size(); ++i) {
    const std::string* text = text_at(given->items()[i], "text");
    const std::string* was = text_at(given->items()[i], "was");
    Saving& one = files[given->keys()[i]];
    if (text != nullptr) one.shall = *text;
    if (was != nullptr) one.was = *was;
  }
  const Saved saved = workshop.save(files);
  if (!saved.changed.empty()) {
    refuse(to, 409, {});
    to.set_content(Json{{"error",
                         "Nothing was written: on the disk these files are no longer as they were "
                         "read. Take over what stands there, or save under another name."},
                        {"changed", Json(saved.changed)}}
                       .dump(-1),
                   kJson);
    return;
  }
  Json hashes = Json::object();
  for (const auto& [path, mark] : saved.marks) hashes[path] = mark;
  to.set_content(Json{{"hashes", std::move(hashes)}}.dump(-1), kJson);
}

void Server::Parts::stop_search(const Json&, Response& to) {
  gate.stop();
  to.set_content("{}", kJson);
}

void Server::Parts::answer(const Request& from, Response& to,
                           void (Parts::*by)(const Json&, Response&)) {
  if (from.get_header_value("Content-Type").rfind(kJson, 0) != 0)
    return refuse(to, 415, "A request is written as JSON.");
  const auto asked = Json::parse(from.body);
  if (!asked || !asked->is_object()) return refuse(to, 400, "The request is no JSON object.");
  try {
    (this->*by)(*asked, to);
  } catch (const core::InputError& error) {
    refuse(to, 409, error.what());
  }
}

Server::Server(const std::string& folder, std::string page, int port)
    : parts_(std::make_unique<Parts>(folder, std::move(page))) {
  Parts& own = *parts_;
  auto& http = own.http;
  http.set_payload_max_length(kLargestBody);
  // Who connects and says nothing holds a thread until the time is out; there are others.
  http.new_task_queue = [] { return new httplib::ThreadPool(kThreads); };
  http.set_read_timeout(kPatienceSeconds);
  http.set_keep_alive_timeout(kPatienceSeconds);
  http.set_socket_options([](socket_t socket) {  // no second program may share the port
    const int yes = 1;
    ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  });
  http.set_default_headers({{"X-Content-Type-Options", "nosniff"},
                            {"X-Frame-Options", "DENY"},
                            {"Referrer-Policy", "no-referrer"},
                            {"Cross-Origin-Opener-Policy", "same-origin"},
                            {"Cross-Origin-Resource-Policy", "same-origin"},
                            {"Cache-Control", "no-store"}});
  http.set_pre_routing_handler(
      [&own](const Request& from, Response& to) { return own.guard(from, to); });
  http.set_exception_handler([](const Request&, Response& to, std::exception_ptr) {
    refuse(to, 500, "A fault of barwright's, not yours. Nothing was written.");
  });
  http.set_error_handler([](const Request&, Response& to) {
    if (!to.body.empty()) return;
    refuse(to, to.status,
           to.status == 413   ? "The request is larger than a workshop."
           : to.status == 404 ? "Nothing is found under this address."
                              : "The request cannot be read.");
  });
  http.Get("/", [&own](const Request& from, Response& to) { own.give_page(from, to); });
  http.Get("/files", [&own](const Request&, Response& to) {
    try {
      own.give_files(to);
    } catch (const core::InputError& error) {
      refuse(to, 409, error.what());
    }
  });
  http.Post("/run",
            [&own](const Request& from, Response& to) { own.answer(from, to, &Parts::run); });
  http.Post("/stop", [&own](const Request& from, Response& to) {
    own.answer(from, to, &Parts::stop_search);
  });
  http.Post("/save",
            [&own](const Request& from, Response& to) { own.answer(from, to, &Parts::save); });
  own.port = port == 0 ? http.bind_to_any_port(kHost) : http.bind_to_port(kHost, port) ? port : -1;
  if (own.port < 0)
    throw core::InputError({}, fmt::format("port {} is taken", port),
                           "Leave --port out, or name another.");
}

Server::~Server() = default;

int Server::port() const { return parts_->port; }

const std::string& Server::token() const { return parts_->token; }

std::string Server::address() const {
  return fmt::format("http://{}:{}/?token={}", kHost, port(), token());
}

void Server::listen() { parts_->http.listen_after_bind(); }

void Server::stop() {
  parts_->gate.close();
  parts_->http.stop();
}

}  // namespace barwright::app
