#include "oils/text/yaml_bytes.hpp"

#include <algorithm>

namespace barwright::oils::yaml {

FileBytes::FileBytes(const std::string& text) : text_(text) {
  starts_.push_back(text_.starts_with("\xEF\xBB\xBF") ? 3 : 0);
  for (std::size_t i = 0; i < text_.size(); ++i) {
    const bool pair = text_[i] == '\r' && i + 1 < text_.size() && text_[i + 1] == '\n';
    if (!pair && (text_[i] == '\n' || text_[i] == '\r')) starts_.push_back(i + 1);
  }
}

std::size_t FileBytes::start(const Node& node) const {
  const core::Place place = node.place();
  const std::size_t line = starts_.at(static_cast<std::size_t>(std::max(place.line, 1)) - 1);
  return std::min(text_.size(), line + static_cast<std::size_t>(std::max(place.column, 1)) - 1);
}

std::size_t FileBytes::line_start(std::size_t at) const {
  return *(std::upper_bound(starts_.begin(), starts_.end(), at) - 1);
}

std::size_t FileBytes::line_stop(std::size_t at) const {
  return std::min(text_.size(), text_.find_first_of("\r\n", at));
}

std::size_t FileBytes::next_line(std::size_t at) const {
  const auto next = std::upper_bound(starts_.begin(), starts_.end(), at);
  return next == starts_.end() ? text_.size() : *next;
}

std::string FileBytes::line_end() const {
  const std::size_t stop = text_.find_first_of("\r\n");
  return stop != std::string_view::npos && text_.substr(stop, 2) == "\r\n" ? "\r\n" : "\n";
}

bool FileBytes::in_brackets(const Node& node) const {
  const std::size_t at = start(node);
  return at < text_.size() && (text_[at] == '{' || text_[at] == '[');
}

std::size_t FileBytes::past_quote(std::size_t at) const {
  const char quote = text_[at];
  for (++at; at < text_.size(); ++at) {
    if (quote == '"' && text_[at] == '\\') {
      ++at;
    } else if (text_[at] == quote) {
      if (quote == '"' || text_.substr(at + 1, 1) != "'") return at + 1;
      ++at;
    }
  }
  return text_.size();
}

// A quote opens a quoted text only where one begins: "shea d'or" is plain.
std::size_t FileBytes::past_brackets(std::size_t at) const {
  int depth = 0;
  bool begins = true;
  while (at < text_.size()) {
    const char c = text_[at];
    if (begins && (c == '"' || c == '\'')) {
      at = past_quote(at);
      begins = false;
      continue;
    }
    if (c == '#' && (text_[at - 1] == ' ' || text_[at - 1] == '\t' || text_[at - 1] == '\n')) {
      at = line_stop(at);
      continue;
    }
    if (c == '{' || c == '[') ++depth;
    if (c == '}' || c == ']') --depth;
    ++at;
    if (depth == 0) return at;
    if (c == '{' || c == '[' || c == ',' || c == ':')
      begins = true;
    else if (c != ' ' && c != '\t' && c != '\r' && c != '\n')
      begins = false;
  }
  return at;
}

Extent FileBytes::plain(const Node& node, std::size_t at) const {
  const std::string text = node.text();
  if (text_.substr(at, text.size()) == text && text.find('\n') == std::string::npos)
    return {at, at + text.size()};
  node.fail("this text goes over several lines", "Change it in an editor.");
}

Extent FileBytes::extent(const Node& node) const {
  const std::size_t at = start(node);
  if (node.is_null()) return {at, at};
  if (node.is_scalar()) {
    if (node.is_quoted() && (text_[at] == '"' || text_[at] == '\'')) return {at, past_quote(at)};
    return plain(node, at);
  }
  if (in_brackets(node)) return {at, past_brackets(at)};
  std::size_t to = at;
  if (node.is_map())
    for (const auto& [key, value] : node.entries())
      to = std::max(to, value.is_null() ? extent(key).to : extent(value).to);
  else
    for (const Node& item : node.items()) to = std::max(to, extent(item).to);
  return {at, to};
}

}  // namespace barwright::oils::yaml
