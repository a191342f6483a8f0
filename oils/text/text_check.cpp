#include "oils/text/text_check.hpp"

#include "core/units/error.hpp"
#include "core/units/plain_text.hpp"

namespace barwright::oils {

void check_text(std::string_view text, const std::string& name) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const auto unfit = core::first_unfit(text);
  if (!unfit) return;
  core::Place place{name, 1, 0};
  std::size_t start = 0;  // "\r\n", "\n" and a lone "\r" each end a line
  for (std::size_t i = 0; i < unfit->at; ++i) {
    const bool pair = text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n';
    if (pair || (text[i] != '\n' && text[i] != '\r')) continue;
    ++place.line;
    start = i + 1;
  }
  place.column = static_cast<int>(unfit->at - start) + 1;
  const std::string_view line = text.substr(start, text.find_first_of("\r\n", start) - start);
  throw core::InputError(place, unfit->message(), unfit->remedy, std::string(line));
}

}  // namespace barwright::oils
