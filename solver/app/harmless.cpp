#include "solver/app/harmless.hpp"

#include <fmt/format.h>

#include "core/units/plain_text.hpp"

namespace barwright::app {

std::optional<core::InputError> unfit_argument(const std::vector<std::string>& args) {
  for (std::size_t i = 0; i < args.size(); ++i) {
    const auto unfit = core::first_unfit(args[i]);
    if (!unfit) continue;
    return core::InputError({fmt::format("argument {}", i + 1), 1, static_cast<int>(unfit->at) + 1},
                            "it " + unfit->what, "Type it again, in plain letters (UTF-8).",
                            args[i]);
  }
  return std::nullopt;
}

std::string harmless(std::string_view text) {
  std::string out;
  for (;;) {
    const std::size_t escape = text.find("\x1b[");
    out += core::visible(text.substr(0, escape));
    if (escape == std::string_view::npos) return out;
    text.remove_prefix(escape);
    const std::size_t end = text.find_first_not_of("0123456789;", 2);
    const bool colour = end != std::string_view::npos && text[end] == 'm';
    const std::string_view sign = text.substr(0, colour ? end + 1 : 2);
    out += colour ? std::string(sign) : core::visible(sign);
    text.remove_prefix(sign.size());
  }
}

std::string harmless_json(std::string_view text) {
  std::string out;
  while (const auto unfit = core::first_unfit(text)) {
    out += text.substr(0, unfit->at);
    std::string sign = core::visible(text.substr(unfit->at, unfit->size));
    if (sign.starts_with("\\x")) sign.replace(0, 2, "\\u00");
    out += sign;
    text.remove_prefix(unfit->at + unfit->size);
  }
  return out + std::string(text);
}

}  // namespace barwright::app
