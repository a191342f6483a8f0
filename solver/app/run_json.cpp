#include "solver/app/run_json.hpp"

#include "solver/app/exit_code.hpp"
#include "solver/app/json.hpp"

namespace barwright::app {

std::variant<RunRequest, std::string> run_request(const Json& asked) {
  RunRequest out;
  const Json* words = asked.find("args");
  if (words == nullptr || !words->is_array()) return "The request names no args.";
  for (const auto& word : words->items()) {
    if (word.text() == nullptr) return "The request has an argument that is no text.";
    out.args.push_back(*word.text());
  }
  const Json* given = asked.find("files");
  if (given == nullptr) return out;
  if (!given->is_object()) return "The request's files are no object.";
  for (std::size_t i = 0; i < given->items().size(); ++i) {
    const std::string* text = given->items()[i].text();
    if (text == nullptr) return "The request's file '" + given->keys()[i] + "' is no text.";
    out.files.emplace(given->keys()[i], *text);
  }
  return out;
}

std::string reply_json(const FilesReply& reply) {
  Json files = Json::object();
  for (const auto& [path, text] : reply.written) files[path] = text;
  return Json{{"exit", reply.exit_code},
              {"text", reply.text},
              {"error", reply.error},
              {"files", std::move(files)},
              {"removed", Json(reply.removed)}}
      .dump(-1);
}

std::string run_json(const std::string& request) {
  const auto parsed = Json::parse(request);
  const auto asked = parsed ? run_request(*parsed) : "The request is no JSON.";
  if (const auto* run = std::get_if<RunRequest>(&asked))
    return reply_json(run_over(run->args, run->files));
  FilesReply unread;
  unread.exit_code = kWrongUsage;
  unread.error = std::get<std::string>(asked) + "\n";
  return reply_json(unread);
}

}  // namespace barwright::app
