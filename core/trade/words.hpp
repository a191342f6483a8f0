#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace barwright::core {

/// Returns the words of a text in small letters: runs of letters, digits and the signs of
/// `in_words`. Each sign of `stops` is a word ";" of its own; all else only parts words.
std::vector<std::string> words_of(std::string_view text, std::string_view in_words = {},
                                  std::string_view stops = {});

}  // namespace barwright::core
