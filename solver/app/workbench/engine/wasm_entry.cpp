// What the page's worker calls. Built by emscripten only.
#include <emscripten/emscripten.h>

#include <exception>
#include <string>

#include "solver/app/run_json.hpp"

/// Runs a request (see run_json.hpp) and returns the reply, which stands until the next call.
extern "C" EMSCRIPTEN_KEEPALIVE const char* barwright_run(const char* request) {
  static std::string reply;
  try {
    reply = barwright::app::run_json(request);
  } catch (const std::exception& error) {
    reply = barwright::app::reply_json({{70, {}, std::string(error.what()) + "\n"}, {}, {}});
  }
  return reply.c_str();
}
