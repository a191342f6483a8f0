// `barwright serve` where many come at once, or come and say nothing.
#include <arpa/inet.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <catch2/catch.hpp>
#include <cerrno>
#include <vector>

#include "served.hpp"

using namespace barwright::tests;

namespace {

// Connections that say nothing.
class Silent {
 public:
  Silent(int port, int count) {
    for (int i = 0; i < count; ++i) {
      const int one = ::socket(AF_INET, SOCK_STREAM, 0);
      sockaddr_in to{};
      to.sin_family = AF_INET;
      to.sin_port = htons(static_cast<std::uint16_t>(port));
      to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
      REQUIRE(::connect(one, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0);
      all_.push_back(one);
    }
  }
  ~Silent() {
    for (const int one : all_) ::close(one);
  }
  Silent(const Silent&) = delete;
  Silent& operator=(const Silent&) = delete;
  /// Returns how many the server has not closed.
  long open() const {
    return std::count_if(all_.begin(), all_.end(), [](int one) {
      char byte = 0;
      return ::recv(one, &byte, 1, MSG_DONTWAIT) < 0 && (errno == EAGAIN || errno == EWOULDBLOCK);
    });
  }

 private:
  std::vector<int> all_;
};

}  // namespace

TEST_CASE("serve: connections that say nothing keep nobody waiting") {
  const Served served("silent");
  const Silent silent(served.server->port(), 40);
  const auto answer = served.get("/files", served.headers());
  REQUIRE(answer);
  CHECK(answer->status == 200);
  CHECK(silent.open() > 8);  // answered beside them, not once they were given up
}

TEST_CASE("serve: a thousand requests at once are each answered or refused") {
  const Served served("thousand");
  std::atomic<int> answered = 0, refused = 0;
  std::vector<std::thread> many;
  for (int t = 0; t < 50; ++t) {
    many.emplace_back([&, t] {
      httplib::Headers headers = served.headers();
      if (t % 2 == 1) headers.erase("X-Barwright-Token");
      for (int i = 0; i < 20; ++i) {
        httplib::Client client("127.0.0.1", served.server->port());
        client.set_connection_timeout(60);
        client.set_read_timeout(60);
        const auto reply = client.Get("/files", headers);
        if (!reply) continue;
        answered += reply->status == 200 ? 1 : 0;
        refused += reply->status == 403 ? 1 : 0;
      }
    });
  }
  for (auto& one : many) one.join();
  CHECK(answered == 500);
  CHECK(refused == 500);
}
