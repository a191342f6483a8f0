#include "core/trade/words.hpp"

#include <cctype>
#include <utility>

namespace barwright::core {

std::vector<std::string> words_of(std::string_view text, std::string_view in_words,
                                  std::string_view stops) {
  std::vector<std::string> out;
  std::string word;
  const auto end = [&] {
    if (!word.empty()) out.push_back(std::move(word));
    word.clear();
  };
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || byte >= 0x80 || in_words.find(c) != std::string_view::npos) {
      word += static_cast<char>(std::tolower(byte));
      continue;
    }
    end();
    if (stops.find(c) != std::string_view::npos) out.emplace_back(";");
  }
  end();
  return out;
}

}  // namespace barwright::core
