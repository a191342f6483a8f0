#include "core/units/error.hpp"

#include <utility>

namespace barwright::core {

InputError::InputError(Place place, std::string message, std::string remedy,
                       std::string source_line)
    : std::runtime_error(message),
      place_(std::move(place)),
      message_(std::move(message)),
      remedy_(std::move(remedy)),
      source_line_(std::move(source_line)) {
  render();
}

void InputError::add_context(const std::string& context) {
  contexts_.push_back(context);
  render();
}

void InputError::set_way(const std::string& way) {
  way_ = way;
  add_context("in " + way);
}

void InputError::render() {
  text_ = place_.file;
  if (place_.line > 0) {
    text_ += (text_.empty() ? "" : ":") + std::to_string(place_.line);
    if (place_.column > 0) text_ += ":" + std::to_string(place_.column);
  }
  if (!text_.empty()) text_ += ": ";
  text_ += message_;
  if (!source_line_.empty()) {
    text_ += "\n  " + source_line_;
    if (place_.column > 0) {
      // The caret stands under the column; tabs are kept so that it lines up in any terminal, and
      // the later bytes of a UTF-8 letter take no room.
      std::string blank;
      const auto upto = static_cast<std::size_t>(place_.column) - 1;
      for (std::size_t i = 0; i < upto; ++i) {
        const unsigned char byte =
            i < source_line_.size() ? static_cast<unsigned char>(source_line_[i]) : ' ';
        if ((byte & 0xC0U) == 0x80U) continue;
        blank += byte == '\t' ? '\t' : ' ';
      }
      text_ += "\n  " + blank + "^";
    }
  }
  if (!remedy_.empty()) text_ += "\n  " + remedy_;
  for (const auto& context : contexts_) text_ += "\n  " + context;
}

Refusal::Refusal(std::string reason, std::string remedy)
    : std::runtime_error(reason + " " + remedy),
      reason_(std::move(reason)),
      remedy_(std::move(remedy)) {}

}  // namespace barwright::core
