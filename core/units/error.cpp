#include "core/units/error.hpp"

#include <algorithm>
#include <iterator>
#include <string_view>
#include <utility>

#include "core/units/plain_text.hpp"

namespace barwright::core {
namespace {

constexpr std::size_t kLongestMessage = 900;
constexpr std::size_t kLongestAdvice = 6000;  // it may list every name that is known
constexpr std::size_t kLongestLine = 160;

// What a message quotes of a file may be anything: it is shown, never obeyed, and not by the page.
std::string told(const std::string& text, std::size_t most = kLongestAdvice) {
  return shortened(visible(text), most);
}

// A line of a file with a caret under its column (from 1; 0: none). Of a long line what stands
// around the column. Tabs are kept before the caret, so that it lines up in any terminal.
std::string shown_line(std::string line, int column) {
  std::size_t at = column > 0 ? static_cast<std::size_t>(column) - 1 : 0;
  std::string before;
  if (at > kLongestLine / 2) {
    std::size_t from = std::min(line.size(), at - kLongestLine / 2);
    while (from < line.size() && inside_letter(line[from])) ++from;
    line.erase(0, from);
    at -= from;
    before = "... ";
  }
  if (line.size() > kLongestLine) {
    std::size_t to = kLongestLine;
    while (to > 0 && inside_letter(line[to])) --to;
    line.resize(to);
    line += " ...";
  }
  std::string out = "\n  " + before + visible(line);
  if (column <= 0) return out;
  const std::string upto = visible(std::string_view(line).substr(0, at));
  std::string blank(before.size(), ' ');
  for (const char c : upto) {
    if (c == '\t')
      blank += '\t';
    else if (!inside_letter(c))
      blank += ' ';
  }
  blank.append(at - std::min(at, line.size()), ' ');
  return out + "\n  " + blank + "^";
}

}  // namespace

InputError::InputError(Place place, std::string message, Remedy remedy, std::string source_line)
    : std::runtime_error(message),
      place_(std::move(place)),
      message_(told(message, kLongestMessage)),
      remedy_(std::move(remedy)),
      source_line_(std::move(source_line)) {
  remedy_.text = told(remedy_.text);
  for (std::string& name : remedy_.suggestions) name = told(name);
  render();
}

void InputError::add_context(const std::string& context) {
  contexts_.push_back(told(context));
  for (InputError& other : also_) other.add_context(context);
  render();
}

InputError InputError::alone() const {
  InputError out = *this;
  out.also_.clear();
  out.render();
  return out;
}

void InputError::add(InputError other) {
  also_.push_back(other.alone());
  also_.insert(also_.end(), std::make_move_iterator(other.also_.begin()),
               std::make_move_iterator(other.also_.end()));
  render();
}

void InputError::set_way(const std::string& way) {
  way_ = way;
  add_context("in " + way);
}

void InputError::render() {
  text_ = told(place_.file, kLongestMessage);
  if (place_.line > 0) {
    text_ += (text_.empty() ? "" : ":") + std::to_string(place_.line);
    if (place_.column > 0) text_ += ":" + std::to_string(place_.column);
  }
  if (!text_.empty()) text_ += ": ";
  text_ += message_;
  if (!source_line_.empty()) text_ += shown_line(source_line_, place_.column);
  if (!remedy_.text.empty()) text_ += "\n  " + remedy_.text;
  for (const auto& context : contexts_) text_ += "\n  " + context;
  for (std::size_t i = 0; i < also_.size() && i + 1 < kShown; ++i) text_ += "\n\n" + also_[i].text_;
  if (also_.size() >= kShown)
    text_ += "\n\nand " + std::to_string(also_.size() + 1 - kShown) + " more";
}

Refusal::Refusal(std::string reason, std::string remedy)
    : std::runtime_error(told(reason) + " " + told(remedy)),
      reason_(told(reason)),
      remedy_(told(remedy)) {}

}  // namespace barwright::core
