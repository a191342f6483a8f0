#include "oils/text/yaml_text.hpp"

#include <algorithm>
#include <array>
#include <cctype>

#include "oils/text/text_check.hpp"
#include "oils/text/yaml.hpp"

namespace barwright::oils::yaml {

namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

}  // namespace

SourceText::SourceText(std::string text, std::string name) : name_(std::move(name)) {
  if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
  // "\r\n" and a lone "\r" both end a line, as YAML has it.
  text_.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\r')
      text_.push_back(text[i]);
    else if (i + 1 >= text.size() || text[i + 1] != '\n')
      text_.push_back('\n');
  }
  starts_.push_back(0);
  for (std::size_t i = 0; i < text_.size(); ++i)
    if (text_[i] == '\n') starts_.push_back(i + 1);
}

std::string SourceText::line(int number) const {
  if (number < 1 || static_cast<std::size_t>(number) > starts_.size()) return {};
  const std::size_t start = starts_[static_cast<std::size_t>(number) - 1];
  return text_.substr(start, text_.find('\n', start) - start);
}

core::Place SourceText::place(int line_index, int byte_column) const {
  // yaml-cpp marks what it could not place with -1.
  if (line_index < 0 || byte_column < 0) return {name_, 0, 0};
  return {name_, line_index + 1, byte_column + 1};
}

bool SourceText::quote_closes(const core::Place& where) const {
  if (where.line < 1 || where.column < 1) return true;
  std::size_t i = starts_[static_cast<std::size_t>(where.line) - 1] +
                  static_cast<std::size_t>(where.column) - 1;
  if (i >= text_.size() || (text_[i] != '\'' && text_[i] != '"')) return true;
  const char quote = text_[i];
  for (++i; i < text_.size(); ++i) {
    if (quote == '"' && text_[i] == '\\') {
      ++i;
    } else if (text_[i] == quote) {
      if (quote == '"' || i + 1 >= text_.size() || text_[i + 1] != quote) return true;
      ++i;
    }
  }
  return false;
}

void SourceText::fail(const core::Place& where, const std::string& message,
                      const core::Remedy& remedy) const {
  throw core::InputError(where, message, remedy, line(where.line));
}

void SourceText::check() const {
  check_text(text_, name_);
  for (std::size_t line = 0; line < starts_.size(); ++line) {
    const std::size_t start = starts_[line];
    const std::size_t first = text_.find_first_not_of(' ', start);
    if (first != std::string::npos && text_[first] == '\t')
      fail(place(static_cast<int>(line), static_cast<int>(first - start)),
           "a tab stands at the start of the line", "Indent with spaces.");
  }
}

std::string_view trimmed_view(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}
std::string trimmed(std::string_view text) { return std::string(trimmed_view(text)); }

std::string folded(std::string_view text) {
  std::string result;
  for (char c : text) {
    const bool space = is_space(c) || c == '-' || c == '_';
    if (space && (result.empty() || result.back() == ' ')) continue;
    result.push_back(space ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(c))));
  }
  while (!result.empty() && result.back() == ' ') result.pop_back();
  return result;
}

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (c == '\n')
      out += "\\n";
    else if (c == '\r')
      out += "\\r";
    else if (c == '\t')
      out += "\\t";
    else
      out += c;
  }
  return out + '"';
}

std::string bare_or_quoted(const std::string& text) {
  const auto is_word = [](char c) {  // letters of other alphabets too
    return std::isalnum(static_cast<unsigned char>(c)) != 0 ||
           static_cast<unsigned char>(c) >= 0x80;
  };
  bool bare = !text.empty() && is_word(text.front()) && text.back() != ' ' &&
              text.find_first_of("#,[]{}\"'\\&*!|>%@`?\t\n\r") == std::string::npos;
  for (std::size_t i = 0; bare && i < text.size();
       ++i)  // "C18:1" is a word, "a: 1" and "a:" are not
    bare = text[i] != ':' || (i + 1 < text.size() && is_word(text[i + 1]));
  const std::string word = folded(text);
  return bare && word != "null" ? text : yaml::quoted(text);
}

bool is_nan_or_infinity(std::string_view text) {
  std::string_view body = trimmed_view(text);
  if (!body.empty() && (body.front() == '+' || body.front() == '-')) body.remove_prefix(1);
  if (!body.empty() && body.front() == '.') body.remove_prefix(1);
  const std::string word = folded(body.substr(0, body.find(' ')));
  return word == "nan" || word == "inf" || word == "infinity";
}

}  // namespace barwright::oils::yaml
